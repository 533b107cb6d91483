"""A chain of measured points: its distance against shapely's, its sharpest turn on a circle."""

import math

import numpy as np
import pytest
from shapely import LineString, Point, Polygon

from templates_gen.shapes import polyline

CHAIN = [(9.0, 22.5), (14.0, 21.8), (17.5, 18.0), (19.0, 13.0), (21.0, 8.5), (25.0, 3.2)]


def test_depth_is_shapelys_distance_and_below_nought_above_the_chain():
    rng = np.random.default_rng(3)
    x, z = rng.uniform(-5, 40, 300), rng.uniform(-10, 40, 300)
    line = LineString(CHAIN)
    under = Polygon([(-100.0, 22.5), *CHAIN, (25.0, -100.0), (-100.0, -100.0)])
    places = [Point(q) for q in zip(x, z, strict=True)]
    expected = [line.distance(q) * (1 if under.covers(q) else -1) for q in places]
    assert polyline.depth(CHAIN, x, z) == pytest.approx(expected, abs=1e-12)
    assert float(polyline.depth(CHAIN, 12.9, 7.3)) == pytest.approx(line.distance(Point(12.9, 7.3)))


def test_points_on_it_are_no_distance_off():
    for q in CHAIN:
        assert float(polyline.depth(CHAIN, *q)) == 0.0


@pytest.mark.parametrize("radius", [4.0, 6.87, 285.0])
def test_sharpest_of_points_on_a_circle_is_its_radius(radius):
    angles = np.radians([10, 14, 25, 31, 44, 60, 66, 80])
    table = [(radius * math.cos(a), radius * math.sin(a)) for a in angles]
    assert polyline.sharpest(table) == pytest.approx(radius, rel=1e-9)
    assert polyline.sharpest(table[::-1]) == pytest.approx(radius, rel=1e-9)


def test_one_sharp_place_among_gentle_ones_is_found():
    """Three points 3 : 4 : 5 lie on a circle of half the longest side (Thales)."""
    table = [(-200.0, 0.0), (-100.0, 0.0), (0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (4.0, 100.0)]
    assert polyline.sharpest(table) == pytest.approx(2.5, rel=1e-12)


def test_a_straight_chain_has_no_sharp_place():
    assert polyline.sharpest([(float(x), 2.0 * x) for x in range(8)]) == math.inf


def test_slopes_are_those_of_the_depth():
    """Against differences of the depth itself, which shapely has confirmed, off the corners."""
    for x, z in ((12.0, 15.0), (22.0, 12.0), (16.0, 30.0), (3.0, 5.0)):
        _, forward, up = (float(v) for v in polyline.depth_and_slope(CHAIN, x, z))
        step = 1e-6
        ahead, above = polyline.depth(CHAIN, x + step, z), polyline.depth(CHAIN, x, z + step)
        here = polyline.depth(CHAIN, x, z)
        assert forward == pytest.approx(float(ahead - here) / step, abs=1e-5)
        assert up == pytest.approx(float(above - here) / step, abs=1e-5)
