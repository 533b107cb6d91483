"""Parallels. Outside: Steiner's formulas for convex outlines; shapely's buffer and distance."""

import math

import pytest
import shapely
from geometry_referee import buffered, line_of, polygon_of, sample

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, circle, polygon, rectangle
from templates_gen.geometry.offset import offset, prove

#: A block with a slot 4 wide and 6 deep from above.
SLOTTED = polygon([(0, 0), (20, 0), (20, 10), (12, 10), (12, 4), (8, 4), (8, 10), (0, 10)])

#: The same, its hollow corners rounded 1.5.
EASED = (
    Pen((0.0, 0.0))
    .line_to(20.0, 0.0)
    .line_to(20.0, 10.0)
    .line_to(12.0, 10.0)
    .line_to(12.0, 4.0)
    .fillet(1.5)
    .line_to(8.0, 4.0)
    .fillet(1.5)
    .line_to(8.0, 10.0)
    .line_to(0.0, 10.0)
    .close()
)

LENS = Path(((-10.0, 0.0, 0.5), (10.0, 0.0, 0.3)))


@pytest.mark.parametrize("path", [rectangle(0, 0, 7, 4), polygon([(0, 0), (9, 1), (3, 8)]), LENS])
@pytest.mark.parametrize("d", [0.1, 2.0, 30.0])
def test_steiner(path, d):
    # J. Steiner 1840: a convex outline's parallel is longer by 2 π d, its area larger by
    # L d + π d² (any book on integral geometry; from memory).
    out = offset(path, d)
    assert out.length == pytest.approx(path.length + math.tau * d, rel=1e-12)
    assert out.area == pytest.approx(path.area + path.length * d + math.pi * d * d, rel=1e-12)


def test_inward_the_corners_stay_sharp():
    assert offset(rectangle(0, 0, 22, 44), -2.0).box == pytest.approx((2, 2, 20, 42), abs=1e-12)
    assert len(offset(rectangle(0, 0, 22, 44), -2.0).segments) == 4
    inner = offset(circle((0, 0), 5.0), -2.0).as_circle()
    assert inner is not None and inner[1] == pytest.approx(3.0, rel=1e-12)


@pytest.mark.parametrize("path", [SLOTTED, EASED, LENS])
@pytest.mark.parametrize("d", [1.2, 0.3, -0.7, -1.8])
def test_shapely_agrees(path, d):
    out = offset(path, d)
    seen = buffered(polygon_of(path, 5e-4), d)
    ours = polygon_of(out, 5e-4)
    assert ours.symmetric_difference(seen).area < 1.5e-3 * seen.length
    points = shapely.points(sample(out, 500))
    apart = shapely.distance(points, line_of(path))
    assert abs(apart - abs(d)).max() < 3e-6


@pytest.mark.parametrize("d", [0.1, 1.0, 1.5, 1.49999])
def test_there_and_back(d):
    # EASED has no hollow tighter than 1.5: all of it comes back, piece by piece.
    back = offset(offset(EASED, d), -d)
    assert len(back.segments) == len(EASED.segments)
    for a, b in zip(EASED.vertices, back.oriented().vertices, strict=True):
        assert a == pytest.approx(b, abs=1e-9)


def test_a_hollow_of_just_the_radius_becomes_a_corner():
    out = offset(EASED, 1.5)
    assert len(out.segments) == len(offset(EASED, 1.4).segments) - 2
    assert any(turn == pytest.approx(-90.0) for _, turn in out.kinks())


def test_of_an_open_path_right_is_positive():
    path = Pen((0.0, 0.0)).line_to(10.0, 0.0).fillet(4.0).line_to(10.0, 10.0).open()
    right, left = offset(path, 1.0), offset(path, -1.0)
    assert right.start == (0.0, -1.0) and right.end == pytest.approx((11.0, 10.0))
    assert left.start == (0.0, 1.0) and left.end == pytest.approx((9.0, 10.0))
    # Quarter arcs of radius 5 and 3 between legs of 6.
    assert right.length == pytest.approx(12 + 2.5 * math.pi, rel=1e-12)
    assert left.length == pytest.approx(12 + 1.5 * math.pi, rel=1e-12)
    assert offset(path, 0.0) is path


def test_a_hole_grows_into_its_wood_by_the_other_sign():
    hole = rectangle(0, 0, 6, 6).reversed()
    assert offset(hole, 1.0).area == pytest.approx(-16.0)
    assert offset(hole, -1.0).area == pytest.approx(-(36 + 24 + math.pi))


@pytest.mark.parametrize("kink", [1e-3, 1e-6, 1e-7, 1e-9, 1e-12])
@pytest.mark.parametrize("d", [3.0, -3.0])
def test_joints_that_hardly_turn(kink, d):
    path = Path(((0, 0, 0), (10, 0, 0), (20, 10 * kink, 0), (20, 9, 0), (0, 9, 0)))
    out = offset(path, d)
    apart = shapely.distance(shapely.points(sample(out, 999)), line_of(path))
    assert abs(apart - 3.0).max() < 1e-9
    assert offset(out, -d).area == pytest.approx(path.area, abs=1e-6 if d > 0 else 8.0)


@pytest.mark.parametrize(
    ("path", "d", "description", "place"),
    [
        (EASED, 1.6, "arc of radius 1.500 is too tight", (11.560660, 4.439340)),
        (SLOTTED, 2.5, "line of 4.000 is too short", (10.0, 4.0)),
        (SLOTTED, -2.5, "no room for a parallel at 2.5", None),
        (rectangle(0, 0, 9, 4), -2.0, "line of 4.000 is too short", None),
        (circle((0, 0), 3), -4.0, "arc of radius 3.000 is too tight", None),
        (circle((0, 0), 3), -3.0, "nothing is left", None),
        (polygon([(0, 0), (9, 9), (9, 0), (0, 9.5)]), 1.0, "crosses or touches", None),
    ],
)
def test_where_there_is_no_parallel_it_says_why_and_where(path, d, description, place):
    with pytest.raises(GeometryError, match=description) as told:
        offset(path, d)
    assert told.value.place is not None
    if place is not None:
        assert told.value.place == pytest.approx(place, abs=1e-6)


def test_the_mouth_of_a_c_closes():
    # A ring of 10 and 7 with a gap of 2: at 1.5 outward its lips meet.
    ring = Pen((10.0, 1.0)).arc_to((10.0, -1.0), (0.0, 0.0), left=True).line_to(7.0, -1.0)
    ring = ring.arc_to((7.0, 1.0), (0.0, 0.0), left=False).close()
    assert offset(ring, 0.9).area > ring.area
    with pytest.raises(GeometryError, match="meets itself"):
        offset(ring, 1.5)


def test_the_proof_can_fail():
    square = rectangle(0, 0, 10, 10)
    with pytest.raises(GeometryError, match=r"comes to stand at 1\.41"):
        prove(square, rectangle(-1, -1, 11, 11), 1.0)
    with pytest.raises(GeometryError, match="comes to stand"):
        prove(square, rectangle(1, 1, 9, 9.00001), 1.0)
    prove(square, rectangle(1, 1, 9, 9.0000001), 1.0)
