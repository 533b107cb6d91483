"""A template larger than its paper, on pages that join to one; the other formats keep it whole."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.drawing import joins
from templates_gen.drawing.compose import Composed
from templates_gen.drawing.cover import cover
from templates_gen.drawing.furniture import measures, words_beside
from templates_gen.drawing.grid import Grid, Place, grid
from templates_gen.drawing.joins import Check
from templates_gen.drawing.marks import Marks, place
from templates_gen.drawing.paper import holds
from templates_gen.drawing.sheet import Sheet
from templates_gen.geometry.segment import Box

#: Room (mm) round the template's own marks.
_ROUND = 2.0
_NOTHING = Marks()


@dataclass(frozen=True)
class Page:
    """One page of paper.

    Args:
        size: width and height (mm).
        furniture: what belongs to the page.
        content: what shows of the template, where it stands on this page.
        window: of the content only what lies within shows; all of it if None.
    """

    size: tuple[float, float]
    furniture: Marks
    content: Marks = _NOTHING
    window: Box | None = None


def whole(sheet: Sheet) -> Page:
    """A sheet in one piece."""
    return Page(sheet.size, Marks(sheet.strokes, sheet.fills, sheet.labels))


def tiles(sheet: Composed, paper: str, overlap: float) -> list[Page]:
    """The pages a sheet is printed on: itself where the paper holds it, else a cover and tiles.

    Args:
        sheet: the sheet, in one piece.
        paper: the paper's name.
        overlap: how far each page lies over the next (mm).
    """
    if holds(paper, sheet.size):
        return [whole(sheet)]
    box = _roomy(sheet.content.box)
    laid = grid(box, paper, overlap, sheet.margin)
    level, upright = joins.datums(laid, sheet.content, sheet.datum)
    lengths = joins.checks(sheet.content, box, level, upright)
    content = sheet.content + joins.lines(box, level, upright)
    for length in lengths:
        content += joins.ticks(length)
    crosses = joins.crosses(laid)
    pages = [Page(laid.size, cover(sheet, laid, crosses, lengths))]
    for at in laid.places:
        seen = content
        for cross in crosses:
            if _within(cross.box, laid.shown(at)):
                seen += joins.drawn(cross)
        own = measures(laid.size, sheet.margin) + _words(sheet, laid, at, lengths)
        pages.append(Page(laid.size, own, place(seen, *laid.shift(at)), laid.area))
    return pages


def _roomy(box: Box) -> Box:
    return (box[0] - _ROUND, box[1] - _ROUND, box[2] + _ROUND, box[3] + _ROUND)


def _within(inner: Box, outer: Box) -> bool:
    low = inner[0] >= outer[0] and inner[1] >= outer[1]
    return low and inner[2] <= outer[2] and inner[3] <= outer[3]


def _words(sheet: Composed, laid: Grid, at: Place, lengths: list[Check]) -> Marks:
    info, number = sheet.info, laid.places.index(at) + 1
    lines = [
        f"Page {number} of {laid.count}: row {at.row} of {laid.rows}, "
        f"column {at.column} of {laid.columns}",
        "",
        f"Pattern {info.pattern}, revision {info.revision}, {info.instrument}",
        f"Scale 1:1, {info.up}",
        f"{info.name}   parameters {info.digest}",
        info.verdict,
        *info.stamps,
    ]
    if number == laid.count:
        lines += [f"End to end, between the ticks: {c.length:g} mm over all pages" for c in lengths]
    return words_beside(info.title, lines, laid.size, sheet.margin)
