"""The slide's templates."""

from __future__ import annotations

from templates_gen.drawing import (
    Angle,
    HorizontalDim,
    Pattern,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    template,
)
from templates_gen.parts.slide import outline
from templates_gen.parts.slide.dims import SlideDims


@template(
    "slide-outline",
    "Slide",
    "Scribe the slide with this; its narrow face is the visible one.",
    "visible face up",
)
def plan(p: Pattern) -> list[View]:
    d = p.scalars(SlideDims)
    face, back = outline.face(p), outline.back(p)
    length = d.params.length
    front, heel = d.params.width_front / 2, d.width_heel / 2
    strokes = all_strokes(cut(face), hidden(back), centre_line((-3, 0), (length + 3, 0)))
    dims = (
        HorizontalDim((0, -front), (length, -heel), -1),
        VerticalDim((0, -front), (0, front), -1),
        VerticalDim((length, -heel), (length, heel), 1),
        VerticalDim(*_across(back.box[0], d.floor(d.params.width_front)), -2, suffix=" floor"),
        VerticalDim(*_across(length, d.floor(d.width_heel)), 2, suffix=" floor"),
    )
    return [View("the visible face; ferrule end left; hidden face dashed", strokes, dims)]


def _across(x: float, width: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (x, -width / 2), (x, width / 2)


@template(
    "slide-dovetail",
    "Slide, dovetail sections",
    "File a plug to each section: it must fill that end of the channel; the slide is as wide.",
    "hair side down",
)
def section(p: Pattern) -> list[View]:
    s, views = p.scalars(SlideDims).params, []
    for title, path in (
        ("section at the ferrule end", outline.section_front(p)),
        ("section at the heel end", outline.section_heel(p)),
    ):
        left, bottom, right, top = path.box
        face = max(v[0] for v in path.vertices if v[1] == bottom)
        strokes = all_strokes(cut(path), centre_line((0, bottom - 3), (0, top + 3)))
        dims = (
            HorizontalDim((-face, bottom), (face, bottom), -1, suffix=" face"),
            HorizontalDim((left, top), (right, top), 1, suffix=" floor"),
            VerticalDim((right, bottom), (right, top), 1),
            Angle((-face, bottom), 90.0, 90.0 + s.dovetail_deg, 5.0),
        )
        views.append(View(title, strokes, dims))
    return views
