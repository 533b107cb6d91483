"""The hair's line at true size, and the stick that measures it. Part of ``sheets``."""

from __future__ import annotations

import math
from functools import partial

from templates_gen.bow.dims.hair_line import HairLine
from templates_gen.drawing.template import named
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import (
    Dimension,
    HorizontalDim,
    Text,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import Pen, Point
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline as frog_outline
from templates_gen.parts.head.dims import HeadDims

#: From one figure along the thread to the next (mm).
STEP = 50.0
#: The measuring stick under the thread, and its two feet (mm).
DEEP, FOOT = 14.0, 6.0


def hair_line(p: Pattern) -> list[View]:
    """The bent stick over its thread, with the dummy frog in place and the heights between."""
    h, head = p.derive(HairLine), p.derive(HeadDims)
    dummy = frog_outline.dummy(p)
    tip = (dummy.box[2], dummy.box[1])
    low, high, long = h.low, h.high, h.length
    on = (
        long + float(head.flat) * math.cos(h.face), -float(head.flat) * math.sin(h.face)
    )  # fmt: skip
    under, over = low.path, high.path
    strokes = all_strokes(
        scribe(under),
        scribe(over),
        scribe(line(under.start, over.start)),
        hidden(h.handle(dummy, tip)),
        hidden(line((long, 0.0), under.end)),
        hidden(line((long, 0.0), on)),
        centre_line((0.0, 0.0), (long, 0.0)),
        *(scribe(line((x, 0.0), (x, z))) for x, z in heights(h)),
    )
    dims: tuple[Dimension, ...] = (
        *(Text((x, -4.0), figure(round(z, 1), 1)) for x, z in heights(h)),
        *(Text((x, -8.5), f"{x:g}") for x, _ in heights(h)),
        HorizontalDim((0.0, 0.0), (long, 0.0), -2, suffix=" thread"),
    )
    title = "dummy frog left; under the thread the stick's height over it, and the place"
    return [View(title, strokes, dims)]


def heights(h: HairLine) -> list[Point]:
    """Places along the thread and the stick's height over it (mm)."""
    ends = h.low.x[0], h.low.x[-1]
    places = [STEP * i for i in range(int(h.length / STEP) + 1)]
    return [(x, h.low.height(x)) for x in places if ends[0] <= x <= ends[1]]


def height_stick(p: Pattern) -> list[View]:
    """A strip that lies where the hair will, with two feet that touch the stick."""
    h, head = p.derive(HairLine), p.derive(HeadDims)
    long = h.length
    # Ahead of the handle's end of the thread; behind the rounding of the head's back.
    rear = max(0.0, float(h.low.x[0])) + 1.0
    front = long - 2.5 * float(head.params.back_radius) - FOOT
    feet = [(x, h.low.height(x), h.low.height(x + FOOT)) for x in (rear, front)]
    pen = Pen((0.0, -DEEP)).line_to(long, -DEEP).line_to(long, 0.0)
    for x, z0, z1 in feet[::-1]:
        pen.line_to(x + FOOT, 0.0).line_to(x + FOOT, z1).line_to(x, z0).line_to(x, 0.0)
    path = pen.line_to(0.0, 0.0).close()
    between = [x for x, _ in heights(h) if rear + FOOT + 3 < x < front - 3]
    strokes = all_strokes(cut(path), *(scribe(line((x, -5.0), (x, -0.5))) for x in between))
    dims: tuple[Dimension, ...] = (
        HorizontalDim((0.0, -DEEP), (long, -DEEP), -1, suffix=" ferrule to head"),
        # Each height and its place are those of one corner of the foot.
        HorizontalDim((0.0, -DEEP), (rear, feet[0][1]), -2),
        HorizontalDim((front + FOOT, feet[1][2]), (long, -DEEP), -2),
        VerticalDim((0.0, 0.0), (rear, feet[0][1]), -1, suffix=" at the frog"),
        VerticalDim((long, 0.0), (front + FOOT, feet[1][2]), 1, suffix=" behind the head"),
        *(Text((x, -9.5), f"{x:g}") for x in between),
    )
    title = "feet up, ferrule end left, figures from there; hair lies along the feet's edge"
    return [View(title, strokes, dims)]


_t = partial(named, "bow")

TEMPLATES = (
    _t("hair-line", "Hair line, with the dummy frog",
       "Lay the bent stick on it, dummy frog and thread in place, and compare the heights.",
       "hair side down", hair_line),
    _t("height-stick", "Head-height and hair-length stick",
       "Hold the edge of its feet from ferrule to face: both feet must touch the stick.",
       "feet up", height_stick),
)  # fmt: skip
