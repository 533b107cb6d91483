"""The seat: a land, two 45° sides, and a lining on them."""

import math

import numpy as np
import pytest
from geometry_referee import polygon_of

from templates_gen.shapes import seat

LAND, HEIGHT, SHEET, STOP = 3.4, 2.15, 0.3, 1.9


def test_bare_trench_is_a_45_degree_trapezoid():
    path = seat.trench(LAND, HEIGHT)
    assert path.closed
    assert path.area == pytest.approx(HEIGHT * (LAND + HEIGHT), rel=1e-12)
    half = LAND / 2 + HEIGHT
    assert path.box == pytest.approx((-half, 0.0, half, HEIGHT), rel=1e-12)
    assert sorted(turn for _, turn in path.kinks()) == pytest.approx([45, 45, 135, 135], abs=1e-9)


def test_half_width_is_that_of_the_trench():
    path = seat.trench(LAND, HEIGHT)
    assert max(x for x, _, _ in path.vertices) == pytest.approx(
        float(seat.half_width(LAND, HEIGHT))
    )
    heights = np.array([0.0, 0.5, HEIGHT])
    assert np.allclose(seat.half_width(LAND, heights), LAND / 2 + heights)


def test_lined_trench_is_the_bare_trench_plus_its_lining():
    """Referee: shapely."""
    lined = polygon_of(seat.trench(LAND, HEIGHT, SHEET, STOP))
    bare = polygon_of(seat.trench(LAND, HEIGHT))
    lining = polygon_of(seat.lining(LAND, SHEET, STOP))
    assert lined.is_valid
    assert lining.is_valid
    assert bare.intersection(lining).area == pytest.approx(0.0, abs=1e-12)
    assert bare.union(lining).symmetric_difference(lined).area == pytest.approx(0.0, abs=1e-9)


def test_lining_has_the_thickness_of_its_sheet():
    path = seat.lining(LAND, SHEET, STOP)
    wing = STOP * math.sqrt(2)
    # Strips on three facets, mitred: two right triangles of t by t tan 22.5° at each bend.
    strips = SHEET * (LAND + 2 * wing) + 2 * SHEET**2 * math.tan(math.pi / 8)
    assert path.area == pytest.approx(strips, rel=1e-12)
    # The faces are a sheet apart.
    level = sorted({round(y, 9) for _, y, _ in path.vertices})
    assert level[0] == pytest.approx(-SHEET)
    ends = [s for s in path.segments if s.chord == pytest.approx(SHEET, rel=1e-9)]
    assert len(ends) == 2


@pytest.mark.parametrize("land", [2.0, 5.0])
@pytest.mark.parametrize("sheet", [0.1, 0.6])
def test_lining_runs_parallel_to_the_facets(land, sheet):
    """Its corners are 135°, and square at the wings' ends."""
    path = seat.lining(land, sheet, 2.0)
    turns = sorted(round(abs(turn), 9) for _, turn in path.kinks())
    assert turns == [45.0] * 4 + [90.0] * 4
    assert path.area > 0
    assert path.centroid[0] == pytest.approx(0.0, abs=1e-9)
