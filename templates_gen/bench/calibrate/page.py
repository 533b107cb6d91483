"""Draw the page on which a printer is measured."""

from __future__ import annotations

from templates_gen.bench.calibrate.factors import ACROSS, DIAGONAL, UP
from templates_gen.drawing import Label, Layer, Marks, Stroke
from templates_gen.drawing.furniture import MARGIN, bars, square
from templates_gen.drawing.paper import PAPERS
from templates_gen.drawing.tiling import Page
from templates_gen.geometry import rectangle
from templates_gen.pipeline.output import correct_page
from templates_gen.shop import Printer

_LEFT, _BOTTOM = 30.0, 30.0
_CAP, _TITLE, _LEADING = 2.5, 3.5, 6.0
#: A page fitted to its paper measures 47 to 48.6; a printer's own error is far less.
_SQUARE = (
    "A square of 50 mm.",
    "Below 49 mm",
    "the page was fitted to",
    "the paper: print again",
    "at 100 %, 'actual size'.",
)


def page(paper: str, printer: Printer, margin: float = MARGIN) -> Page:
    """Return the test page, or the proof of the factors of a corrected printer.

    Args:
        paper: the paper's name.
        printer: its correction factors.
        margin: free margin all round (mm).
    """
    proof = printer.has_correction
    size = PAPERS[paper]
    own = bars(size, margin) + square(_LEFT + 6, _BOTTOM + 6, _SQUARE)
    box = rectangle(_LEFT, _BOTTOM, _LEFT + ACROSS, _BOTTOM + UP)
    own += Marks((Stroke(box, Layer.NOTE),), (), tuple(_words(paper, proof)))
    return correct_page(Page(size, own), printer, margin)


def _words(paper: str, proof: bool) -> list[Label]:
    if proof:
        lines = [
            "Printer, proof of the correction",
            f"Print at 100 %, 'actual size', on {paper.upper()}.",
            f"It must measure {ACROSS:g} across and {UP:g} up, the diagonals {DIAGONAL:g}.",
            "",
            "If it does not, print the plain page again and measure that one:",
            "a length measured on this page is of no use to `calibrate --measured`.",
        ]
    else:
        lines = [
            "Printer, test page",
            f"Print at 100 %, 'actual size', on {paper.upper()}.",
            "Feed every later sheet the same way: same tray, same edge first, landscape pages too.",
            "Measure with a steel rule, from the middle of one line to the middle of the other.",
            "",
            f"X, across at the foot, should be {ACROSS:g}:   ____________",
            f"Y, up at the left, should be {UP:g}:   ____________",
            f"D1, lower left to upper right, should be {DIAGONAL:g}:   ____________",
            f"D2, lower right to upper left, should be {DIAGONAL:g}:   ____________",
            "",
            "templates-gen calibrate --measured X Y --diagonals D1 D2 --shop shop.toml",
        ]
    top = _BOTTOM + UP - 12
    return [
        Label(text, (_LEFT + 8, top - i * _LEADING), _CAP if i else _TITLE)
        for i, text in enumerate(lines)
        if text
    ]
