"""Tile a template that is larger than the paper; only the PDF is tiled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing import registration
from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.cover import cover
from templates_gen.drawing.furniture import instruction, measuring_marks, scale, text_block
from templates_gen.drawing.grid import Grid, Place, grid
from templates_gen.drawing.marks import Marks, place
from templates_gen.drawing.paper import holds
from templates_gen.drawing.registration import Cross, MeasuredLength
from templates_gen.drawing.sheet import Sheet
from templates_gen.geometry import Box

_NOTHING = Marks()


@dataclass(frozen=True)
class Page:
    """One page of paper.

    Args:
        size: width and height (mm).
        furniture: square, bars, text and stamps.
        content: the template's marks, in the page's frame.
        window: the content is clipped to this box; not clipped if None.
        factors: horizontal and vertical scale that corrects the printer's error.
    """

    size: tuple[float, float]
    furniture: Marks
    content: Marks = _NOTHING
    window: Box | None = None
    factors: tuple[float, float] = (1.0, 1.0)


@dataclass(frozen=True)
class Layout:
    """The layout of a template on its pages.

    Args:
        grid: the pages.
        content: the template's marks with the datum lines and their ticks.
        level, upright: y of the horizontal and x of the vertical datum lines (mm, in the
            template's frame).
        lengths: the lengths to measure on them.
        crosses: the registration crosses.
    """

    grid: Grid
    content: Marks
    level: Sequence[float]
    upright: Sequence[float]
    lengths: Sequence[MeasuredLength]
    crosses: Sequence[Cross]


def whole(sheet: Sheet) -> Page:
    """Return a sheet as one page."""
    return Page(sheet.size, Marks(sheet.strokes, sheet.fills, sheet.labels))


def tiles(sheet: PlacedSheet, paper: str, overlap: float) -> list[Page]:
    """Divide a sheet into pages: the sheet itself if it fits the paper, else a cover and tiles.

    Args:
        sheet: the sheet, in one piece.
        paper: the paper's name.
        overlap: width of the overlap of two pages (mm).
    """
    if holds(paper, sheet.size):
        return [whole(sheet)]
    lies = layout(sheet, paper, overlap)
    laid, lengths = lies.grid, lies.lengths
    pages = [Page(laid.size, cover(sheet, laid, lies.crosses, lengths))]
    for at in laid.places:
        seen = lies.content
        for cross in lies.crosses:
            if _within(cross.box, laid.shown(at)):
                seen += registration.cross_marks(cross)
        own = measuring_marks(laid.size, sheet.margin, sheet.info.stamps)
        own += _words(sheet, laid, at, lengths)
        pages.append(Page(laid.size, own, place(seen, *laid.shift(at)), laid.area))
    return pages


def layout(sheet: PlacedSheet, paper: str, overlap: float) -> Layout:
    """Lay out a sheet's template on pages of a paper, with datum lines outside it."""
    laid, box = _laid(sheet, paper, overlap), sheet.content.box
    level, upright = registration.datum_positions(laid, box)
    lengths = registration.measured_lengths(box, level, upright)
    content = sheet.content + registration.datum_lines(box, level, upright)
    for length in lengths:
        content += registration.end_ticks(length)
    return Layout(laid, content, level, upright, lengths, registration.crosses(laid, content))


def _laid(sheet: PlacedSheet, paper: str, overlap: float) -> Grid:
    """Find the fewest pages for the template and the datum lines that so many pages need."""
    found = []
    for level, upright in ((False, False), (True, False), (False, True), (True, True)):
        box = registration.box_with_datums(sheet.content.box, level=level, upright=upright)
        laid = grid(box, paper, overlap, sheet.margin, sheet.info.stamps)
        if (level or laid.columns == 1) and (upright or laid.rows == 1):
            found.append(laid)
    return min(found, key=lambda g: g.count)


def _within(inner: Box, outer: Box) -> bool:
    low = inner[0] >= outer[0] and inner[1] >= outer[1]
    return low and inner[2] <= outer[2] and inner[3] <= outer[3]


def _words(sheet: PlacedSheet, laid: Grid, at: Place, lengths: Sequence[MeasuredLength]) -> Marks:
    info, number = sheet.info, laid.places.index(at) + 1
    lines = [
        *instruction(info, laid.size, sheet.margin),
        f"Page {number} of {laid.count}: row {at.row} of {laid.rows}, "
        f"column {at.column} of {laid.columns}",
        *([info.note] if info.note else []),
        "",
        f"Pattern {info.pattern}, revision {info.revision}, {info.instrument}",
        scale(info.up),
        f"{info.name}   parameters {info.digest}",
        info.verdict,
        "; ".join(info.stamps),  # there is room for one line only
    ]
    if number == laid.count:
        lines += [f"Between the end ticks, over all pages: {c.length:g} mm" for c in lengths]
    return text_block(info.title, lines, laid.size, sheet.margin)
