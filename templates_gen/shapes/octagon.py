"""The regular octagon of the handle, told by its width across flats.

Source: plane geometry; the square of side a, its corners cut so that all eight sides are equal.
"""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, Point, polygon
from templates_gen.geometry.arrays import FloatOrArray

#: One facet, the gauge from each edge of the square, and the width over the corners, each per
#: millimetre across flats.
FACET = math.sqrt(2) - 1
GAUGE = 1 / (2 + math.sqrt(2))
CORNERS = 1 / math.cos(math.pi / 8)


def facet(across_flats: FloatOrArray) -> FloatOrArray:
    """Width (mm) of one facet."""
    return FACET * across_flats


def octagon(across_flats: float, centre: Point = (0.0, 0.0)) -> Path:
    """The outline, a facet at the bottom."""
    x, y = centre
    half, side = across_flats / 2, FACET * across_flats / 2
    corners = [(side, -half), (half, -side), (half, side), (side, half)]
    corners += [(-u, v) for u, v in corners[::-1]]
    return polygon([(x + u, y + v) for u, v in corners])


def d_section(across_flats: float) -> Path:
    """A round top on the octagon's lower half: the lower facets kept."""
    half, side = across_flats / 2, FACET * across_flats / 2
    pen = Pen((-half, 0.0)).line_to(-half, -side).line_to(-side, -half).line_to(side, -half)
    pen.line_to(half, -side).line_to(half, 0.0)
    return pen.arc_by((0.0, 0.0), math.pi / 2).arc_by((0.0, 0.0), math.pi / 2).close()
