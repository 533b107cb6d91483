"""What a round cutter can cut. Reference: shapely's morphological closing, Pythagoras."""

import math

import pytest
import shapely
from geometry_referee import buffered, line_of, polygon_of, sample

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, circle, polygon, rectangle
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import cutter_reach

SLOTTED = polygon([(0, 0), (20, 0), (20, 10), (12, 10), (12, 4), (8, 4), (8, 10), (0, 10)])

#: Two openings 8 high, joined by a neck 2 high.
ROOMS = polygon(
    [
        *[(0, 0), (10, 0), (10, 3), (14, 3), (14, 0), (24, 0)],
        *[(24, 8), (14, 8), (14, 5), (10, 5), (10, 8), (0, 8)],
    ]
)


def closing(path: Path, radius: float) -> float:
    return buffered(buffered(polygon_of(path, 5e-4), radius), -radius).area


@pytest.mark.parametrize("radius", [0.5, 1.5, 1.9999])
def test_inside_corner_keeps_a_fillet(radius):
    # The rest left in a right angle has the area r² (1 - π/4) and the depth (√2 - 1) r.
    found = cutter_reach(SLOTTED, radius)
    (left,) = found.edges
    assert left.area - SLOTTED.area == pytest.approx(2 * radius**2 * (1 - math.pi / 4), rel=1e-9)
    assert [m.depth for m in found.unreached] == pytest.approx([(math.sqrt(2) - 1) * radius] * 2)
    assert sorted(m.place for m in found.unreached) == [(8, 4), (12, 4)]
    assert found.tracks[0].area == pytest.approx(offset(SLOTTED, radius).area)


def test_reaches_a_slot_exactly_as_wide_as_the_cutter():
    found = cutter_reach(SLOTTED, 2.0)
    assert len(found.tracks) == 1
    assert found.edges[0].area - SLOTTED.area == pytest.approx(8 * (1 - math.pi / 4), abs=1e-4)
    hole = cutter_reach(circle((3.0, 4.0), 5.0), -5.0)
    assert hole.unreached == ()
    assert hole.edges[0].area == pytest.approx(25 * math.pi, abs=1e-4)


def test_slot_narrower_than_the_cutter_is_unreached():
    # The cutter rests on both edges, √(3² - 2²) above them; a bottom corner is the farthest.
    found = cutter_reach(SLOTTED, 3.0)
    assert len(found.unreached) == 1
    assert found.unreached[0].place in [(8, 4), (12, 4)]
    above = 10 + math.sqrt(5) - 4
    assert found.unreached[0].depth == pytest.approx(math.hypot(2, above) - 3, rel=1e-9)
    assert found.edges[0].area == pytest.approx(closing(SLOTTED, 3.0), abs=5e-3)


def test_two_openings_joined_by_a_narrow_neck():
    found = cutter_reach(ROOMS, -1.5)
    assert len(found.tracks) == 2
    # Each opening is cut by itself: 80 less four corners, plus a little of the neck.
    both = shapely.union_all([polygon_of(e) for e in found.edges])
    assert both.area == pytest.approx(closing(ROOMS, -1.5), abs=5e-3)
    # The middle of the neck is the farthest: the cutter stops at the edges of the neck.
    x = 10 - math.sqrt(1.5**2 - 1.0**2)
    assert any(m.depth == pytest.approx(math.hypot(12 - x, 1) - 1.5) for m in found.unreached)
    assert len(cutter_reach(ROOMS, -0.9).tracks) == 1


def test_tight_arc_is_unreached_at_its_middle():
    # A half-round notch of 1.5 under a cutter of 2, which rests on its edges, √(2² - 1.5²) above.
    notch = Path(((0, 0, 0), (9, 0, 0), (9, 9, 0), (6, 9, -1.0), (3, 9, 0), (0, 9, 0)))
    found = cutter_reach(notch, 2.0)
    (missed,) = found.unreached
    assert missed.place == pytest.approx((4.5, 7.5), abs=1e-5)
    assert missed.depth == pytest.approx(1.5 + math.sqrt(4 - 2.25) - 2, abs=1e-9)
    assert cutter_reach(notch, 1.5).unreached == ()


def test_deepest_place_may_be_off_the_middle():
    # A notch of radius 1.5 about (0, 0) with one edge 1 higher. A cutter of 2 rests on both edges
    # with its centre at J; the deepest place is opposite J through (0, 0).
    notch = Path(((-4, -4, 0), (4, -4, 0), (4, 1, 0), (1.5, 1, 0), (1.5, 0, -1.0), (-1.5, 0, 0)))
    notch = Path((*notch.vertices, (-4.0, 0.0, 0.0)))
    half = math.hypot(3.0, 1.0) / 2
    up = math.sqrt(2**2 - half**2) / (2 * half)
    jx, jy = -1.0 * up, 0.5 + 3.0 * up
    away = math.hypot(jx, jy)
    (missed,) = cutter_reach(notch, 2.0).unreached
    assert missed.depth == pytest.approx(away + 1.5 - 2.0, abs=1e-12)
    assert missed.place == pytest.approx((-1.5 * jx / away, -1.5 * jy / away), abs=1e-6)


def test_shallow_places_are_not_reported():
    assert len(cutter_reach(SLOTTED, 0.1).unreached) == 2
    assert cutter_reach(SLOTTED, 0.02).unreached == ()
    assert len(cutter_reach(SLOTTED, 0.02, shows=0.005).unreached) == 2


def test_follows_one_side_of_an_open_path():
    path = Pen((0.0, 0.0)).line_to(10.0, 0.0).line_to(10.0, 10.0).open()
    found = cutter_reach(path, -2.0)
    assert found.tracks[0].start == pytest.approx((0.0, 2.0)) and not found.tracks[0].closed
    assert found.unreached[0].place == (10.0, 0.0)
    assert found.edges[0].length == pytest.approx(16 + math.pi, rel=1e-9)
    assert cutter_reach(path, 2.0).unreached == ()


def test_tracks_keep_their_distance():
    found = cutter_reach(ROOMS, 1.3)
    for track in found.tracks:
        apart = shapely.distance(shapely.points(sample(track, 500)), line_of(ROOMS))
        assert abs(apart - 1.3).max() < 1e-9


@pytest.mark.parametrize(
    ("path", "radius", "message"),
    [
        (rectangle(0, 0, 10, 4), -2.5, "finds no room"),
        (polygon([(0, 0), (9, 9), (9, 0), (0, 9.5)]), 1.0, "crosses or touches"),
    ],
)
def test_rejects_a_cutter_that_fits_nowhere(path, radius, message):
    with pytest.raises(GeometryError, match=message):
        cutter_reach(path, radius)
