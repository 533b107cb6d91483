"""Templates for tests of tiling: as long as a bow, or larger than a page both ways."""

from __future__ import annotations

from readers.corpus import CARD_INFO

from templates_gen.drawing.compose import PlacedSheet, compose
from templates_gen.drawing.table import table
from templates_gen.drawing.view import HorizontalDim, VerticalDim, View, cut
from templates_gen.geometry import Path, Pen


def form(length: float = 700.0, height: float = 40.0, rise: float = 17.5) -> Path:
    """Make a block with one hollow arc along its upper edge."""
    half = length / 2
    pen = Pen((0.0, 0.0)).line_to(length, 0.0).line_to(length, height)
    return pen.bulge_to((0.0, height), rise / half).close()


def sheet(
    path: Path, *, tabled: bool = False, paper: str = "a4", margin: float = 10.0
) -> PlacedSheet:
    """Put a form on one sheet."""
    left, low, right, high = path.box
    dims = (
        HorizontalDim((left, low), (right, low), -1),
        VerticalDim((right, low), (right, high), 1),
    )
    views = [View("a form to bend over", (cut(path),), dims)]
    if tabled:
        rows = [("x", "y"), *((f"{x:g}", f"{high - x / 100:.1f}") for x in range(0, 700, 50))]
        views.append(table("ordinates of the upper edge", rows))
    return compose(views, CARD_INFO, paper, margin)
