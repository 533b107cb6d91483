"""What a round cutter can make of an outline. Outside: shapely's closing, Pythagoras."""

import math

import pytest
import shapely
from geometry_referee import buffered, line_of, polygon_of, sample

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, circle, polygon, rectangle
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import reach

SLOTTED = polygon([(0, 0), (20, 0), (20, 10), (12, 10), (12, 4), (8, 4), (8, 10), (0, 10)])

#: Two rooms 8 high, joined by a neck 2 high.
ROOMS = polygon(
    [
        *[(0, 0), (10, 0), (10, 3), (14, 3), (14, 0), (24, 0)],
        *[(24, 8), (14, 8), (14, 5), (10, 5), (10, 8), (0, 8)],
    ]
)


def closing(path: Path, radius: float) -> float:
    return buffered(buffered(polygon_of(path, 5e-4), radius), -radius).area


@pytest.mark.parametrize("radius", [0.5, 1.5, 1.9999])
def test_a_sharp_hollow_keeps_a_fillet(radius):
    # What stays in a right angle is r² (1 - π/4), (√2 - 1) r deep.
    found = reach(SLOTTED, radius)
    (left,) = found.leaves
    assert left.area - SLOTTED.area == pytest.approx(2 * radius**2 * (1 - math.pi / 4), rel=1e-9)
    assert [m.depth for m in found.missed] == pytest.approx([(math.sqrt(2) - 1) * radius] * 2)
    assert sorted(m.place for m in found.missed) == [(8, 4), (12, 4)]
    assert found.tracks[0].area == pytest.approx(offset(SLOTTED, radius).area)


def test_a_slot_just_as_wide_as_the_cutter_is_reached():
    found = reach(SLOTTED, 2.0)
    assert len(found.tracks) == 1
    assert found.leaves[0].area - SLOTTED.area == pytest.approx(8 * (1 - math.pi / 4), abs=1e-4)
    hole = reach(circle((3.0, 4.0), 5.0), -5.0)
    assert hole.missed == ()
    assert hole.leaves[0].area == pytest.approx(25 * math.pi, abs=1e-4)


def test_a_slot_too_narrow_stays_closed():
    # The cutter rests on both lips, √(3² - 2²) above them; the bottom corner is missed by most.
    found = reach(SLOTTED, 3.0)
    assert len(found.missed) == 1
    assert found.missed[0].place in [(8, 4), (12, 4)]
    above = 10 + math.sqrt(5) - 4
    assert found.missed[0].depth == pytest.approx(math.hypot(2, above) - 3, rel=1e-9)
    assert found.leaves[0].area == pytest.approx(closing(SLOTTED, 3.0), abs=5e-3)


def test_two_rooms_and_a_neck():
    found = reach(ROOMS, -1.5)
    assert len(found.tracks) == 2
    # Each room is an opening of its own: 80 less four corners, and a little of the neck.
    both = shapely.union_all([polygon_of(e) for e in found.leaves])
    assert both.area == pytest.approx(closing(ROOMS, -1.5), abs=5e-3)
    # The neck's middle stays farthest: the cutter turns away where the neck's lips stop it.
    x = 10 - math.sqrt(1.5**2 - 1.0**2)
    assert any(m.depth == pytest.approx(math.hypot(12 - x, 1) - 1.5) for m in found.missed)
    assert len(reach(ROOMS, -0.9).tracks) == 1


def test_a_tight_arc_is_missed_at_its_middle():
    # A half-round notch of 1.5 under a cutter of 2: it rests on the lips, √(2² - 1.5²) above.
    notch = Path(((0, 0, 0), (9, 0, 0), (9, 9, 0), (6, 9, -1.0), (3, 9, 0), (0, 9, 0)))
    found = reach(notch, 2.0)
    (missed,) = found.missed
    assert missed.place == pytest.approx((4.5, 7.5), abs=1e-5)
    assert missed.depth == pytest.approx(1.5 + math.sqrt(4 - 2.25) - 2, abs=1e-9)
    assert reach(notch, 1.5).missed == ()


def test_the_deepest_place_need_not_be_in_the_middle():
    # A notch round (0, 0) of radius 1.5, one lip 1 higher. A cutter of 2 rests on both lips at J,
    # and the deepest place is straight across from J through (0, 0).
    notch = Path(((-4, -4, 0), (4, -4, 0), (4, 1, 0), (1.5, 1, 0), (1.5, 0, -1.0), (-1.5, 0, 0)))
    notch = Path((*notch.vertices, (-4.0, 0.0, 0.0)))
    half = math.hypot(3.0, 1.0) / 2
    up = math.sqrt(2**2 - half**2) / (2 * half)
    jx, jy = -1.0 * up, 0.5 + 3.0 * up
    away = math.hypot(jx, jy)
    (missed,) = reach(notch, 2.0).missed
    assert missed.depth == pytest.approx(away + 1.5 - 2.0, abs=1e-12)
    assert missed.place == pytest.approx((-1.5 * jx / away, -1.5 * jy / away), abs=1e-6)


def test_shallow_places_are_let_go():
    assert len(reach(SLOTTED, 0.1).missed) == 2
    assert reach(SLOTTED, 0.02).missed == ()
    assert len(reach(SLOTTED, 0.02, shows=0.005).missed) == 2


def test_an_open_path_is_followed_on_one_side():
    path = Pen((0.0, 0.0)).line_to(10.0, 0.0).line_to(10.0, 10.0).open()
    found = reach(path, -2.0)
    assert found.tracks[0].start == pytest.approx((0.0, 2.0)) and not found.tracks[0].closed
    assert found.missed[0].place == (10.0, 0.0)
    assert found.leaves[0].length == pytest.approx(16 + math.pi, rel=1e-9)
    assert reach(path, 2.0).missed == ()


def test_every_track_keeps_its_distance():
    found = reach(ROOMS, 1.3)
    for track in found.tracks:
        apart = shapely.distance(shapely.points(sample(track, 500)), line_of(ROOMS))
        assert abs(apart - 1.3).max() < 1e-9


@pytest.mark.parametrize(
    ("path", "radius", "description"),
    [
        (rectangle(0, 0, 10, 4), -2.5, "finds no room"),
        (polygon([(0, 0), (9, 9), (9, 0), (0, 9.5)]), 1.0, "crosses or touches"),
    ],
)
def test_where_no_cutter_goes_it_says_so(path, radius, description):
    with pytest.raises(GeometryError, match=description):
        reach(path, radius)
