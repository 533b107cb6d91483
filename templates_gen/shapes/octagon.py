"""The handle's regular octagon, given by its width across flats.

Source: plane geometry: a square of side a with its corners cut so that all eight sides are equal.
"""

from __future__ import annotations

import math

from templates_gen.geometry import FloatOrArray, Path, Pen, Point, polygon

#: Facet width, distance from the square's corner to the facet's edge, and width across corners,
#: each per millimetre across flats.
FACET = math.sqrt(2) - 1
GAUGE = 1 / (2 + math.sqrt(2))
CORNERS = 1 / math.cos(math.pi / 8)


def facet(across_flats: FloatOrArray) -> FloatOrArray:
    """Calculate the width (mm) of one facet from the width across flats (mm)."""
    return FACET * across_flats


def octagon(across_flats: float, centre: Point = (0.0, 0.0)) -> Path:
    """Draw a regular octagon with a facet at the bottom.

    Args:
        across_flats: mm.
        centre: mm.
    """
    x, y = centre
    half, side = across_flats / 2, FACET * across_flats / 2
    corners = [(side, -half), (half, -side), (half, side), (side, half)]
    corners += [(-u, v) for u, v in corners[::-1]]
    return polygon([(x + u, y + v) for u, v in corners])


def d_section(across_flats: float) -> Path:
    """Draw a D-section: the lower half of an octagon with a half-round top.

    Args:
        across_flats: mm.
    """
    half, side = across_flats / 2, FACET * across_flats / 2
    pen = Pen((-half, 0.0)).line_to(-half, -side).line_to(-side, -half).line_to(side, -half)
    pen.line_to(half, -side).line_to(half, 0.0)
    return pen.arc_by((0.0, 0.0), math.pi / 2).arc_by((0.0, 0.0), math.pi / 2).close()
