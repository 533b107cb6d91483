"""Drawing: all files are read and checked before any is drawn; if a check fails, none is."""

import json
import os
import re
from pathlib import Path

import pytest
from command.calls import FAILING, SOUND, call, refused, tree, write

from templates_gen.bow import catalogue
from templates_gen.parameters.families import FAMILIES
from templates_gen.pipeline import rendering, selection

DRAW = ("draw", "--plane", "-o", "out", "--format", "svg")


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)
    write("knot.toml", FAILING)


def names(file="dunlin.toml"):
    return [t.name for t in selection.templates(rendering.read(file))]


def drawn(folder="out", form="svg"):
    return sorted(p.name for p in Path(folder).iterdir() if p.suffix == f".{form}")


@pytest.mark.parametrize("files", [["knot.toml"], ["dunlin.toml", "knot.toml"]])
def test_draws_nothing_if_a_check_fails(capsys, files):
    before = tree()
    said = call(capsys, *DRAW, *files)
    assert (said.status, said.out) == (1, "")
    assert "knot.toml: Knot" in said.err
    assert "ferrule.ribbon_fits" in said.err and "Cure: make " in said.err
    assert "--force" in said.err
    assert "dunlin.toml" not in said.err
    assert tree() == before


def test_force_draws_and_stamps_every_sheet(capsys):
    said = call(capsys, *DRAW, "--force", "knot.toml")
    assert said.status == 1
    assert "ferrule.ribbon_fits" in said.err
    assert drawn() == sorted(f"knot--{n}.svg" for n in names("knot.toml"))
    for file in drawn():
        text = Path("out", file).read_text("utf-8")
        assert "FORCED" in text, file
        assert "SOLIDS NOT CONFIRMED" in text, file


def test_passing_pattern_is_not_stamped_as_forced(capsys):
    assert call(capsys, *DRAW, "--force", "dunlin.toml").status == 0
    assert not any("FORCED" in Path("out", f).read_text("utf-8") for f in drawn())


def test_unreadable_file_stops_all_drawing(capsys):
    write("bad.toml", SOUND.replace("12.7", "nan"))
    before = tree()
    for files in (("dunlin.toml", "bad.toml"), ("bad.toml", "dunlin.toml")):
        refused(call(capsys, *DRAW, "--force", *files))
    assert tree() == before


def test_force_omits_a_shape_that_cannot_be_made(capsys):
    write("odd.toml", FAILING.replace("Knot", "Odd") + "height = 4\nplate_thickness = 3\n")
    before = tree()
    said = call(capsys, *DRAW, "dunlin.toml", "odd.toml")
    assert said.status == 1 and "odd.toml: Odd" in said.err
    assert tree() == before
    said = call(capsys, *DRAW, "--force", "dunlin.toml", "odd.toml")
    assert said.status == 1
    missing = re.findall(r"^not drawn: (\S+): ", said.out, re.MULTILINE)
    assert missing
    left = {n for n in names("odd.toml") if f"odd--{n}.svg" not in drawn("out/odd")}
    assert left == {*missing}


def test_several_patterns_each_in_its_folder(capsys):
    said = call(capsys, *DRAW, "--force", "dunlin.toml", "knot.toml")
    assert said.status == 1
    for name in ("dunlin", "knot"):
        assert drawn(f"out/{name}") == sorted(f"{name}--{n}.svg" for n in names(f"{name}.toml"))


def test_does_not_draw_one_pattern_over_another(capsys):
    """Two files of one name: two starters, or one file named twice."""
    write("other.toml", SOUND.replace("Dunlin", "dunlin!"))
    before = tree()
    for other in ("other.toml", "dunlin.toml"):
        (line,) = refused(call(capsys, *DRAW, "dunlin.toml", other))
        assert line.startswith(f"{other}: pattern.name: ") and "name of its own" in line
    assert tree() == before


def test_list_matches_what_is_drawn(capsys):
    listed = json.loads(call(capsys, "list", "--json", "dunlin.toml").out)["templates"]
    assert [t["name"] for t in listed] == names()
    said = call(capsys, "list", "dunlin.toml").out
    words = " ".join(said.split())
    assert all(f"\n{t['name']} " in f"\n{said}" and t["purpose"] in words for t in listed)
    assert call(capsys, "draw", "--plane", "dunlin.toml", "-o", "out").status == 0
    for form in ("dxf", "svg", "pdf"):
        together = ["dunlin.pdf"] if form == "pdf" else []
        alone = sorted(f"dunlin--{t['name']}.{form}" for t in listed)
        assert drawn(form=form) == [*alone, *together]


def test_draws_only_the_named_templates(capsys):
    assert call(capsys, *DRAW, "dunlin.toml", "--only", names()[0]).status == 0
    assert drawn() == [f"dunlin--{names()[0]}.svg"]


def test_reports_and_keeps_files_of_an_earlier_draw(capsys):
    draw = ("draw", "--plane", "dunlin.toml", "-o", "out", "--format", "pdf")
    assert "earlier draw" not in call(capsys, *draw).out
    assert "earlier draw" not in call(capsys, *draw).out
    before = Path("out/dunlin.pdf").read_bytes()
    said = " ".join(call(capsys, *draw, "--only", names()[0]).out.split())
    left = len(names()) - 1
    assert f"note: dunlin.pdf and {left} more in out: from an earlier draw; print only" in said
    assert Path("out/dunlin.pdf").read_bytes() == before
    assert len(drawn(form="pdf")) == left + 2


