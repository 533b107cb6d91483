"""Draw prick holes on a scribing card: small holes through which a needle marks the work.

A card with a window cannot show the drill centres inside it. So the card stays whole: prick the
corners and the centres, then join the corners with a straight edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.sheet import Stroke
from templates_gen.drawing.view import all_strokes, drill, hidden, scribe
from templates_gen.geometry import Path, Point, circle

#: Diameter of a prick hole (mm), for a needle. Common practice, no source.
PRICK = 0.6
_ARM = 0.6
#: Step of usual drill bit diameters (mm). Common practice, no source.
_BIT_STEP = 0.5


def prick(at: Point) -> tuple[Stroke, ...]:
    """Draw a prick hole with a centre cross."""
    return drill(at, PRICK, arm=_ARM)


def pocket_marks(edge: Path, centres: Iterable[Point], bit: float) -> tuple[Stroke, ...]:
    """Draw a pocket to mark through a card: a scribed edge, prick holes at corners and centres.

    Args:
        edge: the pocket's edge, straight between its corners.
        centres: the drill centres (mm).
        bit: diameter of the drill bit (mm), drawn dashed because it is not cut in the card.
    """
    corners = [(x, y) for x, y, _ in edge.vertices]
    places = list(centres)
    return all_strokes(
        scribe(edge),
        *(prick(at) for at in (*corners, *places)),
        *(hidden(circle(at, bit / 2)) for at in places),
    )


def bit_below(most: float) -> float:
    """Return the largest usual drill bit (mm) up to ``most``; ``most`` itself if none is."""
    return math.floor(most / _BIT_STEP + 1e-9) * _BIT_STEP or most
