"""How many pages a template takes, and what each page shows of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing.furniture import drawing_area
from templates_gen.drawing.paper import sizes_of
from templates_gen.errors import DrawingError
from templates_gen.geometry import Point
from templates_gen.geometry.segment import Box


@dataclass(frozen=True)
class Place:
    """Where a page lies among the others, row and column from 1, the top row first."""

    row: int
    column: int


@dataclass(frozen=True)
class Grid:
    """Pages laid over a template in rows and columns, each a little over the next.

    Args:
        size: width and height of a page (mm).
        area: what of a page the template shows in (mm, in the page's frame).
        columns, rows: how many pages there are.
        overlap: how far each page lies over the next (mm).
        corner: lower left corner of all pages' windows together (mm, in the template's frame).
    """

    size: tuple[float, float]
    area: Box
    columns: int
    rows: int
    overlap: float
    corner: Point

    @property
    def count(self) -> int:
        """How many pages."""
        return self.columns * self.rows

    @property
    def places(self) -> list[Place]:
        """Every page as one reads: along the top row first."""
        across, down = range(1, self.columns + 1), range(1, self.rows + 1)
        return [Place(r, c) for r in down for c in across]

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of what one page shows (mm)."""
        left, bottom, right, top = self.area
        return (right - left, top - bottom)

    def shown(self, at: Place) -> Box:
        """What a page shows of the template (mm, in the template's frame)."""
        (wide, high), o = self.window, self.overlap
        x = self.corner[0] + (at.column - 1) * (wide - o)
        y = self.corner[1] + (self.rows - at.row) * (high - o)
        return (x, y, x + wide, y + high)

    def shift(self, at: Place) -> Point:
        """How far the template is moved to come to stand on a page (mm)."""
        left, bottom, _, _ = self.shown(at)
        return (self.area[0] - left, self.area[1] - bottom)


def grid(box: Box, paper: str, overlap: float, margin: float, stamps: Sequence[str] = ()) -> Grid:
    """The fewest pages of a paper that show all of a box, upright before lying.

    Args:
        box: what is to be shown (mm).
        paper: the paper's name.
        overlap: how far each page lies over the next (mm).
        margin: what the printer leaves free all round (mm).
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
            raise DrawingError(f"an overlap of {overlap:g} leaves nothing of a page to draw on")
        n = max(1, math.ceil((high - low - overlap) / (wide - overlap) - 1e-9))
        counts.append(n)
        corner.append((low + high - n * (wide - overlap) - overlap) / 2)
    return Grid(size, area, counts[0], counts[1], overlap, (corner[0], corner[1]))
