"""The ferrule's templates."""

from __future__ import annotations

from templates_gen.drawing import (
    HorizontalDim,
    Path,
    Pattern,
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
from templates_gen.parts.ferrule import outline
from templates_gen.parts.ferrule.dims import FerruleDims


@template(
    "ferrule-mandrel",
    "Ferrule mandrel",
    "File a steel bar to this section and bend the arch over it.",
    "plate side down",
)
def mandrel(p: Pattern) -> list[View]:
    s = p.scalars(FerruleDims).params
    opening, outside = outline.opening(p), outline.outside(p)
    left, bottom, right, top = outside.box
    _, _, inner_right, inner_top = opening.box
    strokes = all_strokes(cut(opening), hidden(outside), centre_line((0, bottom - 3), (0, top + 3)))
    dims = (
        HorizontalDim((-inner_right, 0), (inner_right, 0), -1),
        HorizontalDim((left, bottom), (right, bottom), -2, suffix=" ferrule outside"),
        VerticalDim((inner_right, 0), (0, inner_top), 1),
        VerticalDim((left, -s.plate_thickness), (0, top), -1),
    )
    return [View("section of the mandrel, ferrule dashed", strokes, dims)]


@template(
    "ferrule-counter-form",
    "Ferrule counter-form",
    "Cut this hollow in hard wood; press the arch over the mandrel with it.",
    "plate side down",
)
def counter_form(p: Pattern) -> list[View]:
    d = p.scalars(FerruleDims)
    form = outline.counter_form(p)
    left, _, right, top = form.box
    half = d.half_width
    strokes = all_strokes(cut(form), centre_line((0, -3), (0, top + 3)))
    dims = (
        HorizontalDim((-half, 0), (half, 0), -1),
        HorizontalDim((left, 0), (right, 0), -2),
        VerticalDim((half, 0), (0, d.arch_height), 1),
    )
    return [View("counter-form", strokes, dims)]


@template(
    "ferrule-arch-strip",
    "Ferrule arch, developed flat",
    "Cut the strip from sheet, bend it over the mandrel, file its ends to the scribed lines.",
    "outside face up",
)
def arch_strip(p: Pattern) -> list[View]:
    d = p.scalars(FerruleDims)
    s = d.params
    title = f"{s.arch_thickness:g} sheet; finished length along the bow {s.length:g}"
    return [_sheet(title, outline.arch_strip(p), d.arch_length / 2)]


@template(
    "ferrule-plate",
    "Ferrule plate",
    "Cut the plate from sheet and file it flush with the arch after soldering.",
    "either face up",
)
def plate(p: Pattern) -> list[View]:
    d = p.scalars(FerruleDims)
    title = f"{d.params.plate_thickness:g} sheet; finished length {d.params.length:g}"
    return [_sheet(title, outline.plate(p), d.half_width)]


def _sheet(title: str, sheet: Path, half: float) -> View:
    """Draw a sheet to cut with its filing allowance, and the lines to file to."""
    left, bottom, right, top = sheet.box
    strokes = all_strokes(
        cut(sheet),
        scribe(line((-half, bottom), (-half, top))),
        scribe(line((half, bottom), (half, top))),
        centre_line((0, bottom - 3), (0, top + 3)),
    )
    dims = (
        HorizontalDim((-half, bottom), (half, bottom), -1, suffix=" finished"),
        HorizontalDim((left, bottom), (right, bottom), -2, suffix=" to cut"),
        VerticalDim((right, bottom), (right, top), 1),
    )
    return View(title, strokes, dims)


@template(
    "ferrule-spread-wedge",
    "Spread wedge",
    "Cut the wedge from soft straight-grained wood; press it in over the hair, from the front.",
    "hair side down",
)
def wedge(p: Pattern) -> list[View]:
    d = p.scalars(FerruleDims)
    plan, side = outline.wedge(p), outline.wedge_side(p)
    left, bottom, right, top = plan.box
    thin, thick, r = d.wedge_thin, d.params.wedge_thickness, outline.wedge_edge(d)
    return [
        View(
            "from above; the thin end, left, goes in first",
            all_strokes(cut(plan), centre_line((left - 3, 0), (right + 3, 0))),
            (
                HorizontalDim((left, bottom), (right, bottom), -1),
                VerticalDim((right, bottom), (right, top), 1),
            ),
        ),
        View(
            "from the side, hair side down; the hair leaves over the rounded edge",
            all_strokes(cut(side)),
            (
                VerticalDim((0.0, 0.0), (0.0, thin), -1, suffix=" thin end"),
                VerticalDim((right, 0.0), (right, thick), 1, suffix=" thick end"),
                Radius((right - r, r), r, -45.0, reach=8.0),
            ),
        ),
    ]
