"""Walls of wood to be measured between the head's own faces. Frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.shapes.wall import Wall

#: A place stands so far (mm) from its face's edge.
_OFF = 0.4


def walls(p: Pattern) -> tuple[Wall, ...]:
    """Beside, behind, ahead of and over the mortise."""
    d = p.derive(HeadDims)
    s = d.stated
    rear, front, deep = float(s.mortise_from_rear), float(d.mortise_front), float(s.mortise_depth)
    tilt, middle = (float(d.mortise_foot) - front) / deep, (rear + front) / 2
    wide = float(s.mortise_width + s.mortise_width_front) / 4
    cheek = (_OFF, float(d.half_width(_OFF) - d.cheek_lean * _OFF), _OFF)
    back, crown = math.radians(float(s.back_deg)), float(d.crown[0]) / 2
    up = float(d.back_straight) / 2
    top = (crown, 0.0, float(s.height) + crown * math.tan(float(d.rise)))
    ridge = tuple(piece.point(0.5) for piece in outline.ridge(p).segments)
    fall = float(d.facet_fall)
    return (
        Wall("head.mortise_sides", (middle, wide, deep / 2), (cheek,)),
        Wall(
            "head.mortise_to_back",
            (rear, 0.0, deep / 2),
            ((up * math.cos(back), 0.0, up * math.sin(back)),),
        ),
        Wall(
            "head.mortise_to_ridge",
            (front + tilt * deep / 2, 0.0, deep / 2),
            tuple((x, 0.0, z) for x, z in ridge),
        ),
        Wall(
            "head.mortise_to_facets",
            (front + tilt * deep / 2, 0.0, deep / 2),
            tuple((x - fall, float(s.ridge_width) / 2 + 1.0, z - fall) for x, z in ridge),
        ),
        Wall("head.mortise_roof", (middle, 0.0, deep), (top,)),
    )
