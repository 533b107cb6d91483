"""The file that scaling writes, through the command."""

import json
import tomllib
from pathlib import Path

import pytest
from command.calls import call, refused

from templates_gen.parameters.families import bands
from templates_gen.pipeline import rendering

BASS = """\
# Turnstone, after the old bow on the wall
units = "mm"
based_on = "bass-french"

[pattern]
name = "Turnstone"

# measured by lamplight
[ferrule]
outer_width = 23.0   # wide
height = { value = 10.6, tol = 0.1, note = "on the mandrel" }  # twice

[heel]
lean_deg = 2
"""


@pytest.fixture(autouse=True)
def in_folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("turnstone.toml").write_text(BASS, "utf-8")


def lines(text):
    return [line.split("#")[1].strip() for line in text.splitlines() if "#" in line]


def test_comments_stay_the_base_is_the_new_family_and_it_reads_back(capsys):
    said = call(capsys, "scale", "turnstone.toml", "--to", "cello", "-o", "cello.toml")
    assert (said.status, said.err) == (0, "")
    text = Path("cello.toml").read_text("utf-8")
    assert lines(text) == lines(BASS)
    table = tomllib.loads(text)
    assert table["based_on"] == table["pattern"]["family"] == "cello"
    assert table["ferrule"]["outer_width"] == 15.5
    assert table["ferrule"]["height"]["tol"] == 0.1
    assert "10.6 before scaling: on the mandrel" in table["ferrule"]["height"]["note"]
    assert call(capsys, "check", "cello.toml").status == 0
    # Only what differs from the family's usual is stated.
    usual = bands("cello")
    p = rendering.read("cello.toml")
    differing = {k for k, v in p if v != usual[k].usual}
    stated = {f"{s}.{k}" for s, t in table.items() if isinstance(t, dict) for k in t}
    assert differing == {key for key in stated if not key.startswith("pattern.")}


def test_the_table_fits_the_screen_and_tells_old_new_and_why(capsys):
    said = call(capsys, "scale", "turnstone.toml", "--to", "violin", "-o", "violin.toml")
    printed = said.out.splitlines()
    assert max(map(len, printed)) <= 80
    (row,) = (line for line in printed if "ferrule.outer_width" in line)
    assert row.split()[:6] == ["ferrule.outer_width", "23", "→", "13.1", "with", "the"]
    assert any("never scales" in line for line in printed)
    assert printed[-2].endswith("0 fail") and printed[-1] == "  All checks pass: ready to cut"


def test_json_holds_every_value_once(capsys):
    said = call(capsys, "scale", "turnstone.toml", "--to", "viola", "-o", "viola.toml", "--json")
    told = json.loads(said.out)
    keys = [c["key"] for c in told["changes"] + told["stays"]]
    assert sorted(keys) == sorted(rendering.read("viola.toml").values)
    assert told["ok"] is True
    assert all(c["old"] != c["new"] for c in told["changes"])
    assert all(c["old"] == c["new"] for c in told["stays"])
    assert all(c["why"] for c in told["changes"] + told["stays"])


def test_a_starters_own_comments_tell_of_the_new_family_and_the_makers_stay(capsys):
    call(capsys, "new", "bass-german", "-o", "a.toml")
    text = Path("a.toml").read_text("utf-8")
    mine = text.replace("# Hair\n", "# Hair, from the white bundle\n").replace(
        "Number of hairs, n_h", "hairs, counted, n_h"
    )
    Path("a.toml").write_text(mine, "utf-8")
    assert call(capsys, "scale", "a.toml", "--to", "violin", "-o", "b.toml").status == 0
    call(capsys, "new", "violin", "-o", "c.toml", "--name", "A for violin")
    made, expected = (words(Path(f).read_text("utf-8")) for f in ("b.toml", "c.toml"))
    told = "170 Number of hairs, n_h; usually 150 to 200 [BAM]"
    mine = "170 hairs, counted, n_h; usually 240 to 350 [BAM]"
    assert made == expected.replace("Hair [hair]", "Hair, from the white bundle [hair]").replace(
        told, mine
    )


