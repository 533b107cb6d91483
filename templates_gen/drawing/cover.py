"""The cover of a tiled template: how its pages join, and what to measure when they have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from templates_gen.drawing.compose import Composed
from templates_gen.drawing.furniture import measures, words_beside
from templates_gen.drawing.grid import Grid
from templates_gen.drawing.joins import Check, Cross
from templates_gen.drawing.marks import Marks, box_round, place
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.view import line
from templates_gen.geometry import Point, rectangle

_CAP = 2.5
#: Of the page's room the map takes at most this share, and it is never larger than this scale.
_SHARE, _LARGEST = 0.85, 0.5
_ARM = 1.5
#: A thousandth is what a bar read to a quarter millimetre tells.
_PRINTS = 0.001


def cover(sheet: Composed, grid: Grid, crosses: Sequence[Cross], lengths: Sequence[Check]) -> Marks:
    """Words, a map of the pages and what every page is measured by."""
    words = words_beside(
        f"{sheet.info.title}: how the pages join",
        _lines(sheet, grid, lengths),
        grid.size,
        sheet.margin,
    )
    return measures(grid.size, sheet.margin) + words + _map(sheet, grid, crosses)


def _lines(sheet: Composed, grid: Grid, lengths: Sequence[Check]) -> list[str]:
    rows = "1 row" if grid.rows == 1 else f"{grid.rows} rows"
    return [
        f"{grid.count} pages, {rows} of {grid.columns}, each {grid.overlap:g} mm over the next",
        "",
        "Print at 100 %. Measure square and bars on every page.",
        "Lay page on page until both crosses of a joint meet; glue.",
        "The datum line runs straight through all pages.",
        *(
            f"Measure {c.length:g} end to end, between the ticks: within {c.length * _PRINTS:.1f}"
            for c in lengths
        ),
        "",
        f"Pattern {sheet.info.pattern}, revision {sheet.info.revision}, {sheet.info.instrument}",
        f"{sheet.info.name}   parameters {sheet.info.digest}",
        sheet.info.verdict,
        *sheet.info.stamps,
    ]


def _map(sheet: Composed, grid: Grid, crosses: Sequence[Cross]) -> Marks:
    """The pages, their numbers and crosses, and the template's lines, all made smaller."""
    windows = [grid.shown(at) for at in grid.places]
    box = box_round(windows)
    left, bottom, right, top = grid.area
    scale = min(
        _LARGEST,
        _SHARE * (right - left) / (box[2] - box[0]),
        _SHARE * (top - bottom) / (box[3] - box[1]),
    )

    def small(p: Point) -> Point:
        return (p[0] * scale, p[1] * scale)

    strokes = [
        replace(s, path=s.path.mapped(small), layer=Layer.SCRIBE)
        for s in sheet.content.strokes
        if s.layer is not Layer.DIMENSION
    ]
    labels = []
    for number, (x0, y0, x1, y1) in enumerate(windows, start=1):
        strokes.append(Stroke(rectangle(x0, y0, x1, y1).mapped(small), Layer.NOTE))
        x, y = small((x0 + grid.overlap + 4, y1))
        labels.append(Label(f"page {number}", (x + 2, y - 1.5 * _CAP), _CAP))
    marks = Marks(tuple(strokes), (), tuple(labels))
    for cross in crosses:
        marks += _small_cross(small(cross.at), cross.name)
    a, b, c, d = marks.box
    moved = place(marks, (left + right - a - c) / 2, (bottom + top - b - d) / 2 + _CAP)
    under = (moved.box[0], moved.box[1] - 2 * _CAP)
    return moved + Marks(labels=(Label("how the pages lie; not at true size", under, _CAP),))


def _small_cross(at: Point, name: str) -> Marks:
    x, y = at
    level, upright = line((x - _ARM, y), (x + _ARM, y)), line((x, y - _ARM), (x, y + _ARM))
    label = Label(name, (x + _ARM, y + _ARM / 2), _CAP)
    return Marks((Stroke(level, Layer.NOTE), Stroke(upright, Layer.NOTE)), (), (label,))
