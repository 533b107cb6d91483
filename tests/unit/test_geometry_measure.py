"""Inside and outside, crossings, nearness. Outside: shapely; the geometry of circles."""

import math
import random

import pytest
import shapely
from geometry_referee import crossings, line_of, polygon_of

from templates_gen.geometry import Path, Segment, circle, polygon, rectangle
from templates_gen.geometry.measure import (
    Where,
    gap,
    locate,
    meet,
    self_crossing,
)

#: A D with a half-round notch in its back and a slot of sharp corners in its flat.
NOTCHED = Path(
    (
        (-8.0, 0.0, 0.0),
        (-2.0, 0.0, 0.0),
        (-2.0, 4.0, 0.0),
        (2.0, 4.0, 0.0),
        (2.0, 0.0, 0.0),
        (8.0, 0.0, 0.4),
        (2.0, 12.0, -1.0),
        (-2.0, 12.0, 0.4),
    )
)


def test_locate_agrees_with_shapely():
    seen = polygon_of(NOTCHED)
    rng = random.Random(7)
    wrong = 0
    for _ in range(600):
        p = (rng.uniform(-11, 11), rng.uniform(-1, 16))
        inside = locate(NOTCHED, p) is Where.INSIDE
        wrong += inside != seen.contains(shapely.Point(p))
    assert wrong == 0


@pytest.mark.parametrize("way", [1, -1])
def test_locate_at_the_hard_places(way):
    # A disc of radius 5: its chord, the level of its ends and of its joints fool a ray.
    disc = circle((0.0, 0.0), 5.0) if way > 0 else circle((0.0, 0.0), 5.0).reversed()
    for p in [(0.0, 0.0), (0.0, 4.999999), (-4.999999, 0.0), (0.0, -4.9), (1e-12, 0.0)]:
        assert locate(disc, p) is Where.INSIDE
    for p in [(5.0, 5.0), (-9.0, -5.0), (0.0, 5.000001), (9.0, 0.0), (5.0, -5.0)]:
        assert locate(disc, p) is Where.OUTSIDE
    for p in [(0.0, 5.0), (3.0, 4.0), (-4.0, -3.0), (5.0, 1e-10)]:
        assert locate(disc, p) is Where.ON
    assert locate(disc, (0.0, 5.05), tolerance=0.1) is Where.ON


def test_an_open_path_has_no_inside():
    with pytest.raises(ValueError, match="no inside"):
        locate(Path(((0, 0, 0), (1, 0, 0)), closed=False), (0.0, 0.0))


def test_where_lines_and_circles_meet():
    # 3-4-5: the circle of radius 5 is at (±4, 3) on y = 3, and two such circles whose centres are
    # 8 apart meet 3 above and below the middle. Source: Pythagoras.
    upper = Segment((5.0, 0.0), (-5.0, 0.0), 1.0)
    assert sorted(meet(upper, Segment((-9.0, 3.0), (9.0, 3.0)))) == [
        pytest.approx((-4.0, 3.0)),
        pytest.approx((4.0, 3.0)),
    ]
    assert meet(upper, Segment((0.0, 3.0), (9.0, 3.0))) == [pytest.approx((4.0, 3.0))]
    other = Segment((13.0, 0.0), (3.0, 0.0), 1.0)
    assert meet(upper, other) == [pytest.approx((4.0, 3.0))]
    assert meet(Segment((0, 0), (4, 4)), Segment((0, 4), (4, 0))) == [pytest.approx((2.0, 2.0))]
    assert meet(Segment((0, 0), (4, 4)), Segment((0, 4), (1, 3))) == []
    assert meet(Segment((0, 0), (4, 0)), Segment((0, 1), (4, 1))) == []
    assert meet(upper, Segment((-3.0, 1.0), (3.0, 1.0))) == []


