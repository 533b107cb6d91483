"""Find the tips of arrowheads in a drawing."""

from __future__ import annotations

import math

from templates_gen.drawing.marks import Marks


def tips(marks: Marks) -> list[tuple[float, float]]:
    """The tip of each drawn arrowhead: the corner farthest from the other two."""
    out = []
    for fill in marks.fills:
        corners = [v[:2] for v in fill.path.vertices]
        out.append(max(corners, key=lambda p: sum(math.dist(p, q) for q in corners)))
    return out
