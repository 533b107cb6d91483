"""The tassel's template."""

from __future__ import annotations

from templates_gen.parts.tassel import outline

from templates_gen.drawing import (
    HorizontalDim,
    Pattern,
    View,
    all_strokes,
    centre_line,
    cut,
    template,
)


@template("tassel-disc", "Tassel", "Cut the disc.", "either face up")
def disc(p: Pattern) -> list[View]:
    edge, hole = outline.edge(p), outline.hole(p)
    left, bottom, right, top = edge.box
    strokes = all_strokes(cut(edge), cut(hole), centre_line((0, bottom - 3), (0, top + 3)))
    return [View("disc", strokes, (HorizontalDim((left, 0), (right, 0), -1),))]
