"""Tables of measured points carried to another instrument, and along with what is set."""

import json
import tomllib
from pathlib import Path

import pytest

import templates_gen
from templates_gen import registry
from templates_gen.bench import scale, scale_file, scale_table
from templates_gen.bench.scale_points import carried
from templates_gen.errors import InputError
from templates_gen.parameters import Parameter, Points, Scale, Schema, families, points, section
from templates_gen.parameters.declare import PointLimits
from templates_gen.parameters.families import FAMILIES, Band, bands
from templates_gen.parameters.read import read

LIMITS = PointLimits(2, 0, 1000, 5, 30)
LED = {
    Scale.LENGTH: (600.0, 660.0),
    Scale.STICK: (12.0, 9.0),
    Scale.HEIGHT: (10.0, 8.0),
    Scale.HAIR_WIDTH: (22.0, 13.5),
    Scale.FROG: (60.0, 45.0),
}
ROWS = ((0.0, 20.0), (100.0, 24.0))


def parameter(scale, limits=LIMITS):
    return Parameter("toy.stations", "Stations", scale=scale, points=limits)


@pytest.mark.parametrize(
    ("scale", "expected", "why"),
    [
        (Scale.STICK, ((0.0, 15.0), (110.0, 18.0)), "x × 1.100, y × 0.750"),
        (Scale.HEIGHT, ((0.0, 16.0), (110.0, 19.2)), "x × 1.100, y × 0.800"),
        (Scale.LENGTH, ((0.0, 22.0), (110.0, 26.4)), "x × 1.100, y × 1.100"),
        (Scale.HAIR_WIDTH, ((0.0, 11.5), (110.0, 15.5)), "x × 1.100, y −8.5"),
        (Scale.FROG, ((0.0, 15.0), (75.0, 18.0)), "x × 0.750, y × 0.750"),
        (Scale.CHARACTER, ROWS, "the maker's own points stay"),
        (Scale.HAND, ROWS, "the maker's own points stay"),
        (Scale.NEVER, ROWS, "the maker's own points stay"),
        (Scale.KNOT, ROWS, "the maker's own points stay"),
    ],
)
def test_x_goes_with_the_length_and_y_as_declared(scale, expected, why):
    moved = carried(parameter(scale), ROWS, LED.get)
    assert moved.value == expected
    assert moved.why == why


def test_what_does_not_lead_does_not_move():
    q = parameter(Scale.STICK)
    rows = ((0.123, 20.456), (7.0, 21.0))
    assert carried(q, (), LED.get).why == "not stated"
    assert carried(q, rows, lambda _: None).value == rows
    moved = carried(q, rows, {Scale.LENGTH: (6.0, 6.0), Scale.STICK: (12.0, 9.0)}.get)
    assert moved.value == ((0.123, 15.34), (7.0, 15.75))
    assert moved.why == "x stays, y × 0.750"


@pytest.mark.parametrize("rows", [((0.0, 6.0), (9.0, 9.0)), ((0.0, 20.0), (950.0, 20.0))])
def test_points_that_would_become_impossible_stay_and_that_is_said(rows):
    moved = carried(parameter(Scale.STICK), rows, LED.get)
    assert moved.value == rows
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
        scale=Scale.STICK,
    )


SCHEMA = Schema((*registry.SCHEMA.records, Toy))
KNOWN = {f: bands(f) | {"toy.stations": Band((), None, None, "O")} for f in FAMILIES}


@pytest.fixture
def pattern(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    Path("turnstone.toml").write_text(STATED, "utf-8")
    for module in (families, scale, scale_file):
        monkeypatch.setattr(module, "bands", KNOWN.__getitem__)
    return read("turnstone.toml", SCHEMA)


def test_a_file_with_points_is_carried_and_reads_back(pattern):
    scaled = templates_gen.scale(pattern, "violin")
    length, stick = (
        bands("violin")[key].figure / bands("bass-french")[key].figure
        for key in ("hair.length", "stick.across_flats_butt")
    )
    ((x0, y0), (x1, y1)) = scaled.pattern.values["toy.stations"]
    assert (x0, x1) == (0.0, pytest.approx(300 * length, abs=0.005))
    assert (y0, y1) == pytest.approx((12 * stick, 10 * stick), abs=0.005)
    told = scale_table.table(scaled)
    (row,) = (line for line in told.splitlines() if "toy.stations" in line)
    assert "2 points → 2 points x ×" in row
    assert max(map(len, told.splitlines())) <= 80
    (change,) = (c for c in scale_table.as_data(scaled)["changes"] if c["key"] == "toy.stations")
    assert json.loads(json.dumps(change))["old"] == [[0, 12], [300, 10]]
    scale_file.write(scaled, "violin.toml")
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
