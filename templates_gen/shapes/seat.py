"""The trench on top of the frog in which the octagonal handle lies: a land and two diagonals.

Frame: x = 0 on the mid-plane, y up from the land. The diagonals rise at 45°, so they meet the land
at 135°, as the facets of the handle do.
"""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, Point
from templates_gen.geometry.arrays import FloatOrArray

#: What a diagonal corner takes of each side, per millimetre of radius: tan 22.5°.
CORNER = math.tan(math.pi / 8)


def reach(land: FloatOrArray, height: FloatOrArray) -> FloatOrArray:
    """Half the trench's width (mm) at a height above the land (mm)."""
    return land / 2 + height


def trench(land: float, height: float, lining: float = 0.0, stop: float = 0.0) -> Path:
    """What is cut away for the handle, and for a lining on its three facets if there is one.

    Args:
        land: width of the land on which the handle's facet faces (mm).
        height: of the trench above the land (mm).
        lining: thickness of the lining (mm), 0 for none.
        stop: height above the land at which the lining ends on the diagonals (mm).
    """
    right = _right_side(land, height, lining, stop)
    left = [(-x, y) for x, y in right[::-1]]
    pen = Pen(left[0])
    for corner in [*left[1:], *right]:
        pen.line_to(*corner)
    return pen.close()


def _right_side(land: float, height: float, lining: float, stop: float) -> list[Point]:
    half, slope = land / 2, math.sqrt(0.5)
    top = (half + height, height)
    if lining == 0.0:
        return [(half, 0.0), top]
    edge = (half + stop, stop)
    outer = (edge[0] + lining * slope, edge[1] - lining * slope)
    return [(half + CORNER * lining, -lining), outer, edge, top]


def lining(land: float, thickness: float, stop: float) -> Path:
    """The lining's section, sharp in its bends."""
    half, slope = land / 2, math.sqrt(0.5)
    right = [
        (half + CORNER * thickness, -thickness),
        (half + stop + thickness * slope, stop - thickness * slope),
        (half + stop, stop),
        (half, 0.0),
    ]
    pen = Pen((-right[0][0], right[0][1]))
    for x, y in [*right, *((-x, y) for x, y in right[:0:-1])]:
        pen.line_to(x, y)
    return pen.close()
