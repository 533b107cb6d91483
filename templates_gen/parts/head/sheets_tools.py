"""The head's bench tools: the caul of its face and a bevel card. Part of ``sheets``."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    Angle,
    HorizontalDim,
    Pattern,
    Pen,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    scribe,
    template,
)
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims


@template(
    "head-caul",
    "Caul of the face",
    "Press liner and plate onto the face with this caul.",
    "face up",
)
def caul(p: Pattern) -> list[View]:
    """Draw a block with the curve of the face, to press plate and liner onto it."""
    d = p.scalars(HeadDims)
    s = d.params
    length, rise = s.face_length, s.nose_rise
    pen = Pen((-3.0, 0.0)).line_to(-3.0, -14.0).line_to(length, -14.0).line_to(length, rise)
    pen.arc_to((d.flat, 0.0), (d.flat, d.face_radius), left=False)
    path = pen.line_to(-3.0, 0.0).close()
    dims = (
        HorizontalDim((0.0, 0.0), (d.flat, 0.0), 1, suffix=" flat"),
        HorizontalDim((-3.0, -14.0), (length, -14.0), -1),
        VerticalDim((length, -14.0), (length, rise), 1),
        Radius((d.flat, d.face_radius), d.face_radius, 285.0, reach=5.0),
    )
    strokes = all_strokes(cut(path), centre_line((0.0, -3.0), (0.0, 3.0)))
    return [View("under the face; the mark at its rear edge", strokes, dims)]


@template(
    "head-bevel-card",
    "Head, bevel card",
    "Hold it against a cheek after bending: foot on the face, top along the stick.",
    "hair side down",
)
def bevel(p: Pattern) -> list[View]:
    """Draw a card for the angle between the face and the top of the stick."""
    rise, path = p.scalars(HeadDims).rise, outline.bevel(p, 40.0)
    high, (left, _, right, top) = p.scalars(HeadDims).params.height, path.box
    dims = (
        HorizontalDim((left, 0.0), (0.0, 0.0), -1, suffix=" to the face"),
        VerticalDim((right, 0.0), (right, top), 1),
        VerticalDim((right, 0.0), (0.0, high), 2, suffix=" at the face's rear"),
        Angle((0.0, high), 180.0, 180.0 + math.degrees(rise), 30.0),
    )
    strokes = all_strokes(
        cut(path), hidden(line((0.0, high), (left, high))), scribe(line((0.0, 0.0), (0.0, 4.0)))
    )
    title = "foot along the face, the mark at its rear edge; top along the stick, butt left"
    return [View(title, strokes, dims)]
