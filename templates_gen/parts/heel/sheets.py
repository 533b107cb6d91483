"""The heel plate's templates."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Leader,
    Pattern,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    hidden,
    line,
    scribe,
    template,
)
from templates_gen.parts.heel import outline
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind

#: A bend shorter than this (mm) gets no middle line, which would blur its two ends.
_NARROW = 3.0


@template(
    "heel-plate",
    "Heel plate, developed flat",
    "Saw the plate from sheet, bend or solder it to the side view, file it flush.",
    "outside face down",
    wanted=lambda p: p.scalars(HeelDims).plated,
)
def flat(p: Pattern) -> list[View]:
    d = p.scalars(HeelDims)
    sheets = outline.flat(p)
    left = min(q.box[0] for q in sheets)
    right = max(q.box[2] for q in sheets)
    strokes = all_strokes([cut(q) for q in sheets], centre_line((left - 3, 0), (right + 3, 0)))
    first = sheets[0].box
    heel = d.frog.width_heel / 2 + d.params.filing_allowance
    dims: tuple[Dimension, ...] = (
        VerticalDim((left, first[1]), (left, first[3]), -1, suffix=" to cut"),
        VerticalDim((right, -heel), (right, heel), 1, suffix=" to cut"),
    )
    if d.params.kind is HeelKind.ONE_PIECE:
        at, low, high = d.bend_line, first[1], first[3]
        start, end = d.bend_ends
        front = d.width_front / 2 + d.params.filing_allowance

        def half(x: float) -> float:
            return front + (heel - front) * min(x / at, 1.0)

        for x in (0.0, start, end, d.flat_length):
            strokes += (scribe(line((x, -half(x)), (x, half(x)))),)
        if end - start > _NARROW:
            strokes += (centre_line((at, -heel - 2.0), (at, heel + 2.0)),)
            dims += (Leader((at, heel + 2.0), (at - 10.0, heel + 26.0), "middle of the bend"),)
        dims += (
            HorizontalDim((0, high), (start, half(start)), 1, suffix=" straight"),
            HorizontalDim(
                (start, half(start)), (end, heel), 2, suffix=f" bend, {d.bend_turn_deg:g}° up"
            ),
            HorizontalDim((0, low), (d.flat_length, low), -1, suffix=" finished"),
            HorizontalDim((left, low), (right, low), -2, suffix=" to cut"),
        )
    else:
        over = d.params.filing_allowance
        for q in sheets:
            a, low, b, high = q.box
            strokes += tuple(scribe(line((x, low), (x, high))) for x in (a + over, b - over))
            dims += (HorizontalDim((a, low), (b, low), -1, suffix=" to cut"),)
    # The finished upper edge of the rear leg is at the right, for one piece and for two.
    edge = right - d.params.filing_allowance
    for up in d.pin_heights:
        pin = edge - (d.params.rear_leg - up)
        strokes += drill((pin, 0.0), d.params.pin_diameter, arm=0.6)
    title = f"{d.params.plate_thickness:g} sheet laid flat; slide end left"
    return [View(title, strokes, dims), *_bent(d, p)]


def _bent(d: HeelDims, p: Pattern) -> list[View]:
    """Draw the finished plate from the side, to check the bend or the joint against."""
    side = outline.side(p)
    left, bottom, _, top = side.box
    lean = math.radians(d.params.lean_deg)
    round_outside = d.params.bottom_radius
    dims = (
        HorizontalDim((0, bottom), (d.params.leg_length, bottom), -1),
        VerticalDim((left, bottom), (left, top), -1),
        Radius((round_outside, round_outside), round_outside, 225.0, reach=-round_outside - 6.0),
    )
    corner, back = (d.corner, 0.0), d.setback
    foot = (corner[0] + back * math.sin(lean), back * math.cos(lean))
    strokes = all_strokes(
        cut(side),
        # The lengths are measured from the sharp corner that the rounding removes.
        hidden(line(corner, (round_outside, 0.0))),
        hidden(line(corner, foot)),
    )
    made = "bent" if d.params.kind is HeelKind.ONE_PIECE else "soldered"
    return [View(f"{made}, from the side", strokes, dims)]