def test_name_prefix_selects_all_its_templates(capsys):
    asked = (*DRAW, "dunlin.toml", "--paper", "A4", "--only")
    assert call(capsys, *asked, "frog,ferrule-plate").status == 0
    frogs = [f"dunlin--{n}.svg" for n in names() if n.startswith("frog-")]
    assert len(frogs) > 10
    assert drawn() == sorted([*frogs, "dunlin--ferrule-plate.svg"])


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("frg", "did you mean frog"),
        ("mortise", "frog-mortise-card"),
        ("ferule-plate", "ferrule-plate"),
        ("zzzz", "`templates-gen list FILE` names them"),
        ("frog-", "frog-side"),
    ],
)
def test_lists_names_near_an_unknown_template(capsys, word, near):
    said = call(capsys, *DRAW, "dunlin.toml", "--only", word)
    lines = refused(said, messages=None)
    assert lines[0].startswith(f"--only: {word}: no such template; ")
    assert near in " ".join(said.err.split())
    assert len(lines) == 1 and len(said.err.splitlines()) <= 3


def test_manifest_lists_checks_and_files(capsys):
    call(capsys, *DRAW, "dunlin.toml")
    manifest = json.loads(Path("out/manifest.json").read_text("utf-8"))
    assert set(manifest["files"]) >= set(drawn())
    assert [c["id"] for c in manifest["checks"]] == [r.id for r in catalogue.rules()]


def _a_file():
    write("out", "in the way")


def _below_a_file():
    write("out", "in the way")
    return "out/deeper"


def _read_only():
    Path("out").mkdir(mode=0o500)
    if os.access("out", os.W_OK):
        pytest.skip("this user may write everywhere")


def _a_link_to_nowhere():
    Path("out").symlink_to("gone/away")


def _a_name_too_long():
    return "x" * 300


@pytest.mark.parametrize(
    "make", [_a_file, _below_a_file, _read_only, _a_link_to_nowhere, _a_name_too_long]
)
def test_folder_that_cannot_be_written(capsys, make):
    out = make() or "out"
    before = tree()
    (line,) = refused(call(capsys, "draw", "--plane", "--format", "svg", "dunlin.toml", "-o", out))
    assert line.startswith(f"{out}: cannot be written") and "-o" in line
    assert tree() == before


def test_file_in_place_of_the_folder_is_reported_before_drawing(capsys, monkeypatch):
    def drawing(*_, **__):
        raise AssertionError("drawn all the same")

    monkeypatch.setattr(rendering, "render", drawing)
    write("out", "in the way")
    (line,) = refused(call(capsys, *DRAW, "dunlin.toml"))
    assert line == "out: cannot be written: it is a file, not a folder; name a folder with -o"
    (line,) = refused(call(capsys, *DRAW, "--force", "dunlin.toml", "knot.toml"))
    assert line.startswith("out: ")


@pytest.mark.parametrize("family", FAMILIES)
def test_a_new_file_checks_and_draws(capsys, family):
    said = call(capsys, "new", family, "-o", "bow.toml")
    assert (said.status, said.err) == (0, "")
    assert call(capsys, "check", "bow.toml").status == 0
    said = call(capsys, *DRAW, "bow.toml")
    assert said.status == 0, said.err
    assert drawn() == sorted(f"bow--{n}.svg" for n in names("bow.toml"))


def test_new_overwrites_nothing(capsys):
    (line,) = refused(call(capsys, "new", "violin", "-o", "dunlin.toml"))
    assert "already there" in line
    assert Path("dunlin.toml").read_text("utf-8") == SOUND
    Path("link.toml").symlink_to("gone.toml")
    refused(call(capsys, "new", "violin", "-o", "link.toml"))
    assert not Path("gone.toml").exists()


@pytest.mark.parametrize("target", ["gone/bow.toml", "dunlin.toml/bow.toml", "x" * 300])
def test_new_where_nothing_can_be_written(capsys, target):
    before = tree()
    (line,) = refused(call(capsys, "new", "violin", "-o", target))
    assert "cannot be written" in line
    assert ("there is no folder gone" in line) == target.startswith("gone/")
    assert tree() == before


def test_rejects_csv_without_a_table(capsys):
    """Only tables go into CSV; the message names the templates that have one."""
    argv = ("draw", "--plane", "-o", "out", "dunlin.toml", "--format", "csv", "--only")
    (line,) = refused(call(capsys, *argv, "frog-side"))
    assert "--format: csv: frog-side has no table" in line
    assert all(name in line for name in ("bow-work-card", "bow-stock-list", "form-ordinates"))
    (line,) = refused(call(capsys, *argv, "frog"))
    count = sum(n.startswith("frog-") for n in names())
    assert f"csv: none of the {count} templates has a table" in line
    assert not Path("out").exists()
    assert call(capsys, *argv, "frog-side,bow-stock-list").status == 0
    assert drawn(form="csv") == ["dunlin--bow-stock-list.csv"]


@pytest.mark.parametrize(
    ("formats", "last"),
    [
        ("pdf", "print at 100 %, measure the 50 mm square, then cut"),
        ("dxf,svg", "print at 100 %, measure the 50 mm square, then cut"),
        ("dxf,csv", "measure the 50 mm square in your program, then cut"),
        ("csv", "next: open out/index.html"),
    ],
)
def test_last_line_says_how_to_use_the_files(capsys, formats, last):
    argv = ("draw", "--plane", "-o", "out", "dunlin.toml", "--only", "form", "--format", formats)
    said = call(capsys, *argv)
    assert said.status == 0
    assert said.out.splitlines()[-1] == last
