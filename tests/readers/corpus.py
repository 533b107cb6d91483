"""The corpus of the tests: every template of every shipped parameter file, made once.

A part, a template or a parameter file added later is covered without a word here.
"""

from __future__ import annotations

import math
import tomllib
from functools import cache
from pathlib import Path
from random import Random

from templates_gen.bow import catalogue
from templates_gen.drawing.compose import SheetInfo, compose
from templates_gen.drawing.sheet import Sheet
from templates_gen.drawing.view import (
    HorizontalDim,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    cut,
    drill,
    pocket,
    scribe,
)
from templates_gen.errors import InputError
from templates_gen.geometry import Pen, circle
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.pipeline.judging import Report
from templates_gen.writers import writer

ROOT = Path(__file__).parents[2]
#: The stamp that `draw --plane` prints on sheets.
STAMPS = ["SOLIDS NOT CONFIRMED"]


def _is_pattern(file: Path) -> bool:
    return "pattern" in tomllib.loads(file.read_text(encoding="utf-8"))


@cache
def pattern(stem: str) -> Pattern:
    """The pattern of a shipped file."""
    return rendering.read(str(ROOT / "params" / f"{stem}.toml"))


def names(stem: str) -> list[str]:
    """The templates of a shipped file; all templates if the file has faults."""
    try:
        p = pattern(stem)
    except InputError:
        return [t.name for t in catalogue.templates()]
    return [t.name for t in catalogue.templates() if t.wanted(p)]


FILES = tuple(f for f in sorted((ROOT / "params").glob("*.toml")) if _is_pattern(f))
#: The smallest and the largest bow are written and read back; of the others the sheets are checked.
FULL = ("violin", "bass-french")
ALL_SHEETS = tuple((f.stem, name) for f in FILES for name in names(f.stem))
FULL_SHEETS = tuple((stem, name) for stem, name in ALL_SHEETS if stem in FULL)


@cache
def _report(stem: str) -> Report:
    return rendering.check(pattern(stem))


@cache
def sheet(stem: str, name: str) -> Sheet:
    """One sheet of a shipped file."""
    (made,) = rendering.sheets(_report(stem), only=(name,), stamps=STAMPS)
    return made


@cache
def made(stem: str, name: str, form: str) -> bytes:
    """The bytes of a sheet in a format."""
    return writer(form)(sheet(stem, name))


@cache
def card(seed: int) -> Sheet:
    """A sheet with features no shipped template has: half circles, holes, odd places, long arcs.

    Args:
        seed: for the odd numbers in it.
    """
    odd = Random(seed).uniform
    views = []
    for number in range(2):
        x, y, half = odd(-40, 40), odd(-40, 40), odd(5, 9)
        slot = Pen((x - half, y)).line_to(x + 30, y)
        slot.arc_by((x + 30, y + half), math.pi).line_to(x, y + 2 * half)
        slot.arc_by((x, y + half), math.radians(odd(20, 60)))
        strokes = all_strokes(
            cut(slot.close()),
            pocket(circle((x + 60, y + half), odd(1, 12))),
            scribe(Pen((x, y - 20)).arc_by((x + 30, y - 20 + odd(0, 9)), odd(2, 6)).open()),
            *(drill((x + 12 * i, y + half), odd(0.6, 6)) for i in range(1, 3)),
        )
        dims = (
            HorizontalDim((x, y), (x + 30, y), 1, suffix=" ± 0,05 <&>"),
            VerticalDim((x, y), (x, y + 2 * half), -1),
            Radius((x + 60, y + half), 2.0, 40, diameter=True, reach=14),
        )
        views.append(View(f"view {number} of card {seed}", strokes, dims))
    return compose(views, CARD_INFO, "a4")


CARDS = range(2)
CARD_INFO = SheetInfo(
    name="card",
    title="Card",
    pattern="Whimbrel",
    revision="A",
    instrument="violin",
    purpose="Nothing is made of it.",
    digest="0123abcd",
    up="this side up",
    verdict="no checks",
)
