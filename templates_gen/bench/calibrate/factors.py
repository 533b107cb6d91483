"""Calculate the factors that correct a printer, or name the likely cause of a larger error."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.errors import Fault, InputError, raise_faults
from templates_gen.parameters import plain

#: Sides of the rectangle on the test page (mm); its diagonals are 250.
ACROSS, UP = 150.0, 200.0
DIAGONAL = math.hypot(ACROSS, UP)
#: A factor beyond these comes from a wrong setting, not the printer. Common practice, no source.
LEAST, MOST = 0.97, 1.03

#: Measured over nominal when a page is fitted onto another paper: ratios of the papers' sides,
#: A4 210 × 297 (ISO 216) and letter 215.9 × 279.4 (ASME Y14.1, from memory).
A4_ON_LETTER = 279.4 / 297.0
LETTER_ON_A4 = 210.0 / 215.9
#: An A4 page made as wide as letter paper.
A4_FILLS_LETTER = 215.9 / 210.0
#: Factors by which programs shrink a page to a printer's margins. Common practice, no source.
_TO_MARGINS = (0.95, 0.97)
_LIKE = 0.0025


@dataclass(frozen=True)
class Skew:
    """The angle at which the paper ran in.

    Args:
        degrees: the angle; positive leans to the right going up.
        over: the same as a distance aside over the rectangle's height (mm).
    """

    degrees: float
    over: float


def factors(x: float, y: float) -> tuple[float, float]:
    """Return the factors of x and y that correct the printer.

    Args:
        x, y: the rectangle as measured, across and up (mm).

    Raises:
        InputError: the error is too large for a printer; the message names the likely cause.
    """
    sides = (("x", x, ACROSS), ("y", y, UP))
    faults = [
        Fault("--measured", None, name, f"{plain(found)} is not a length", "state it in mm")
        for name, found, _ in sides
        if not (math.isfinite(found) and found > 0)
    ]
    raise_faults(faults)
    ratios = (x / ACROSS, y / UP)
    beyond = [t for t in sides if not LEAST <= t[2] / t[1] <= MOST]
    if any(_alike(ratios, known) for known in (LETTER_ON_A4, A4_FILLS_LETTER)):
        beyond = list(sides)
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
    """Return the likely cause and the cure."""
    ratios = (x / ACROSS, y / UP)
    again = "print again at 100 %, 'actual size', without fitting, and measure that page"
    if _alike((x / UP, y / ACROSS), 1.0) or (LEAST < x / UP < MOST and LEAST < y / ACROSS < MOST):
        return "the two lengths are swapped", "state the length across first"
    if all(abs(r * 25.4 - 1) < 0.05 for r in ratios):
        return "the lengths are in inches", "state it in mm"
    if all(abs(r * 10 - 1) < 0.05 for r in ratios):
        return "the lengths are in centimetres", "state it in mm"
    if _alike(ratios, A4_ON_LETTER):
        return "an A4 page was fitted onto letter paper", f"{again}, or use --paper letter"
    if _alike(ratios, LETTER_ON_A4):
        return "a letter page was fitted onto A4 paper", f"{again}, or use --paper a4"
    if _alike(ratios, A4_FILLS_LETTER):
        return "an A4 page was made to fill letter paper", f"{again}, or use --paper letter"
    if all(_TO_MARGINS[0] <= r <= _TO_MARGINS[1] for r in ratios):
        return "the page was shrunk to the printer's margins", again
    return "more than a printer's own error", f"{again}; if it stays, use another printer"


def skew(d1: float, d2: float, x: float = ACROSS, y: float = UP) -> Skew:
    """Return the skew from the rectangle's diagonals: sin = (D1² - D2²)/(4ab).

    Args:
        d1: lower left to upper right (mm).
        d2: lower right to upper left (mm).
        x, y: the rectangle's sides as measured (mm).

    Raises:
        InputError: impossible diagonals.
    """
    sine = (d1 * d1 - d2 * d2) / (4 * x * y)
    known = math.isfinite(sine) and min(d1, d2) > 0
    if not known or not all(LEAST <= d / DIAGONAL <= 1 / LEAST for d in (d1, d2)):
        problem = f"{plain(d1)} and {plain(d2)} are impossible for {ACROSS:g} × {UP:g} mm"
        cure = f"measure both from corner to corner; they should be {DIAGONAL:g}"
        raise InputError([Fault("--diagonals", None, "", problem, cure)])
    return Skew(math.degrees(math.asin(sine)), sine * y)
