"""Depth inside the arch against shapely's distance to the drawn outer face."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from templates_gen.geometry.flatten import flatten
from templates_gen.shapes import arch
from templates_gen.shapes.arch import ArchKind
from templates_gen.shapes.arch_depth import depth_in_arch

#: Width, height, wall and corner of an arch that each curve allows (mm).
SHAPES = {
    ArchKind.HALF_ELLIPSE: (13.0, 8.0, 0.5, 2.0),
    ArchKind.HALF_CIRCLE: (13.0, 8.0, 0.5, 2.0),
    ArchKind.SEGMENT: (13.0, 5.0, 0.5, 2.0),
    ArchKind.FLAT_TOP: (13.0, 8.0, 0.5, 2.0),
}
PLACES = [(4.0, 0.6), (5.5, 0.2), (2.0, 3.0), (0.5, 1.0), (5.0, 2.5)]


@pytest.mark.parametrize("kind", SHAPES)
def test_depth_is_the_distance_to_the_outer_face(kind):
    """Source: shapely's distance between a point and a line of many short chords."""
    width, height, wall, corner = SHAPES[kind]
    outer = arch.offset_face(arch.neutral_line(kind, width, height, wall, corner), wall / 2)
    line = LineString(flatten(outer, 1e-4))
    for y, level in PLACES:
        expected = line.distance(Point(y, level))
        # An ellipse is drawn in arcs within 0.005 of it.
        close = 0.006 if kind is ArchKind.HALF_ELLIPSE else 2e-4
        found = depth_in_arch(kind, width, height, wall, corner, y, level)
        assert float(found) == pytest.approx(expected, abs=close), (y, level)


def test_depth_of_arrays():
    y, level = np.array([4.0, 5.5]), np.array([0.6, 0.2])
    found = depth_in_arch(ArchKind.HALF_ELLIPSE, 13.0, 8.0, 0.5, 2.0, y, level)
    single = [
        depth_in_arch(ArchKind.HALF_ELLIPSE, 13.0, 8.0, 0.5, 2.0, a, b)
        for a, b in zip(y, level, strict=True)
    ]
    assert found == pytest.approx(np.array(single), abs=1e-9)
    assert math.isfinite(found.sum())
