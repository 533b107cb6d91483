"""The arch: neutral line, faces and developed length of each kind; impossible arches."""

import math

import numpy as np
import pytest
import shapely
from geometry_referee import polygon_of, sample
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe

from templates_gen.errors import GeometryError
from templates_gen.shapes import arch
from templates_gen.shapes.arch import ArchKind
from templates_gen.tolerances import FIT_DISTANCE, FIT_KINK_DEG

#: Kind, outside width, height above the plate, wall, outside corner radius.
SOME = {
    "half-ellipse": (ArchKind.HALF_ELLIPSE, 12.6, 5.8, 0.7, 0.0),
    "tall half ellipse": (ArchKind.HALF_ELLIPSE, 9.0, 12.0, 0.5, 0.0),
    "half-circle": (ArchKind.HALF_CIRCLE, 12.6, 7.0, 0.7, 0.0),
    "half circle without legs": (ArchKind.HALF_CIRCLE, 12.6, 6.3, 0.7, 0.0),
    "segment": (ArchKind.SEGMENT, 22.5, 6.0, 0.8, 0.0),
    "flat-top": (ArchKind.FLAT_TOP, 13.6, 6.2, 0.7, 3.0),
    "flat top without legs": (ArchKind.FLAT_TOP, 13.6, 3.0, 0.7, 3.0),
}
each = pytest.mark.parametrize("name", SOME)


def allowed_deviation(name):
    """Allowed distance (mm) of the fitted arcs from the curve."""
    return FIT_DISTANCE if "ellipse" in name else 1e-9


@each
def test_neutral_line_runs_from_foot_over_crown_to_foot(name):
    kind, width, height, wall, corner = SOME[name]
    line = arch.neutral_line(kind, width, height, wall, corner)
    a, b = (width - wall) / 2, height - wall / 2
    assert not line.closed
    assert line.start == pytest.approx((a, 0), abs=1e-9)
    assert line.end == pytest.approx((-a, 0), abs=1e-9)
    assert line.box == pytest.approx((-a, 0, a, b), abs=1e-9)
    assert line.point_at(line.length / 2) == pytest.approx((0, b), abs=1e-9)


@each
def test_halves_are_mirrored(name):
    line = arch.neutral_line(*SOME[name])
    points = sample(line, 81)
    assert np.allclose(points, [(-x, y) for x, y in points[::-1]], atol=1e-9)


@each
def test_is_tangent_at_its_joints(name):
    allowed = FIT_KINK_DEG if "ellipse" in name else 1e-9
    kinks = arch.neutral_line(*SOME[name]).kinks()
    assert max((abs(turn) for _, turn in kinks), default=0.0) <= allowed


@each
def test_developed_length_is_that_of_the_drawn_line(name):
    kind, width, height, wall, corner = SOME[name]
    drawn = arch.neutral_line(kind, width, height, wall, corner).length
    developed = float(arch.developed_length(kind, width, height, wall, corner))
    # The length of arcs within that distance differs by far less.
    assert developed == pytest.approx(drawn, abs=allowed_deviation(name))


@pytest.mark.parametrize("kind", ArchKind)
def test_developed_length_of_arrays(kind):
    heights = np.array([6.4, 7.0, 8.5]) if kind is ArchKind.HALF_CIRCLE else np.array([3.0, 5.0])
    many = arch.developed_length(kind, 12.6, heights, 0.7, 2.5)
    alone = [float(arch.developed_length(kind, 12.6, float(h), 0.7, 2.5)) for h in heights]
    assert np.allclose(many, alone, rtol=1e-14)
    assert np.all(np.diff(many) > 0)


@given(st.floats(0.02, 1.0), st.floats(0.5, 50.0))
def test_perimeter_of_an_ellipse(flatness, long):
    """Referee: scipy.special.ellipe."""
    short = flatness * long
    expected = 4 * long * ellipe(1 - flatness**2)
    assert float(arch.ellipse_perimeter(long, short)) == pytest.approx(expected, rel=1e-12)
    assert float(arch.ellipse_perimeter(short, long)) == pytest.approx(expected, rel=1e-12)


def test_perimeter_of_a_circle_and_of_arrays():
    assert float(arch.ellipse_perimeter(3.0, 3.0)) == pytest.approx(6 * math.pi, rel=1e-15)
    many = arch.ellipse_perimeter(np.array([3.0, 5.0]), np.array([3.0, 2.0]))
    assert many == pytest.approx([6 * math.pi, 20 * ellipe(1 - 0.16)], rel=1e-12)


