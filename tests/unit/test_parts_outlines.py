"""Properties of every outline of every part, for every shipped file."""

from __future__ import annotations

import inspect
from importlib import import_module
from importlib.util import find_spec

import pytest
import shapely
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.geometry import Path


def outlines():
    """List every public function of a part's ``outline`` that needs only the pattern."""
    for part in registry.PARTS:
        name = f"templates_gen.parts.{part}.outline"
        if find_spec(name) is None:
            continue
        module = import_module(name)
        for told, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ != name or told.startswith("_"):
                continue
            first, *others = inspect.signature(function).parameters.values()
            if first.name == "p" and all(o.default is not o.empty for o in others):
                yield f"{part}.{told}", function


OUTLINES = dict(outlines())
#: Open lines: the arch's neutral line ends on the plate.
OPEN = {"ferrule.neutral", "head.ridge"}
every_outline = pytest.mark.parametrize("name", OUTLINES)
every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


def paths(name, stem) -> list[Path]:
    """The outline, or the outlines, of one name; none where the bow lacks the part."""
    made = OUTLINES[name](pattern(stem))
    return [made] if isinstance(made, Path) else [p for p in made or () if isinstance(p, Path)]


def test_outlines_are_found():
    parts = {name.split(".")[0] for name in OUTLINES}
    assert {"ferrule", "slide", "heel", "underslide", "frog"} <= parts
    assert OPEN.issubset(OUTLINES)


@every_file
@every_outline
def test_outline_is_closed_and_runs_counter_clockwise(name, stem):
    for path in paths(name, stem):
        assert path.closed is (name not in OPEN)
        if path.closed:
            assert path.area > 0


@every_file
@every_outline
def test_outline_starts_at_its_lowest_leftmost_corner(name, stem):
    for path in paths(name, stem):
        if path.closed:
            lowest = min((round(y, 9), round(x, 9)) for x, y, _ in path.vertices)
            assert (round(path.start[1], 9), round(path.start[0], 9)) == lowest


@every_file
@every_outline
def test_outline_does_not_cross_itself(name, stem):
    """Referee: shapely, with every arc flattened to a ten-thousandth."""
    for path in paths(name, stem):
        if path.closed:
            polygon = polygon_of(path, 1e-4)
            assert polygon.is_valid, shapely.is_valid_reason(polygon)
            assert polygon.area == pytest.approx(path.area, abs=2e-4 * path.length)


def test_detects_a_crossed_outline():
    crossed = Path(((0.0, 0.0, 0.0), (2.0, 2.0, 0.0), (2.0, 0.0, 0.0), (0.0, 2.0, 0.0)))
    assert not polygon_of(crossed).is_valid