def words(text):
    """A text without what wrapping changes."""
    return " ".join(w for w in text.split() if w not in ("#", "="))


def test_resting_on_a_file_it_states_what_it_had_from_there(capsys):
    Path("dunlin.toml").write_text(
        'units = "mm"\nbased_on = "turnstone.toml"  # the model\n\n[pattern]\nname = "Dunlin"\n',
        "utf-8",
    )
    before = rendering.read("dunlin.toml")
    Path("away").mkdir()
    for argv in (
        ["--to", "cello", "-o", "one.toml"],
        ["--set", "frog.eye_up=0.5", "-o", "away/two.toml"],
    ):
        assert call(capsys, "scale", "dunlin.toml", *argv).status == 0
        text = Path(argv[-1]).read_text("utf-8")
        assert "# the model" in text
        made = rendering.read(argv[-1])
        assert tomllib.loads(text)["based_on"] == made.family.name
        assert made.tolerances == before.tolerances
    assert made.values == {**before.values, "frog.eye_up": 0.5}
    assert made.notes == before.notes


def test_resting_on_a_file_beside_it_a_set_value_is_all_that_is_added(capsys):
    text = 'units = "mm"\nbased_on = "turnstone.toml"\n\n[pattern]\nname = "Dunlin"\n'
    Path("dunlin.toml").write_text(text, "utf-8")
    call(capsys, "scale", "dunlin.toml", "--set", "frog.eye_up=0.5", "-o", "two.toml")
    assert Path("two.toml").read_text("utf-8") == text + "\n[frog]\neye_up = 0.5\n"


def test_a_whole_file_of_its_own_is_carried_whole(capsys):
    call(capsys, "new", "viola", "-o", "a.toml")
    call(capsys, "scale", "a.toml", "--to", "bass-german", "-o", "b.toml")
    before, made = rendering.read("a.toml"), rendering.read("b.toml")
    assert made.family.name == "bass-german"
    assert {*made.places} == {*before.places}


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        (["--to", "cello", "-o", "turnstone.toml"], "already exists"),
        (["-o", "x.toml"], "nothing to scale to"),
        (["--to", "banjo", "-o", "x.toml"], '"banjo" is not a family'),
        (["--set", "ferrule.height", "-o", "x.toml"], "KEY=VALUE"),
        (["--set", "ferrule.height=", "-o", "x.toml"], "KEY=VALUE"),
        (["--set", "heel.lean_deg=1", "--set", "heel.lean_deg=2", "-o", "x.toml"], "set twice"),
        (["--set", "ferrule.hight=9", "-o", "x.toml"], "ferrule.height"),
        (["--set", "heel.lean_deg=nan", "-o", "x.toml"], "finite"),
        (["--to", "cello", "-o", "nowhere/x.toml"], "cannot be written"),
    ],
)
def test_what_cannot_be_done_is_refused_and_nothing_is_written(capsys, argv, words):
    (line,) = refused(call(capsys, "scale", "turnstone.toml", *argv))
    assert words in line
    assert [p.name for p in Path().iterdir()] == ["turnstone.toml"]
    assert Path("turnstone.toml").read_text("utf-8") == BASS


def test_writes_and_reports_a_failing_pattern_and_exits_1(capsys):
    settings = ("frog.hair_mortise_length=24", "frog.hair_mortise_from_heel=3")
    argv = [w for s in (*settings, "slide.length=15") for w in ("--set", s)]
    said = call(capsys, "scale", "turnstone.toml", "--to", "violin", *argv, "-o", "x.toml")
    assert said.status == 1
    assert "FAIL " in said.out
    assert call(capsys, "check", "x.toml").status == 1


