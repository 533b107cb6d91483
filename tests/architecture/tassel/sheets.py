"""The tassel's template."""

from __future__ import annotations

from templates_gen.parts.tassel import outline

from templates_gen.drawing.template import Template
from templates_gen.drawing.view import HorizontalDim, View, all_strokes, centre_line, cut
from templates_gen.parameters import Pattern


def disc(p: Pattern) -> list[View]:
    edge, hole = outline.edge(p), outline.hole(p)
    left, bottom, right, top = edge.box
    strokes = all_strokes(cut(edge), cut(hole), centre_line((0, bottom - 3), (0, top + 3)))
    return [View("disc", strokes, (HorizontalDim((left, 0), (right, 0), -1),))]


TEMPLATES = (Template("tassel-disc", "Tassel", "tassel", "Cut the disc.", "either face up", disc),)