def test_touching_counts_once():
    upper = Segment((5.0, 0.0), (-5.0, 0.0), 1.0)
    assert meet(upper, Segment((-9.0, 5.0), (9.0, 5.0))) == [pytest.approx((0.0, 5.0), abs=1e-6)]
    beside = Segment((15.0, 0.0), (5.0, 0.0), 1.0)
    assert meet(upper, beside) == [(5.0, 0.0)]
    above = Segment((-3.0, 8.0), (3.0, 8.0), 1.0)
    assert meet(upper, above) == [pytest.approx((0.0, 5.0), abs=1e-6)]


def test_a_shared_stretch_tells_its_ends():
    assert meet(Segment((0, 0), (5, 0)), Segment((3, 0), (9, 0))) == [(5, 0), (3, 0)]
    whole = circle((0.0, 0.0), 5.0).segments[0]
    part = whole.part(0.25, 0.75)
    assert meet(whole, part) == [pytest.approx(part.start), pytest.approx(part.end)]


@pytest.mark.parametrize("height", [1e-2, 1e-5, 1e-7])
def test_crossings_of_nearly_straight_arcs(height):
    # At its middle an arc of this height crosses the upright through it; two mirrored ones, each
    # moved by the height, cross at a quarter of a parabola: x = c (1 - 1/√2) / 2 in the limit.
    arc = Segment((0.0, 0.0), (20.0, 0.0), height / 10)
    assert meet(arc, Segment((10.0, -1.0), (10.0, 1.0))) == [
        pytest.approx((10.0, -height), abs=1e-12)
    ]
    other = Segment((0.0, -height), (20.0, -height), -height / 10)
    xs = sorted(p[0] for p in meet(arc, other))
    half = 10 / math.sqrt(2)
    assert xs == pytest.approx([10 - half, 10 + half], abs=1e-3)


def test_crossings_of_outlines_agree_with_shapely():
    other = rectangle(-10.0, 2.0, 10.0, 13.0)
    found = crossings(NOTCHED, other)
    seen = line_of(NOTCHED).intersection(line_of(other))
    assert len(found) == len(seen.geoms)
    for p in found:
        assert seen.distance(shapely.Point(p)) < 1e-4


def test_self_crossing():
    assert self_crossing(NOTCHED) is None
    assert self_crossing(circle((0.0, 0.0), 4.0)) is None
    eight = Path(((0, 0, 0), (4, 4, 0), (4, 0, 0), (0, 4, 0)))
    assert self_crossing(eight) == pytest.approx((2.0, 2.0))
    there_and_back = Path(((0, 0, 0), (9, 0, 0), (4, 0, 0)), closed=False)
    assert self_crossing(there_and_back) is not None
    touching = Path(((0, 0, 0), (9, 0, 0), (9, 5, 0), (5, 0, 0), (0, 5, 0)))
    assert self_crossing(touching) == pytest.approx((5.0, 0.0))


@pytest.mark.parametrize(
    ("a", "b", "apart"),
    [
        (circle((0, 0), 3.0), circle((10, 0), 2.0), 5.0),
        (circle((0, 0), 10.0), circle((2, 0), 3.0), 5.0),
        (circle((0, 0), 3.0), rectangle(5, -4, 9, 4), 2.0),
        (rectangle(0, 0, 2, 2), rectangle(5, 6, 9, 9), 5.0),
        (circle((0, 0), 3.0), polygon([(4, 3), (8, 3), (8, 6)]), 2.0),
        (circle((0, 0), 3.0), circle((0, 0), 1.0), 2.0),
        (circle((0, 0), 3.0), circle((4, 0), 3.0), 0.0),
    ],
)
def test_gap_between_outlines(a, b, apart):
    # Centres less radii, and Pythagoras.
    found = gap(a, b)
    assert found.distance == pytest.approx(apart, abs=1e-12)
    assert math.dist(found.here, found.there) == pytest.approx(apart, abs=1e-9)
    assert gap(b, a).distance == pytest.approx(apart, abs=1e-12)


def test_gap_agrees_with_shapely():
    other = Path(((11.0, 3.0, 0.3), (16.0, 9.0, -0.5), (12.0, 14.0, 0.7)))
    seen = line_of(NOTCHED).distance(line_of(other))
    assert gap(NOTCHED, other).distance == pytest.approx(seen, abs=3e-6)
