"""Lay out views on a page: at true size, moved by whole millimetres, never scaled or turned."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from templates_gen.drawing.duplicates import without_duplicates
from templates_gen.drawing.furniture import (
    MARGIN,
    SheetInfo,
    drawing_area,
    measuring_marks,
    title_block,
)
from templates_gen.drawing.marks import Marks, place
from templates_gen.drawing.paper import papers_from, sizes_of
from templates_gen.drawing.placement import place_dimensions
from templates_gen.drawing.sheet import Label, Layer, Sheet
from templates_gen.drawing.view import View, cut_size
from templates_gen.errors import DrawingError
from templates_gen.geometry import Box

__all__ = ["PlacedSheet", "SheetInfo", "compose"]

_BETWEEN = 8.0
#: Space kept free inside the drawing area (mm).
_AIR = 2.0
_TITLE_DROP = 6.0


@dataclass(frozen=True)
class PlacedSheet(Sheet):
    """A sheet that keeps the template's marks apart from the furniture, so that it can be tiled.

    Args:
        info: the words of its title block.
        content: the template's own marks, in page coordinates.
        margin: width of the empty edge (mm).
    """

    info: SheetInfo
    content: Marks
    margin: float


@dataclass(frozen=True)
class _Drawn:
    """A view with its dimensions and title placed, in the view's own frame."""

    view: View
    marks: Marks

    @property
    def box(self) -> Box:
        return self.marks.box


def compose(
    views: Sequence[View], info: SheetInfo, paper: str = "a4", margin: float = MARGIN
) -> PlacedSheet:
    """Place views one above the other on the smallest paper that takes them.

    Args:
        views: the views, from the top down.
        info: the words of the title block.
        paper: the smallest paper to try; larger ones of its series follow.
        margin: width of the empty edge (mm).

    Raises:
        DrawingError: no paper of the series is large enough.
    """
    drawn = [_drawn(v) for v in views]
    wide, high = _needed(drawn)
    for name in papers_from(paper):
        for size in sizes_of(name):
            if _left(drawn, size, margin, info.stamps) >= 0:
                return _on_page(drawn, info, size, high, margin)
    raise DrawingError(
        f"{info.name} is {wide:.0f} × {high:.0f} mm: too large for the largest paper"
    )


def free_space(views: Sequence[View], paper: str, margin: float = MARGIN) -> float:
    """Return the free space (mm) on one page beside some views; negative if they do not fit.

    Args:
        views: the views, with their dimensions and titles.
        paper: the paper's name.
        margin: width of the empty edge (mm).
    """
    drawn = [_drawn(v) for v in views]
    return max(_left(drawn, size, margin) for size in sizes_of(paper))


def _needed(drawn: Sequence[_Drawn]) -> tuple[float, float]:
    """Return the width and height (mm) that the views take together."""
    wide = max(d.box[2] - d.box[0] for d in drawn)
    return wide, sum(d.box[3] - d.box[1] for d in drawn) + _BETWEEN * (len(drawn) - 1)


def _left(
    drawn: Sequence[_Drawn], size: tuple[float, float], margin: float, stamps: Sequence[str] = ()
) -> float:
    """Return the free width or height of a page (mm), whichever is less."""
    wide, high = _needed(drawn)
    left, bottom, right, top = drawing_area(size, margin, stamps)
    return min(right - left - _AIR - wide, top - bottom - _AIR - high)


# Cached: while a file is watched, most views stay the same.
@lru_cache(maxsize=512)
def _drawn(view: View) -> _Drawn:
    view = replace(view, strokes=without_duplicates(view.strokes))
    marks = place_dimensions(view)
    if view.title:
        left, bottom, right, _ = marks.box
        at = ((left + right) / 2, bottom - _TITLE_DROP)
        marks += Marks(labels=(Label(view.title, at, 2.5, "middle", 0.0, Layer.NOTE),))
    return _Drawn(view, marks)


def _on_page(
    drawn: Sequence[_Drawn],
    info: SheetInfo,
    size: tuple[float, float],
    high: float,
    margin: float,
) -> PlacedSheet:
    left, bottom, right, top = drawing_area(size, margin, info.stamps)
    # The square takes the same transform as the template, so an error in it shows on the square.
    around = place(measuring_marks(size, margin, info.stamps), 0.0, 0.0)
    around += place(title_block(info, size, margin), 0.0, 0.0)
    content, datum = Marks(), None
    y = top - (top - bottom - high) / 3
    for d in drawn:
        b = d.box
        dx = float(math.floor((left + right) / 2 - (b[0] + b[2]) / 2))
        dy = float(math.floor(y - b[3]))
        content += place(d.marks, dx, dy)
        datum = datum or (dx, dy)
        y -= b[3] - b[1] + _BETWEEN
    assert datum is not None
    marks = around + content
    return PlacedSheet(
        info.name,
        info.title,
        info.pattern,
        f"{info.note}. {info.purpose}" if info.note else info.purpose,
        size,
        datum,
        cut_size([d.view for d in drawn]),
        marks.strokes,
        marks.fills,
        marks.labels,
        tuple(d.view.table for d in drawn if d.view.table),
        info,
        content,
        margin,
    )
