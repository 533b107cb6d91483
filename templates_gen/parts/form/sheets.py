"""The templates of the bent stick: bending form, camber card, ordinates."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from templates_gen.drawing import (
    TABLE,
    Dimension,
    HorizontalDim,
    Leader,
    Pattern,
    Radius,
    Text,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    figure,
    hidden,
    line,
    scribe,
    table,
    template,
)
from templates_gen.geometry import Box
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.form import outline
from templates_gen.parts.form.dims import FormDims
from templates_gen.parts.head.dims import HeadDims

#: A mark nearer than this (mm) to the mark of the face could be mistaken for it.
_APART = 5.0


@template(
    "form-bending",
    "Bending form",
    "Saw the form and label its ends; bend the stick on it, head first, a little at a time.",
    "clamping edge away from you",
)
def form(p: Pattern) -> list[View]:
    d = p.scalars(FormDims)
    path = outline.form(p)
    left, _, right, high = path.box
    spacing, bore = d.params.hole_spacing, d.params.hole_diameter
    row = high - d.hole_row
    edge = curves.edge(p).path
    face = outline.mark(edge, edge.length)
    marked = [m for m in outline.marks(edge) if edge.length - m[0] > _APART]
    holes = [left + spacing / 2 + i * spacing for i in range(int((right - left) / spacing))]
    strokes = all_strokes(
        cut(path),
        *(scribe(line(a, b)) for _, a, b in (*marked, face)),
        *(drill((x, row), bore, arm=1.5)[:2] for x in holes),
    )
    dims: tuple[Dimension, ...] = (
        HorizontalDim((left, high), (right, high), 1),
        VerticalDim((right, high - d.params.depth), (right, high), 1),
        *(HorizontalDim((a, row), (b, row), 2) for a, b in pairwise(holes[:2])),
        *(Radius((x, row), bore / 2, -30.0, diameter=True) for x in holes[:1]),
        *(Text((b[0], b[1] + 1.2), f"{along:g}") for along, _, b in marked[1:]
          if edge.length - along > 18.0),
        *_ends(marked[0], face, path.box),
    )  # fmt: skip
    over = figure(d.stick.params.over_bend)
    thick = figure(d.stick.params.bent_oversize)
    title = f"for the stick's top, {thick} oversize, {over} × its camber; numbers along the edge"
    return [View(title, strokes, dims)]


def _ends(ferrule: outline.Mark, face: outline.Mark, box: Box) -> list[Dimension]:
    """Label the ends of the form: they differ, so it must not be used turned round."""
    (_, _, start), (along, _, end), (left, _, right, high) = ferrule, face, box
    return [
        Leader(start, (start[0] + 4.0, start[1] + 9.0), "0: ferrule's front"),
        Leader(end, (end[0] - 4.0, end[1] + 9.0), f"{along:.1f}: face's rear edge"),
        Text((left + 3.0, high - 4.5), "FERRULE END", "start"),
        Text((right - 3.0, high - 4.5), "HEAD END", "end"),
    ]


@template(
    "form-head-piece",
    "Bending form, head piece",
    "Bend the end behind the head on it; its clamping edge shows the direction of the face.",
    "clamping edge away from you",
)
def head_piece(p: Pattern) -> list[View]:
    path, edge = outline.head_piece(p), curves.head_edge(p)
    rise = math.degrees(p.scalars(HeadDims).rise)
    left, _, right, high = path.box
    # Counted from the face backward, as the stick is laid on.
    marks = outline.marks(edge.reversed())[:2]
    strokes = all_strokes(
        cut(path),
        *(scribe(line(a, (2 * a[0] - b[0], 2 * a[1] - b[1]))) for _, a, b in marks),
    )
    dims: tuple[Dimension, ...] = (
        HorizontalDim((left, high), (0.0, 0.0), 1, suffix=" to the face's rear edge"),
        HorizontalDim((left, high), (right, high), 2),
        VerticalDim((left, edge.start[1]), (left, high), -1),
        VerticalDim((0.0, 0.0), (right, high), 1, suffix=" face"),
        Leader((0.0, 0.0), (-48.0, 0.6 * high), f"{figure(rise, 1)}° to the clamping edge"),
        *(Text((2 * a[0] - b[0], 2 * a[1] - b[1] + 1.2), f"{s:g}") for s, a, b in marks),
    )
    title = "stick's top below, head right, face level with the clamping edge; marks from the face"
    return [View(title, strokes, dims)]


@template(
    "form-camber-card",
    "Camber card",
    "Hold the finished stick against this card: underside and top, ferrule to head.",
    "hair side down",
)
def camber_card(p: Pattern) -> list[View]:
    d = p.scalars(FormDims)
    path = outline.camber_card(p)
    length, deep = d.stick.chord, d.stick.params.camber_depth
    at = d.stick.camber.deepest * length
    strokes = all_strokes(
        cut(path),
        hidden(line((0.0, 0.0), (length, 0.0))),
        centre_line((at, -deep - 3.0), (at, 6.0)),
    )
    dims = (
        HorizontalDim((0.0, 0.0), (length, 0.0), -1),
        HorizontalDim((0.0, 0.0), (at, -deep), -2, suffix=" deepest"),
        VerticalDim((0.0, 0.0), (at, -deep), -1),
        Leader((0.0, 0.0), (10.0, -9.0), "ferrule's front"),
        Leader((length, 0.0), (length - 10.0, -9.0), "face's rear edge"),
    )
    return [View("the finished stick, ferrule left; straight edge dashed", strokes, dims)]


@template(
    "form-ordinates",
    "Bending form, ordinates",
    "Check the printed form against these numbers before sawing: paper moves with the weather.",
    TABLE,
)
def ordinates(p: Pattern) -> list[View]:
    d = p.scalars(FormDims)
    edge, low = curves.edge(p), outline.form(p).box[3]
    chord = d.stick.chord
    low_x, at = curves.underside(p).x, curves.places(p)
    places = [50.0 * i for i in range(int(chord // 50) + 1)]
    rows = [("x", "form", "stick", "camber")]
    for x in dict.fromkeys([*places, chord]):
        rows.append(
            (
                figure(x, 1),
                f"{low - edge.height(x):.1f}",
                f"{float(d.stick.diameter(np.interp(x, low_x, at))):.2f}",
                f"{d.stick.camber.at(x)[0]:.1f}",
            )
        )
    title = "x along a straight edge from the ferrule; form depth from its clamping edge"
    return [table(title, rows, least=22.0)]
