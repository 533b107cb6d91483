"""The printer's error: a page to print and measure, and the factors that make it good."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path as FilePath

from templates_gen.drawing.furniture import MARGIN, bars, square
from templates_gen.drawing.marks import Marks
from templates_gen.drawing.paper import PAPERS
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.tiling import Page
from templates_gen.errors import Fault, InputError
from templates_gen.geometry import rectangle
from templates_gen.parameters.rewrite import set_values
from templates_gen.parameters.source import load
from templates_gen.parameters.words import plain
from templates_gen.printing import corrected
from templates_gen.shop import Printer
from templates_gen.shop.read import read, usual
from templates_gen.shop.starter import STARTER
from templates_gen.writers.files import write_all

#: Sides of the rectangle on the test page (mm); its diagonals are 250.
ACROSS, UP = 150.0, 200.0
DIAGONAL = math.hypot(ACROSS, UP)
#: A factor beyond this is no printer's error but a wrong setting. Common practice, no source.
LEAST, MOST = 0.97, 1.03
#: A rule read to a quarter millimetre tells no less askew than this (degrees).
TELLS_DEG = 0.1
_LEFT, _BOTTOM = 30.0, 30.0
_CAP, _TITLE, _LEADING = 2.5, 3.5, 6.0

#: Measured over nominal when a page is fitted onto another paper: ratios of the papers' sides,
#: A4 210 × 297 (ISO 216) and letter 215.9 × 279.4 (ASME Y14.1, from memory).
A4_ON_LETTER = 279.4 / 297.0
LETTER_ON_A4 = 210.0 / 215.9
#: What programs shrink a page by to keep clear of a printer's margins. Common practice, no source.
_TO_MARGINS = (0.95, 0.97)
_LIKE = 0.0025


@dataclass(frozen=True)
class Skew:
    """How far from square the paper ran in.

    Args:
        degrees: the angle; positive leans to the right going up.
        over: how far (mm) that is aside over the rectangle's height.
    """

    degrees: float
    over: float


def page(paper: str, printer: Printer) -> Page:
    """The test page; for a printer that is corrected already, the proof of its factors.

    Args:
        paper: the paper's name.
        printer: the factors it is to be printed with.
    """
    proof = printer.corrected
    size = PAPERS[paper]
    own = bars(size) + square(_LEFT + 6, _BOTTOM + 6)
    box = rectangle(_LEFT, _BOTTOM, _LEFT + ACROSS, _BOTTOM + UP)
    own += Marks((Stroke(box, Layer.NOTE),), (), tuple(_words(paper, proof)))
    return corrected(Page(size, own), printer, MARGIN)


def _words(paper: str, proof: bool) -> list[Label]:
    if proof:
        lines = [
            "Printer, proof of the correction",
            f"Print at 100 %, 'actual size', on {paper.upper()}.",
            f"It must measure {ACROSS:g} across and {UP:g} up, the diagonals {DIAGONAL:g}.",
            "",
            "If it does not, print the plain page again and measure that one:",
            "a figure taken from this page is no use to `calibrate --measured`.",
        ]
    else:
        lines = [
            "Printer, test page",
            f"Print at 100 %, 'actual size', on {paper.upper()}.",
            "Measure with a steel rule, from the middle of a line to the middle of the other.",
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


def factors(x: float, y: float) -> tuple[float, float]:
    """What x and y must be multiplied by to come out true.

    Args:
        x, y: the rectangle as measured, across and up (mm).

    Raises:
        InputError: that is no printer's error; the likely cause is told.
    """
    told = (("x", x, ACROSS), ("y", y, UP))
    faults = [
        Fault("--measured", None, name, f"{plain(found)} is no length", "state it in mm")
        for name, found, _ in told
        if not (math.isfinite(found) and found > 0)
    ]
    if faults:
        raise InputError(faults)
    ratios = (x / ACROSS, y / UP)
    beyond = [t for t in told if not LEAST <= t[2] / t[1] <= MOST]
    if _alike(ratios, LETTER_ON_A4):
        beyond = list(told)
    if beyond:
        cause, cure = _cause(x, y)
        raise InputError([_beyond(*t, cause, cure) for t in beyond])
    return (ACROSS / x, UP / y)


def _beyond(name: str, found: float, nominal: float, cause: str, cure: str) -> Fault:
    ratio = found / nominal
    problem = f"{plain(found)} for {nominal:g} mm is {ratio:.4f} of it: {cause}"
    return Fault("--measured", None, name, problem, cure)


def _alike(ratios: tuple[float, float], known: float) -> bool:
    return all(abs(r - known) <= _LIKE for r in ratios)


def _cause(x: float, y: float) -> tuple[str, str]:
    """What likely happened, and the cure."""
    ratios = (x / ACROSS, y / UP)
    again = "print again at 100 %, 'actual size', without fitting, and measure that page"
    if _alike((x / UP, y / ACROSS), 1.0) or (LEAST < x / UP < MOST and LEAST < y / ACROSS < MOST):
        return "the two are the wrong way round", "state the length across first"
    if all(abs(r * 25.4 - 1) < 0.05 for r in ratios):
        return "that is in inches", "state it in mm"
    if all(abs(r * 10 - 1) < 0.05 for r in ratios):
        return "that is in centimetres", "state it in mm"
    if _alike(ratios, A4_ON_LETTER):
        return "an A4 page was fitted onto letter paper", f"{again}, or use --paper letter"
    if _alike(ratios, LETTER_ON_A4):
        return "a letter page was fitted onto A4 paper", f"{again}, or use --paper a4"
    if all(_TO_MARGINS[0] <= r <= _TO_MARGINS[1] for r in ratios):
        return "the page was shrunk to the printer's margins", again
    return "more than a printer's own error", f"{again}; if it stays so, use another printer"


def skew(d1: float, d2: float, x: float = ACROSS, y: float = UP) -> Skew:
    """How far askew the paper ran, from the rectangle's diagonals: sin = (D1² - D2²)/(4ab).

    Args:
        d1: lower left to upper right (mm).
        d2: lower right to upper left (mm).
        x, y: the rectangle's sides as measured (mm).

    Raises:
        InputError: no rectangle has such diagonals.
    """
    sine = (d1 * d1 - d2 * d2) / (4 * x * y)
    known = math.isfinite(sine) and min(d1, d2) > 0
    if not known or not all(LEAST <= d / DIAGONAL <= 1 / LEAST for d in (d1, d2)):
        problem = f"{plain(d1)} and {plain(d2)} are no diagonals of {ACROSS:g} × {UP:g} mm"
        cure = f"measure both from corner to corner; they should be {DIAGONAL:g}"
        raise InputError([Fault("--diagonals", None, "", problem, cure)])
    return Skew(math.degrees(math.asin(sine)), sine * y)


def stored(file: str, x: float, y: float) -> str:
    """The text of a shop file with these factors in it; a file that is not there yet is begun.

    Raises:
        InputError: the file is no sound shop file.
    """
    text = STARTER
    if FilePath(file).exists():
        read(file)
        text = load(FilePath(file), file).text
    return set_values(text, {"printer.x_factor": x, "printer.y_factor": y})


def call(
    output: str | None,
    paper: str,
    measured: tuple[float, float] | None,
    diagonals: tuple[float, float] | None,
    shop: str | None,
) -> list[str]:
    """Write the page, store the factors, tell the skew: whichever is asked for.

    Args:
        output: the folder the page goes to.
        paper: the paper in the printer.
        measured: the rectangle on the plain page, across and up (mm).
        diagonals: its diagonals (mm).
        shop: the shop file.

    Returns:
        What to tell the maker.

    Raises:
        InputError: something measured or stated cannot be.
    """
    if output is None and measured is None and diagonals is None:
        cure = "state -o DIR for the page to print, then --measured X Y --shop FILE"
        raise InputError([Fault("calibrate", None, "", "nothing to do", cure)])
    if measured is not None and shop is None:
        cure = "name your shop file with --shop; it is begun if it is not there"
        raise InputError([Fault("--measured", None, "", "nowhere to store the factors", cure)])
    told = []
    if measured is not None:
        assert shop is not None
        told += _store(shop, *factors(*measured))
    if diagonals is not None:
        told.append(_told(skew(*diagonals, *(measured or (ACROSS, UP)))))
    if output is not None:
        told += _write(FilePath(output), paper, shop)
    return told


def _store(shop: str, x: float, y: float) -> list[str]:
    text = stored(shop, x, y)
    target = FilePath(shop)
    write_all(target.parent, {target.name: text.encode("utf-8")})
    return [
        f"{shop}: x_factor {x:.6f}, y_factor {y:.6f}; only PDF is corrected, and says so",
        f"next: templates-gen calibrate -o DIR --shop {shop} and measure the proof",
    ]


def _told(found: Skew) -> str:
    size = f"{abs(found.degrees):.2f}°, {abs(found.over):.2f} mm over {UP:g}"
    if abs(found.degrees) < TELLS_DEG:
        return f"skew {size}: less than a rule can tell"
    way = "right" if found.degrees > 0 else "left"
    return f"skew {size}, to the {way} going up: feed the paper straight; no factor cures it"


def _write(folder: FilePath, paper: str, shop: str | None) -> list[str]:
    from templates_gen.writers.pdf import write_pages

    printer = read(shop).printer if shop is not None else usual().printer
    kind = "proof" if printer.corrected else "test page"
    name = f"calibrate-{kind.replace(' ', '-')}-{paper}.pdf"
    made = write_pages(f"Printer {kind}", [page(paper, printer)], printer.factors)
    write_all(folder, {name: made})
    return [f"{folder / name}: print it at 100 %, measure it"]