def test_an_unusual_value_is_noted_in_its_row_only(capsys):
    """The bands are the table's own: what is usual is no fact outside the project."""
    for family, option in (("bass-french", ()), ("bass-german", ("--json",))):
        call(capsys, "new", family, "-o", f"{family}.toml")
        handle = ["--set", "stick.across_flats_butt=13.6", "-o", f"{family}2.toml"]
        said = call(capsys, "scale", f"{family}.toml", *handle, *option)
        band = bands(family)["frog.width_top"]
        words = f"outside what is usual, {band.low:g}–{band.high:g}"
        if option:
            (why,) = (c["why"] for c in json.loads(said.out)["changes"] if "width_top" in c["key"])
            assert why == f"across flats butt × 1.133; {words}"
            continue
        told = " ".join(said.out.split())
        assert f"frog.width_top 12.4 → 14.05 across flats butt × 1.133; {words} frog" in told
        assert told.count("frog.width_top") == 1
        assert max(map(len, said.out.splitlines())) <= 80


@pytest.mark.parametrize(
    ("argv", "cure"),
    [
        (["--set", "ferrule.height=7,5"], "; write 7.5"),
        (["--set", "ferrule.arch_kind=7,5"], '"flat-top"'),
        (["--set", "nonsense=1"], "lists all parameters"),
        (["--to", "nonsense"], '"bass-german"'),
        (["--set", "ferrule.height=99"], "state a number from 4 to 18 mm"),
    ],
)
def test_error_messages_fit_80_columns_and_name_the_cure(capsys, argv, cure):
    said = call(capsys, "scale", "turnstone.toml", *argv, "-o", "x.toml")
    (message,) = refused(said)
    assert message.endswith(cure)
    assert max(map(len, said.err.splitlines())) <= 80


def test_a_remark_keeps_the_first_value_and_loses_it_when_it_is_that_again(capsys):
    starts = ["turnstone.toml", "cello.toml", "viola.toml"]
    for start, to in zip(starts, ("cello", "viola", "bass-french"), strict=True):
        assert call(capsys, "scale", start, "--to", to, "-o", f"{to}.toml").status == 0
    cello, viola, bass = (
        tomllib.loads(Path(f"{to}.toml").read_text("utf-8"))["ferrule"]["height"]
        for to in ("cello", "viola", "bass-french")
    )
    assert cello["note"] == viola["note"] == "of 10.6 before scaling: on the mandrel"
    assert bass["value"] in (10.5, 10.6, 10.7)
    same = bass["value"] == 10.6
    assert bass["note"] == ("on the mandrel" if same else cello["note"])


def test_repeated_notes_are_kept_once(capsys):
    piled = "of 8 before scaling: of 10.4 before scaling: on the mandrel"
    Path("turnstone.toml").write_text(BASS.replace("on the mandrel", piled), "utf-8")
    for value, expected in (("10.5", "of 10.4 before scaling: "), ("10.4", "")):
        out = f"set-{value}.toml"
        setting = f"ferrule.height={value}"
        assert call(capsys, "scale", "turnstone.toml", "--set", setting, "-o", out).status == 0
        note = tomllib.loads(Path(out).read_text("utf-8"))["ferrule"]["height"]["note"]
        assert note == f"{expected}on the mandrel"


def test_the_rest_of_a_starter_comment_is_of_the_new_family(capsys):
    """The maker wrote over its first line; the second must not tell what is usual in a bass."""
    assert call(capsys, "new", "bass-french", "-o", "new.toml", "--name", "Stint").status == 0
    text = Path("new.toml").read_text("utf-8")
    (line,) = (each for each in text.splitlines() if "from the underside of the plate" in each)
    (height,) = (each for each in text.splitlines() if each.startswith("filing_allowance   = 0.5"))
    text = text.replace(line, "height = 14.9  # former 4")
    text = text.replace(height, "filing_allowance = 0.5  # filed\n     # by eye")
    Path("new.toml").write_text(text, "utf-8")
    assert call(capsys, "scale", "new.toml", "--to", "cello", "-o", "cello.toml").status == 0
    lines = Path("cello.toml").read_text("utf-8").splitlines()
    at = next(i for i, each in enumerate(lines) if each.endswith("# former 4"))
    usual = bands("cello")["ferrule.height"]
    assert lines[at].endswith("# former 4")
    assert lines[at + 1].strip() == f"# arch, H_f; usually {usual.low:g} to {usual.high:g} mm [M]"
    assert "     # by eye" in lines
