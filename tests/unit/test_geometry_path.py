"""Chains of lines and arcs. Outside: formulas of handbooks; shapely."""

import math

import pytest
import shapely
from geometry_referee import polygon_of, sample

from templates_gen.geometry import Path, Pen, Segment, circle, polygon, rectangle

#: A half disc of radius 6 on a plate 2 thick.
HALF_DISC = Path(((-6.0, -2.0, 0.0), (6.0, -2.0, 0.0), (6.0, 0.0, 1.0), (-6.0, 0.0, 0.0)))


def test_half_disc_on_a_plate():
    # Half disc: area π r² / 2, centroid 4 r / 3 π above its diameter; both in any handbook.
    disc, plate = math.pi * 36 / 2, 24.0
    assert HALF_DISC.area == pytest.approx(disc + plate, rel=1e-12)
    height = (disc * 4 * 6 / (3 * math.pi) - plate * 1) / (disc + plate)
    assert HALF_DISC.centroid == pytest.approx((0.0, height), abs=1e-12)
    assert HALF_DISC.length == pytest.approx(6 * math.pi + 12 + 4, rel=1e-12)
    assert HALF_DISC.box == pytest.approx((-6, -2, 6, 6), abs=1e-12)


def test_stadium_and_its_hole():
    # A slot of length l between centres and radius r: area 2 r l + π r².
    slot = Path(((0.0, -2.0, 0.0), (10.0, -2.0, 1.0), (10.0, 2.0, 0.0), (0.0, 2.0, 1.0)))
    assert slot.area == pytest.approx(40 + 4 * math.pi, rel=1e-12)
    assert slot.reversed().area == pytest.approx(-slot.area, rel=1e-15)
    assert slot.centroid == pytest.approx((5.0, 0.0), abs=1e-12)


def test_far_from_the_origin_nothing_is_lost():
    far = HALF_DISC.moved(1e5, -1e5)
    assert far.area == pytest.approx(HALF_DISC.area, rel=1e-9)
    assert far.centroid[1] + 1e5 == pytest.approx(HALF_DISC.centroid[1], abs=1e-8)


def test_shapely_agrees():
    seen = polygon_of(HALF_DISC)
    assert HALF_DISC.area == pytest.approx(seen.area, abs=2e-5)
    assert HALF_DISC.centroid == pytest.approx((seen.centroid.x, seen.centroid.y), abs=1e-5)
    assert HALF_DISC.box == pytest.approx(seen.bounds, abs=2e-6)
    assert HALF_DISC.length == pytest.approx(seen.length, abs=1e-4)


def test_stations_and_points():
    # 12 along the plate, 2 up, then 3 π to the crown.
    assert HALF_DISC.point_at(12 + 2 + 3 * math.pi) == pytest.approx((0.0, 6.0), abs=1e-12)
    assert HALF_DISC.tangent_at(14 + 3 * math.pi) == pytest.approx((-1.0, 0.0), abs=1e-12)
    assert HALF_DISC.point_at(-1.0) == pytest.approx((-6.0, -1.0), abs=1e-12)
    assert HALF_DISC.distance((0.0, 0.0)) == pytest.approx(2.0)
    ends = sample(HALF_DISC, 5)
    assert len(ends) == 5 and ends[0] == (-6.0, -2.0)


def test_kinks_of_a_square_are_right_angles():
    assert [t for _, t in rectangle(0, 0, 3, 3).kinks()] == pytest.approx([90.0] * 4)
    joints = dict(HALF_DISC.kinks())
    assert joints[(6.0, 0.0)] == pytest.approx(0.0, abs=1e-12)
    assert len(Path(((0, 0, 0), (1, 0, 0), (1, 1, 0)), closed=False).kinks()) == 1


def test_mirror_and_turn():
    assert HALF_DISC.mirrored(y=1.0).area == pytest.approx(-HALF_DISC.area)
    assert HALF_DISC.mirrored(x=2.0).box == pytest.approx((-2, -2, 10, 6), abs=1e-12)
    turned = HALF_DISC.rotated(math.pi / 2, about=(6.0, -2.0))
    assert turned.box == pytest.approx((-2, -14, 6, -2), abs=1e-9)


def test_oriented_starts_lowest_then_leftmost():
    path = HALF_DISC.reversed().oriented()
    assert path.area > 0 and path.start == (-6.0, -2.0)
    assert HALF_DISC.oriented(ccw=False).area < 0


def test_circle_is_known_again():
    centre, radius = circle((1.0, 2.0), 3.0).as_circle()
    assert centre == pytest.approx((1.0, 2.0)) and radius == pytest.approx(3.0)
    assert HALF_DISC.as_circle() is None
    two_radii = Path(((0, -2, 1.0), (0, 2, 0.5)))
    assert two_radii.as_circle() is None
    assert shapely.Point(1, 2).buffer(3).bounds == pytest.approx(circle((1.0, 2.0), 3.0).box)


@pytest.mark.parametrize(
    ("vertices", "description"),
    [
        (((0.0, 0.0, 0.0),), "two points"),
        (((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 1.0, 0.0)), "no length"),
        (((0.0, 0.0, 0.0), (math.nan, 0.0, 0.0)), "no number"),
        (((0.0, 0.0, 1.01), (1.0, 0.0, 0.0)), "half circle"),
    ],
)
def test_a_path_that_is_none_is_refused(vertices, description):
    with pytest.raises(ValueError, match=description):
        Path(vertices)


def test_an_open_path_has_no_area():
    with pytest.raises(ValueError, match="encloses nothing"):
        _ = Path(((0, 0, 0), (1, 0, 0)), closed=False).area


def test_from_segments_keeps_what_it_is_given():
    pieces = [Segment((0.0, 0.0), (4.0, 0.0)), Segment((4.0, 0.0), (4.0, 4.0), 0.3)]
    path = Path.from_segments(pieces, closed=False)
    assert list(path.segments) == pieces and path.end == (4.0, 4.0)
    assert polygon([(0, 0), (0, 1), (1, 1)]).area == pytest.approx(0.5)
    assert Pen((0.0, 0.0)).line_to(4.0, 0.0).bulge_to((4.0, 4.0), 0.3).open() == path
