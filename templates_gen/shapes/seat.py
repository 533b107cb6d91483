"""The frog's seat: the trench for the octagonal handle, with a land and two 45° sides.

Frame: x = 0 on the mid-plane, y up from the land. The sides meet the land at 135°, as the facets of
the handle do.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from templates_gen.geometry import FloatOrArray, Path, Point, polygon

#: Setback of each side at a 135° corner, per millimetre of radius or thickness: tan 22.5°.
CORNER = math.tan(math.pi / 8)


def half_width(land: FloatOrArray, height: FloatOrArray) -> FloatOrArray:
    """Calculate half the trench's width (mm) at a height above the land (mm)."""
    return land / 2 + height


def trench(land: float, height: float, lining: float = 0.0, stop: float = 0.0) -> Path:
    """Draw the section cut away for the handle, and for its lining if there is one.

    Args:
        land: width of the land (mm).
        height: height of the trench above the land (mm).
        lining: thickness of the lining (mm), 0 for none.
        stop: height above the land at which the lining ends on the sides (mm).
    """
    right = _right_side(land, height, lining, stop)
    return _symmetric(right)


def _symmetric(right: Sequence[Point]) -> Path:
    """Draw a symmetric polygon from the points of its right half."""
    return polygon([*((-x, y) for x, y in right[::-1]), *right])


def _right_side(land: float, height: float, lining: float, stop: float) -> list[Point]:
    half, slope = land / 2, math.sqrt(0.5)
    top = (half + height, height)
    if lining == 0.0:
        return [(half, 0.0), top]
    edge = (half + stop, stop)
    outer = (edge[0] + lining * slope, edge[1] - lining * slope)
    return [(half + CORNER * lining, -lining), outer, edge, top]


def lining(land: float, thickness: float, stop: float) -> Path:
    """Draw the section of the lining, with sharp bends.

    Args:
        land: width of the land (mm).
        thickness: mm.
        stop: height above the land at which the lining ends on the sides (mm).
    """
    half, slope = land / 2, math.sqrt(0.5)
    right = [
        (half + CORNER * thickness, -thickness),
        (half + stop + thickness * slope, stop - thickness * slope),
        (half + stop, stop),
        (half, 0.0),
    ]
    return _symmetric(right)
