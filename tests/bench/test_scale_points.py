"""Tables of measured points carried to another instrument, and along with what is set."""

import json
import tomllib
from pathlib import Path

import pytest

import templates_gen
from templates_gen import registry
from templates_gen.bench.scale import file, scaling, table
from templates_gen.bench.scale.points import carried
from templates_gen.errors import InputError
from templates_gen.parameters import Mark, Parameter, Points, Schema, families, points, section
from templates_gen.parameters.declare import PointLimits
from templates_gen.parameters.families import FAMILIES, Band, bands
from templates_gen.parameters.read import read

MARKS = (
    Mark("0", "toy.butt"),
    Mark("toy.handle", "toy.end"),
    Mark("toy.length - toy.face", "toy.tip"),
)
WAS = {
    "toy.butt": 12.0,
    "toy.handle": 100.0,
    "toy.end": 12.0,
    "toy.length": 640.0,
    "toy.face": 40.0,
    "toy.tip": 8.0,
}
NOW = {
    "toy.butt": 9.0,
    "toy.handle": 80.0,
    "toy.end": 8.8,
    "toy.length": 510.0,
    "toy.face": 30.0,
    "toy.tip": 6.0,
}
ROWS = ((0.0, 12.0), (100.0, 12.0), (350.0, 11.0), (600.0, 8.0), (610.0, 8.0))


def parameter(marks=MARKS, low=5.0):
    limits = PointLimits(2, 0, 1000, low, 30, marks=marks)
    return Parameter("toy.stations", "Stations", points=limits)


def test_points_agree_with_their_marks_after_as_before():
    """A place stays as far between two marks, and a thickness between those at the two."""
    moved = carried(parameter(), ROWS, WAS, NOW)
    expected = [(0, 9), (80, 8.8), (280, 8.8 - 2.8 / 4), (480, 6), (490, 6)]
    assert list(moved.value) == [pytest.approx(row, abs=0.005) for row in expected]
    assert moved.why == "follows butt, handle, end, length, face, tip"


def test_what_the_points_were_off_they_stay_off():
    """Else a table 0.14 off at the head of a violin would be 0.17 off, and refused, at a bass's."""
    rows = ((0.0, 12.1), (100.0, 12.1), (350.0, 11.0), (600.0, 8.14))
    (_, y0), (_, y1), _, (_, y3) = carried(parameter(), rows, WAS, NOW).value
    assert (y0 - 9.0, y1 - 8.8, y3 - 6.0) == pytest.approx((0.1, 0.1, 0.14), abs=0.006)
    deep = (Mark("toy.length"), Mark(y="toy.tip"))
    rows = ((100.0, 5.0), (320.0, 8.25), (500.0, 4.0))
    ys = [y for _, y in carried(parameter(deep, 0.0), rows, WAS, NOW).value]
    assert max(ys) == pytest.approx(6.25, abs=0.005)
    assert ys[0] / ys[1] == pytest.approx(5 / 8.25, abs=0.002)


def test_what_falls_all_the_way_falls_still():
    """The thinner end loses less: a factor that grew along the stick would make a hump of it."""
    rows = ((0.0, 12.0), (100.0, 12.0), (150.0, 12.0), (200.0, 11.99), (400.0, 8.1), (600.0, 8.0))
    now = {**NOW, "toy.tip": 7.9}
    ys = [y for _, y in carried(parameter(), rows, WAS, now).value]
    assert ys == sorted(ys, reverse=True)


def test_what_does_not_lead_does_not_move():
    assert carried(parameter(), (), WAS, NOW).why == "not stated"
    stays = carried(parameter(()), ROWS, WAS, NOW)
    assert (stays.value, stays.why) == (ROWS, "the maker's own points stay")
    as_it_was = carried(parameter(), ROWS, WAS, WAS)
    assert (as_it_was.value, as_it_was.why) == (ROWS, "as it was")
    rows = ((0.123, 12.0), (100.0, 12.0), (350.0, 11.0), (600.0, 8.0))
    moved = carried(parameter(), rows, WAS, {**WAS, "toy.tip": 8.4})
    assert moved.value[:2] == rows[:2]
    assert moved.why == "follows tip"


def test_points_that_would_become_impossible_stay_and_that_is_said():
    moved = carried(parameter(low=7.0), ROWS, WAS, NOW)
    assert moved.value == ROWS
    assert "would not be possible" in moved.why


STATED = """\
units = "mm"
based_on = "bass-french"

[pattern]
name = "Turnstone"

[toy]
stations = { value = [
  [0, 12.0],  # butt
  [300, 10.0],
], note = "callipers" }  # by lamplight
"""


@section("toy", "Toy")
class Toy:
    stations: Points = points(
        "Diameter y of the stick, x from the butt",
        least=2,
        x_low=0,
        x_high=800,
        y_low=2,
        y_high=20,
        marks=(
            Mark("0", "stick.across_flats_butt"),
            Mark("hair.length", "stick.across_flats_butt"),
        ),
    )


SCHEMA = Schema((*registry.SCHEMA.records, Toy))
KNOWN = {f: bands(f) | {"toy.stations": Band((), None, None, "O")} for f in FAMILIES}


@pytest.fixture
def pattern(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("turnstone.toml").write_text(STATED, "utf-8")
    for module in (families, scaling, file):
        monkeypatch.setattr(module, "bands", KNOWN.__getitem__)
    return read("turnstone.toml", SCHEMA)


def test_a_file_with_points_is_carried_and_reads_back(pattern):
    scaled = templates_gen.scale(pattern, "violin")
    violin, bass = bands("violin"), bands("bass-french")
    length = violin["hair.length"].figure / bass["hair.length"].figure
    butt = "stick.across_flats_butt"
    thinner = violin[butt].figure - bass[butt].figure
    ((x0, y0), (x1, y1)) = scaled.pattern.values["toy.stations"]
    assert (x0, x1) == (0.0, pytest.approx(300 * length, abs=0.005))
    # The table falls to 10 at 300, so it says 10 at the hair's length.
    assert (y0, y1) == pytest.approx((12 + thinner, 10 + thinner), abs=0.005)
    told = table.table(scaled)
    (row,) = (line for line in told.splitlines() if "toy.stations" in line)
    assert "2 points → 2 points follows" in row
    assert max(map(len, told.splitlines())) <= 80
    (change,) = (c for c in table.as_data(scaled)["changes"] if c["key"] == "toy.stations")
    assert json.loads(json.dumps(change))["old"] == [[0, 12], [300, 10]]
    file.write(scaled, "violin.toml")
    text = Path("violin.toml").read_text("utf-8")
    assert "# butt" in text and "# by lamplight" in text
    note = tomllib.loads(text)["toy"]["stations"]["note"]
    assert note == "of 2 points: x 0 to 300 mm, y 10 to 12 mm before scaling: callipers"
    again = read("violin.toml", SCHEMA)
    assert again.values == scaled.pattern.values


def test_points_follow_a_leader_that_is_set_and_cannot_be_set_themselves(pattern):
    was = pattern.values["hair.length"]
    scaled = templates_gen.scale(pattern, settings={"hair.length": was + 5})
    (_, (x, y)) = scaled.pattern.values["toy.stations"]
    assert (x, y) == (pytest.approx(300 * (was + 5) / was, abs=0.005), 10.0)
    with pytest.raises(InputError, match=r"toy\.stations: is a table of points"):
        templates_gen.scale(pattern, settings={"toy.stations": "[[0, 12]]"})
