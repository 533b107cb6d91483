"""Divide a large template into pages: how many, and which part each page shows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing.furniture import drawing_area
from templates_gen.drawing.paper import sizes_of
from templates_gen.errors import DrawingError
from templates_gen.geometry import Box, Point


@dataclass(frozen=True)
class Place:
    """Row and column of a page, from 1; row 1 is the top row."""

    row: int
    column: int


@dataclass(frozen=True)
class Grid:
    """Overlapping pages over a template, in rows and columns.

    Args:
        size: width and height of a page (mm).
        area: the part of a page that shows the template (mm, in the page's frame).
        columns, rows: number of columns and rows.
        overlap: width of the overlap of two pages (mm).
        corner: lower left corner of the whole grid (mm, in the template's frame).
    """

    size: tuple[float, float]
    area: Box
    columns: int
    rows: int
    overlap: float
    corner: Point

    @property
    def count(self) -> int:
        """The number of pages."""
        return self.columns * self.rows

    @property
    def places(self) -> list[Place]:
        """All pages in reading order: the top row first, from the left."""
        across, down = range(1, self.columns + 1), range(1, self.rows + 1)
        return [Place(r, c) for r in down for c in across]

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of the area shown on one page (mm)."""
        left, bottom, right, top = self.area
        return (right - left, top - bottom)

    def shown(self, at: Place) -> Box:
        """Return the part of the template on a page (mm, in the template's frame)."""
        (wide, high), o = self.window, self.overlap
        x = self.corner[0] + (at.column - 1) * (wide - o)
        y = self.corner[1] + (self.rows - at.row) * (high - o)
        return (x, y, x + wide, y + high)

    def shift(self, at: Place) -> Point:
        """Return the translation from the template's frame to a page's (mm)."""
        left, bottom, _, _ = self.shown(at)
        return (self.area[0] - left, self.area[1] - bottom)


def grid(box: Box, paper: str, overlap: float, margin: float, stamps: Sequence[str] = ()) -> Grid:
    """Cover a box with the fewest pages of a paper; portrait wins over landscape.

    Args:
        box: the area to cover (mm).
        paper: the paper's name.
        overlap: width of the overlap of two pages (mm).
        margin: width of the empty edge (mm).
        stamps: warnings across the top of every page.
    """
    laid = [
        _laid(box, size, drawing_area(size, margin, stamps), overlap) for size in sizes_of(paper)
    ]
    return min(laid, key=lambda g: g.count)


def _laid(box: Box, size: tuple[float, float], area: Box, overlap: float) -> Grid:
    counts, corner = [], []
    for low, high, wide in (
        (box[0], box[2], area[2] - area[0]),
        (box[1], box[3], area[3] - area[1]),
    ):
        if wide <= overlap:
            raise DrawingError(f"an overlap of {overlap:g} mm leaves no room on a page")
        n = max(1, math.ceil((high - low - overlap) / (wide - overlap) - 1e-9))
        counts.append(n)
        corner.append((low + high - n * (wide - overlap) - overlap) / 2)
    return Grid(size, area, counts[0], counts[1], overlap, (corner[0], corner[1]))
