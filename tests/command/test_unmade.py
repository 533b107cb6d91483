"""Test parameters at their bounds: drawn, or rejected by a named check first.

A sheet that cannot be made under ``--force`` is left out, with its reason on screen, on the page
and in the manifest; everything else is drawn.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from command.calls import call, write
from page.parsed import parsed

from templates_gen.bow import catalogue
from templates_gen.errors import GeometryError

#: A section of a violin's file, and the template that once could not be drawn with it.
DRAWN = (
    ("ferrule", "filing_allowance = 0", "ferrule-plate,ferrule-arch-strip"),
    ("heel", "filing_allowance = 0", "heel-plate"),
    ("head", "filing_allowance = 0", "head-plate,head-liner"),
    ("head", "mortise_undercut_deg = 0", "head-plug"),
)
#: The same where a check must fail first, by its name, and a cure is offered.
REFUSED = (
    ("heel", "pin_from_edge = 12", "heel.pins_apart"),
    ("heel", "rear_leg = 4", "heel.pins_apart"),
    ("heel", "rear_leg = 18", "frog.seat_over_plate"),
    ("form", "depth = 20", "form.holes"),
    ("form", "beyond = 0", "form.beyond"),
)
HEAD = 'units = "mm"\nbased_on = "violin"\n[pattern]\nname = "Knot"\n'


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


def draw(capsys, text, *more):
    write("knot.toml", HEAD + text)
    argv = ("draw", "knot.toml", "-o", "out", "--plane", "--format", "svg", *more)
    return call(capsys, *argv)


@pytest.mark.parametrize(("section", "line", "names"), DRAWN, ids=lambda v: v)
def test_template_is_drawn(capsys, section, line, names):
    said = draw(capsys, f"[{section}]\n{line}\n", "--only", names)
    assert (said.status, said.err) == (0, ""), said
    for name in names.split(","):
        assert Path(f"out/knot--{name}.svg").is_file()


@pytest.mark.parametrize(("section", "line", "guard"), REFUSED, ids=lambda v: v)
def test_check_reports_it_first(capsys, section, line, guard):
    text = f"[{section}]\n{line}\n"
    said = draw(capsys, text)
    assert said.status == 1 and not Path("out").exists()
    assert f"FAIL   {guard}" in said.err
    failed = said.err.split(guard)[1]
    assert "Cure: make " in failed.split("FAIL ")[0]
    forced = draw(capsys, text, "--force")
    assert forced.status == 1
    assert Path("out/knot--heel-plate.svg").is_file()


WIDE = "[frog]\nwidth_waist = 20\n"


def test_sheet_that_cannot_be_made_is_omitted_alone(capsys):
    said = draw(capsys, WIDE, "--force", "--only", "frog-side,frog-rear,frog-flank-gauge,head-side")
    assert said.status == 1, said
    assert "not drawn: frog-rear: the waist is not narrower" in said.out
    assert "not drawn: frog-flank-gauge: " in said.out
    made = {f.name for f in Path("out").glob("*.svg")}
    assert made == {"knot--frog-side.svg", "knot--head-side.svg"}
    manifest = json.loads(Path("out/manifest.json").read_text("utf-8"))
    assert manifest["not_drawn"].keys() == {"frog-rear", "frog-flank-gauge"}
    assert manifest["files"].keys() == made | {"index.html"}
    page = parsed(Path("out/index.html").read_bytes())
    missing = [e.text for e in page.all("article") if "Not drawn" in e.text]
    assert len(missing) == 2 and all("the waist is not narrower" in text for text in missing)
    assert {e.attributes["href"] for e in page.all("a")} >= made


def test_reports_nothing_not_drawn_where_all_is_drawn(capsys):
    said = draw(capsys, "", "--only", "frog-side")
    assert said.status == 0 and "not drawn" not in said.out
    assert "not_drawn" not in json.loads(Path("out/manifest.json").read_text("utf-8"))
    assert b"Not drawn" not in Path("out/index.html").read_bytes()


def test_nothing_is_printed_as_measured_where_there_is_no_shape(capsys):
    write("knot.toml", HEAD + WIDE)
    said = call(capsys, "check", "knot.toml")
    assert said.status == 1
    assert "nan" not in said.out and "inf" not in said.out
    told = said.out.split("frog.mortise_to_flank ")[1].split("FAIL ")[0]
    assert told.startswith("        not measured\n")
    assert "These dimensions give no valid shape to measure." in " ".join(told.split())
    assert "Cure first: frog.waist_to_top, frog.waist_to_heel." in told
    assert "Cure: the same, frog.width_waist " in told
    weighed = call(capsys, "weigh", "knot.toml")
    assert (weighed.status, weighed.out) == (2, "") and "nan" not in weighed.err


def test_reports_a_bug_where_every_check_passes(capsys, monkeypatch):
    """It is not the file's fault: no check names a value to change."""

    def broken(_):
        raise GeometryError("no arc", (1.0, 2.0))

    first = replace(catalogue.templates()[0], views=broken)
    monkeypatch.setattr(catalogue, "templates", lambda: (first,))
    said = draw(capsys, "")
    assert said.status == 3 and said.out == ""
    assert "no arc" in said.err and "report" in said.err


@pytest.mark.parametrize("table", ["from 0", "a steep last step"])
def test_a_measured_ridge_at_its_limits(capsys, table):
    points = [
        [9, 22.9], [11, 22.7], [13, 21.6], [14.6, 19.6], [16, 17], [17.6, 13.6],
        [19.4, 10.2], [21.4, 7.2], [23.4, 4.8], [25, 3.2],
    ]  # fmt: skip
    if table == "from 0":
        points[0] = [0, 22.0]
    else:
        points[-2:] = [[24.7, 9.0]]
    text = f"[head]\nmortise_length = 7.0\nridge_points = {points}\n"
    write("knot.toml", HEAD + text)
    checked = call(capsys, "check", "knot.toml")
    drawn = draw(capsys, text, *(["--force"] if checked.status else []))
    assert checked.status == drawn.status
    assert checked.status == (0 if table == "from 0" else 1), checked.out
    assert Path("out/knot--head-side.svg").is_file()
    if checked.status:
        assert "FAIL   head.ridge_radii" in checked.out
