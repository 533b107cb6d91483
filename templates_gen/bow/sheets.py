"""Sheets of the whole bow: the frog on its stick, the hair line, the stick that measures it."""

from __future__ import annotations

import math

from templates_gen.bow.dims.frames import positions
from templates_gen.bow.dims.hair_line import HairLine
from templates_gen.bow.dims.travel import Travel
from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Path,
    Pattern,
    Pen,
    Point,
    Text,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    figure,
    hidden,
    line,
    rectangle,
    scribe,
    template,
)
from templates_gen.parts.frog import outline
from templates_gen.parts.head.dims import HeadDims

#: Spacing (mm) of the heights along the cotton line.
STEP = 50.0
#: Depth of the measuring stick, and width of each of its two feet (mm).
DEEP, FOOT = 14.0, 6.0


@template(
    "bow-frog-on-stick",
    "Frog on its stick",
    "Compare the positions of frog, slot and screw in play, and the travel of the frog.",
    "hair side down",
)
def on_stick(p: Pattern) -> list[View]:
    t = p.scalars(Travel)
    x, z = positions(p)["play"]
    frog = outline.side(p).moved(x, z)
    seat, end = t.frog.seat, t.stick.mortise_front + 25.0
    butt, far = (t.stick.across_flats(v) / 2 for v in (0.0, end))
    start, front = t.stick.params.mortise_from_butt, t.stick.mortise_front
    at = x + seat.eyelet.from_heel
    heels = [positions(p)[end_][0] for end_ in ("rearmost", "foremost")]
    low, ferrule = z - 4.0, x + t.frog.params.length_bottom
    high = z + t.frog.ferrule.params.height
    strokes = all_strokes(
        scribe(frog),
        scribe(line((0.0, butt), (end, far))),
        scribe(line((0.0, -butt), (x, -t.stick.across_flats(x) / 2))),
        scribe(line((0.0, -butt), (0.0, butt))),
        hidden(_slot(t, start, front)),
        hidden(rectangle(x + t.frog.shoulder + 0.01, z, ferrule, high)),
        *(hidden(line((h, z - 2.0), (h, z + 6.0))) for h in heels if abs(h - x) > 0.05),
        centre_line((-6.0, 0.0), (end + 3.0, 0.0)),
        centre_line((at, low), (at, butt + 3.0)),
    )
    dims = (
        HorizontalDim((0.0, -butt), (ferrule, z), -1, suffix=" ferrule in play"),
        HorizontalDim((heels[0], z), (heels[1], z), -2, suffix=" travel"),
        HorizontalDim((0.0, butt), (start, butt), 1),
        HorizontalDim((start, butt), (front, butt), 2, suffix=" mortise"),
        HorizontalDim((0.0, butt), (at, butt), 3, suffix=" eyelet in play"),
        VerticalDim((x, z), (0.0, 0.0), -1, suffix=" to the axis"),
    )
    return [View("in play; dashed heels: slackest and tightest", strokes, dims)]


def _slot(t: Travel, start: float, front: float) -> Path:
    low, high = (-t.stick.across_flats(v) / 2 for v in (start, front))
    deep = t.stick.params.mortise_depth
    return Path(
        (
            (start, low, 0.0),
            (start, low + deep, 0.0),
            (front, high + deep, 0.0),
            (front, high, 0.0),
        ),
        closed=False,
    )


@template(
    "bow-hair-line",
    "Hair line, with the dummy frog",
    "Lay the bent stick on it, dummy frog and cotton line in place; compare the heights.",
    "hair side down",
)
def hair_line(p: Pattern) -> list[View]:
    """Draw the bent stick over the cotton line, with the dummy frog and the heights between."""
    h, head = p.scalars(HairLine), p.scalars(HeadDims)
    dummy = outline.dummy(p)
    tip = (dummy.box[2], dummy.box[1])
    low, high, long = h.low, h.high, h.length
    on = (
        long + head.flat * math.cos(h.face), -head.flat * math.sin(h.face)
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
        HorizontalDim((0.0, 0.0), (long, 0.0), -2, suffix=" cotton line"),
    )
    title = "dummy frog left; below the cotton line: height of the stick over it, and position"
    return [View(title, strokes, dims)]


def heights(h: HairLine) -> list[Point]:
    """List positions along the cotton line and the height of the stick over it (mm)."""
    ends = h.low.x[0], h.low.x[-1]
    places = [STEP * i for i in range(int(h.length / STEP) + 1)]
    return [(x, h.low.height(x)) for x in places if ends[0] <= x <= ends[1]]


@template(
    "bow-height-stick",
    "Head-height and hair-length stick",
    "Hold its upper edge from ferrule to face: both feet must touch the stick.",
    "feet up",
)
def height_stick(p: Pattern) -> list[View]:
    """Draw a strip that lies where the hair will, with two feet that touch the stick."""
    h, head = p.scalars(HairLine), p.scalars(HeadDims)
    long = h.length
    # Ahead of the rear end of the curve; behind the rounding at the back of the head.
    rear = max(0.0, float(h.low.x[0])) + 1.0
    front = long - 2.5 * head.params.back_radius - FOOT
    feet = [(x, h.low.height(x), h.low.height(x + FOOT)) for x in (rear, front)]
    pen = Pen((0.0, -DEEP)).line_to(long, -DEEP).line_to(long, 0.0)
    for x, z0, z1 in feet[::-1]:
        pen.line_to(x + FOOT, 0.0).line_to(x + FOOT, z1).line_to(x, z0).line_to(x, 0.0)
    path = pen.line_to(0.0, 0.0).close()
    between = [x for x, _ in heights(h) if rear + FOOT + 3 < x < front - 3]
    strokes = all_strokes(cut(path), *(scribe(line((x, -5.0), (x, -0.5))) for x in between))
    dims: tuple[Dimension, ...] = (
        HorizontalDim((0.0, -DEEP), (long, -DEEP), -1, suffix=" ferrule to head"),
        # Each height and its position belong to the same corner of the foot.
        HorizontalDim((0.0, -DEEP), (rear, feet[0][1]), -2),
        HorizontalDim((front + FOOT, feet[1][2]), (long, -DEEP), -2),
        VerticalDim((0.0, 0.0), (rear, feet[0][1]), -1, suffix=" at the frog"),
        VerticalDim((long, 0.0), (front + FOOT, feet[1][2]), 1, suffix=" behind the head"),
        *(Text((x, -9.5), f"{x:g}") for x in between),
    )
    title = "feet up, ferrule end left, numbers from there; the hair lies along the upper edge"
    return [View(title, strokes, dims)]
