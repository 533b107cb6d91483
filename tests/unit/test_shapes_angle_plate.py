"""Angle plates: constant thickness, legs of the stated lengths."""

import math

import pytest
from geometry_referee import polygon_of

from templates_gen.shapes.angle_plate import angle_plate

SOME = pytest.mark.parametrize(
    ("leg", "up", "sheet", "radius", "lean"),
    [(5, 9, 0.5, 0.8, 0.0), (8, 18, 0.6, 5.0, 3.0), (5, 9, 0.5, 0.5, 0.0), (8, 14, 0.4, 2.0, 15.0)],
)


@SOME
def test_area_is_length_of_the_middle_line_times_thickness(leg, up, sheet, radius, lean):
    path = angle_plate(leg, up, sheet, radius, lean)
    turn = math.radians(90 + lean)
    legs = leg - radius + up - radius * math.tan(turn / 2)
    middle = legs + turn * (radius - sheet / 2)
    assert path.area == pytest.approx(middle * sheet, rel=1e-9)
    assert polygon_of(path, 1e-6).is_valid


@SOME
def test_corners(leg, up, sheet, radius, lean):
    path = angle_plate(leg, up, sheet, radius, lean)
    a = math.radians(lean)
    along, inward = (math.sin(a), math.cos(a)), (math.cos(a), -math.sin(a))
    corner = radius - radius * math.tan(math.radians(90 + lean) / 2)
    top = (corner + up * along[0], up * along[1])
    inner = (top[0] + sheet * inward[0], top[1] + sheet * inward[1])
    corners = [v[:2] for v in path.vertices]
    for wanted in ((leg, 0.0), (leg, sheet), top, inner):
        assert min(math.dist(wanted, c) for c in corners) < 1e-9


@SOME
def test_bend_is_tangent_and_the_ends_are_square(leg, up, sheet, radius, lean):
    sharp = [
        turn for _, turn in angle_plate(leg, up, sheet, radius, lean).kinks() if abs(turn) > 1e-6
    ]
    inside = [] if radius > sheet else [-(90.0 + lean)]
    assert sorted(sharp) == pytest.approx(inside + [90.0] * 4, abs=1e-6)


@SOME
def test_rearmost_point_is_at_x_0(leg, up, sheet, radius, lean):
    assert angle_plate(leg, up, sheet, radius, lean).box[0] == pytest.approx(0.0, abs=1e-12)
