"""The underslide's templates."""

from __future__ import annotations

from templates_gen.drawing import (
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
    line,
    polygon,
    scribe,
    template,
)
from templates_gen.parts.underslide import outline
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.seat import CORNER


@template(
    "underslide",
    "Underslide, developed flat",
    "Cut the lining from sheet, drill it, press it over the handle's three lower facets.",
    "stick side up",
    wanted=lambda p: p.scalars(UnderslideDims).lined,
)
def flat(p: Pattern) -> list[View]:
    d = p.scalars(UnderslideDims)
    sheet = outline.flat(p)
    left, bottom, right, top = sheet.box
    rear, front = (d.bend_line(x) for x in (left, right))
    hole = d.shank_hole
    at = d.eyelet.from_heel
    strokes = all_strokes(
        cut(sheet),
        scribe(line((left, rear), (right, front))),
        scribe(line((left, -rear), (right, -front))),
        centre_line((left - 3, 0), (right + 3, 0)),
        drill((at, 0.0), hole, arm=1.0)[0],
        centre_line((at, -hole / 2 - 1), (at, hole / 2 + 1)),
    )
    dims = (
        HorizontalDim((left, bottom), (at, 0.0), -1, suffix=" shank"),
        HorizontalDim((left, bottom), (right, bottom), -2, suffix=" to cut"),
        VerticalDim((right, -front), (right, front), 1),
        VerticalDim((left, bottom), (left, top), -1, suffix=" to cut"),
        Radius((at, 0.0), hole / 2, 60.0, diameter=True, reach=top + 5 - hole / 2),
        Leader((left + 8, rear), (left + 4, top + 7), "bend 45° up, both lines"),
    )
    title = f"{d.params.thickness:g} sheet laid flat; heel end left"
    return [View(title, strokes, dims), _pressed(p, d)]


def _pressed(p: Pattern, d: UnderslideDims) -> View:
    """Draw the pressed lining across."""
    start = d.start
    level = d.land_height(start)
    section = outline.section(p, start).moved(0.0, -level)
    left, bottom, right, top = section.box
    half = d.land_at(start) / 2
    strokes = all_strokes(cut(section), centre_line((0, bottom - 2), (0, top + 4)))
    dims = (
        HorizontalDim((-half, bottom), (half, bottom), -1, suffix=" land"),
        HorizontalDim((left, top), (right, top), 1),
        Leader((half, 0.0), (right + 5, 1.0), "135°, as the handle's facets"),
    )
    return View("pressed, across at the heel", strokes, dims)


@template(
    "underslide-press",
    "Underslide, die and caul",
    "Plane die and caul from hard wood to these sections; press the sheet between them.",
    "stick side up",
    wanted=lambda p: p.scalars(UnderslideDims).lined,
)
def press(p: Pattern) -> list[View]:
    """Draw die and caul across: the three facets of the handle, and their bed under the sheet."""
    d = p.scalars(UnderslideDims)
    half, stop = d.land / 2, d.stop
    sheet, grip, block = d.params.thickness, 14.0, 12.0
    right = [(half, 0.0), (half + stop, stop), (half + stop, stop + grip)]
    die = polygon([*right, *((-x, y) for x, y in right[::-1])])
    floor, rim = half + CORNER * sheet, half + CORNER * sheet + stop + sheet
    bed = [(floor, -sheet), (rim, stop), (rim + block, stop), (rim + block, -sheet - block)]
    caul = polygon([*bed, *((-x, y) for x, y in bed[::-1])])
    return [
        View(
            "die, pressed down on the sheet",
            all_strokes(cut(die), centre_line((0, -3), (0, stop + grip + 3))),
            (
                HorizontalDim((-half, 0.0), (half, 0.0), -1, suffix=" land"),
                VerticalDim((half + stop, 0.0), (half + stop, stop), 1),
            ),
        ),
        View(
            "caul, under the sheet",
            all_strokes(cut(caul), centre_line((0, -sheet - block - 3), (0, stop + 3))),
            (
                HorizontalDim((-floor, -sheet), (floor, -sheet), -1),
                HorizontalDim((-rim, stop), (rim, stop), 1),
                VerticalDim((rim + block, -sheet), (rim + block, stop), 1),
            ),
        ),
    ]