@each
@pytest.mark.parametrize("side", [1, -1])
def test_faces_are_half_a_wall_from_the_line(name, side):
    wall = SOME[name][3]
    line = arch.neutral_line(*SOME[name])
    face = arch.offset_face(line, side * wall / 2)
    assert face.start[1] == face.end[1] == 0.0
    # The feet of a circular segment are oblique: its outer face extends past the line's end.
    reach = line if side < 0 else _extended(line)
    far = [abs(reach.distance(p) - wall / 2) for p in sample(face, 60)]
    assert max(far) <= 1e-6
    inside = shapely.Polygon([*sample(line, 2000)])
    beyond = [inside.contains(shapely.Point(p)) for p in sample(face, 60)[2:-2]]
    assert set(beyond) == {side < 0}


def _extended(line):
    """The arch with its first and last piece extended below the plate."""
    first, last = line.segments[0], line.segments[-1]
    ahead = [first.part(-0.1, 1.0), *line.segments[1:-1], last.part(0.0, 1.1)]
    if len(line.segments) == 1:
        ahead = [first.part(-0.05, 1.05)]
    return type(line).from_segments(ahead, closed=False)


@each
def test_outside_and_opening_are_valid_outlines(name):
    _, width, height, wall, _ = SOME[name]
    line = arch.neutral_line(*SOME[name])
    outside = arch.ferrule_outline(arch.offset_face(line, wall / 2), width, 1.0)
    opening = arch.opening(arch.offset_face(line, -wall / 2))
    for path in (outside, opening):
        assert path.closed
        assert path.area > 0
        assert polygon_of(path, 1e-4).is_valid
    assert polygon_of(outside, 1e-5).contains(polygon_of(opening, 1e-5).buffer(-1e-4))
    assert outside.box[1::2] == pytest.approx((-1.0, height), abs=1e-9)
    assert opening.box[1::2] == pytest.approx((0.0, height - wall), abs=1e-9)


def test_feet_of_a_segment_are_flush_with_the_plate():
    """Its outer face projects past half the width; the outline is vertical there instead."""
    _, width, _, wall, _ = SOME["segment"]
    outer = arch.offset_face(arch.neutral_line(*SOME["segment"]), wall / 2)
    assert outer.start[0] > width / 2 + 0.001
    path = arch.ferrule_outline(outer, width, 1.3)
    assert path.box[0::2] == pytest.approx((-width / 2, width / 2), abs=1e-12)
    sides = [s for s in path.segments if abs(s.start[0] - s.end[0]) < 1e-9]
    assert len(sides) == 4  # the plate's ends, and above each the filed foot
    feet = [s for s in sides if min(s.start[1], s.end[1]) > -1e-9]
    assert all(outer.distance(max(s.start, s.end, key=lambda q: q[1])) < 1e-9 for s in feet)


def test_rejects_a_wall_thicker_than_the_radius():
    tight = arch.neutral_line(ArchKind.FLAT_TOP, 12.0, 6.0, 1.0, 0.9)  # neutral corner radius 0.4
    arch.offset_face(tight, 0.5)
    with pytest.raises(GeometryError, match="thicker than the arch's radius"):
        arch.offset_face(tight, -0.5)


def test_rejects_a_segment_whose_inner_face_misses_the_plate():
    flat = arch.neutral_line(ArchKind.SEGMENT, 20.0, 1.0, 1.8, 0.0)  # the line rises 0.1
    with pytest.raises(GeometryError, match="does not reach the plate"):
        arch.offset_face(flat, -0.9)


@pytest.mark.parametrize(
    ("kind", "width", "height", "wall", "corner"),
    [
        (ArchKind.FLAT_TOP, 12.0, 2.0, 1.0, 4.0),  # radius above the height
        (ArchKind.FLAT_TOP, 6.0, 8.0, 1.0, 4.0),  # radius above half the width
    ],
)
def test_impossible_arch_gives_an_invalid_outline(kind, width, height, wall, corner):
    """A flat top whose radius exceeds its height or half width overlaps itself."""
    outline = arch.opening(arch.neutral_line(kind, width, height, wall, corner))
    assert not polygon_of(outline, 1e-4).is_valid
