"""The sawn blank for stick and head. Part of ``sheets``."""

from __future__ import annotations

import math

import numpy as np

from templates_gen.drawing import (
    HorizontalDim,
    Leader,
    Pattern,
    Point,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    figure,
    line,
    polygon,
    scribe,
    template,
)
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.parts.stick.dims import SAWN


def shaft(p: Pattern, end: float) -> list[Point]:
    """List positions from the butt's shoulder and the blank's thickness there (mm), up to ``end``.

    Along the handle it is the finished thickness plus the allowance; ahead of it one straight saw
    cut leaves at least that allowance everywhere.
    """
    d = p.scalars(HeadDims).bow
    over = d.stages["sawn"]
    start, stop = d.params.handle_length, d.face_rear
    places = np.linspace(start, stop, 400)[1:]
    first = d.diameter(start)
    slope = float(((d.diameter(places) - first) / (places - start)).max())
    rear = (0.0, d.diameter(0.0) + over)
    return [rear, (start, first + over), (end, first + over + slope * (end - start))]


@template(
    "stick-blank",
    "Stick, sawn blank",
    "Saw the blank from a board split along the grain, with clear grain through the head block.",
    "top of the stick up",
)
def blank(p: Pattern) -> list[View]:
    """Draw the sawn blank from the side and from above, head block included.

    The head has the same angle in it as on the bent stick.
    """
    d, n = p.scalars(HeadDims), neck(p)
    s, rise = d.bow.params, d.rise
    x, z = n.on_stick
    at, tall = d.bow.face_rear, d.params.height
    # Start of the rounding behind the head, and the face's rear edge, along the straight stick.
    back = at + x * math.cos(rise) + (z - tall) * math.sin(rise) - SAWN
    heel, high = at - d.block_rear - SAWN, d.block_depth + SAWN
    rear, end = -s.nipple_length - SAWN, s.length + SAWN
    thick = shaft(p, back)
    under = [(rear, -thick[0][1]), *((u, -v) for u, v in thick[1:]), (heel, -high), (end, -high)]
    side = polygon([(rear, 0.0), *under, (end, 0.0)])
    block = (d.params.width + SAWN) / 2
    upper = [(rear, thick[0][1] / 2), *((u, v / 2) for u, v in thick[1:]), (heel, block)]
    upper.append((end, block))
    plan = polygon([*upper, *((u, -v) for u, v in upper[::-1])])
    half, (knee, wide), (_, thin) = thick[0][1] / 2, thick[1], thick[2]
    straight = f"{figure(knee - rear)} from the end, {figure(wide)} thick; straight from here"
    return [
        View(
            "from the side; top of the stick up, butt left; the line marks the butt's shoulder",
            all_strokes(cut(side), scribe(line((0.0, 0.0), (0.0, -thick[0][1])))),
            (
                HorizontalDim((rear, -thick[0][1]), (heel, -high), -1, suffix=" to the block"),
                HorizontalDim((rear, -thick[0][1]), (end, -high), -2),
                VerticalDim((rear, 0.0), (rear, -thick[0][1]), -1),
                VerticalDim((end, 0.0), (end, -high), 1),
                Leader((knee, -wide), (knee + 12.0, -wide - 7.0), straight),
                Leader((back, -thin), (back - 12.0, -thin - 7.0), f"{figure(thin)} thick"),
            ),
        ),
        View(
            "from above; the stick is as thick as from the side",
            all_strokes(cut(plan), centre_line((rear + 5.0, 0.0), (end - 5.0, 0.0))),
            (
                VerticalDim((rear, -half), (rear, half), -1),
                VerticalDim((end, -block), (end, block), 1),
            ),
        ),
    ]
