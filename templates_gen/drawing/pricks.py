"""Marks on a scribing card that stays in one piece: pricks through which a point marks the work.

A card with a window cannot carry the drill centres within it, so the corners are pricked and
joined with a straight edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.sheet import Stroke
from templates_gen.drawing.view import all_strokes, drill, hidden, scribe
from templates_gen.geometry import Path, Point, circle

#: Diameter of a hole to prick through (mm): a needle's. Common practice, no source.
PRICK = 0.6
_ARM = 0.6
#: Bits come in steps of half a millimetre. Common practice, no source.
_BIT_STEP = 0.5


def prick(at: Point) -> tuple[Stroke, ...]:
    """A hole for the point, with its cross."""
    return drill(at, PRICK, arm=_ARM)


def pocket_marks(edge: Path, centres: Iterable[Point], bit: float) -> tuple[Stroke, ...]:
    """A pocket to mark through a card: its edge scribed, its corners and drill centres pricked.

    Args:
        edge: the pocket's edge, straight between its corners.
        centres: where it is drilled first (mm).
        bit: diameter of that bit (mm), dashed because it belongs to the work.
    """
    corners = [(x, y) for x, y, _ in edge.vertices]
    places = list(centres)
    return all_strokes(
        scribe(edge),
        *(prick(at) for at in (*corners, *places)),
        *(hidden(circle(at, bit / 2)) for at in places),
    )


def bit_below(most: float) -> float:
    """The largest usual bit (mm) no wider than ``most``; a narrower pocket takes any."""
    return math.floor(most / _BIT_STEP + 1e-9) * _BIT_STEP or most
