"""A sheet's drawing as a picture within a page, without the sheet's furniture; places marked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.font import font_size
from templates_gen.drawing.marks import Marks, box_round
from templates_gen.drawing.sheet import STYLES, Label, Layer
from templates_gen.drawing.text import printable, text_width
from templates_gen.geometry import Point
from templates_gen.writers.figures import figure
from templates_gen.writers.page.markup import Html, join, shape, tag
from templates_gen.writers.svg import data

_AROUND = 3.0
#: Of a drawing longer than this (mm) the lines are drawn thicker, or nothing is seen when small.
_FINE = 250.0
#: A mark's ring is this part of the picture's longer side, but no less than so much (mm).
_RING, _LEAST_RING = 0.025, 1.2
#: Ticks begin and end, and the number stands, so many times the ring's radius from its centre.
_TICK, _BESIDE, _LETTER = (1.0, 1.9), 2.1, 1.7


@dataclass(frozen=True)
class Spot:
    """A place to mark.

    Args:
        at: the place on the page (mm).
        number: what stands beside it.
        says: what it is about.
    """

    at: Point
    number: str
    description: str


@dataclass(frozen=True)
class Picture:
    """What is seen, and the part of the sheet it takes (mm, y down, as a view box has it)."""

    content: Html
    view_box: str
    description: str


def picture(sheet: PlacedSheet, spots: Sequence[Spot]) -> Picture:
    """The drawing of a sheet, with marks.

    Args:
        sheet: the whole sheet.
        spots: places to mark on it.
    """
    return _picture(sheet.content, sheet.title, sheet.size[1], tuple(spots))


# What did not change since the last save is not written anew.
@lru_cache(maxsize=512)
def _picture(seen: Marks, title: str, paper: float, spots: tuple[Spot, ...]) -> Picture:
    """The marks of a sheet of a height (mm), and its spots."""
    plain = seen.box
    pen = max(1.0, max(plain[2] - plain[0], plain[3] - plain[1]) / _FINE)
    ring = max(_LEAST_RING, _RING * max(plain[2] - plain[0], plain[3] - plain[1]))
    far = 4 * ring
    around = [(x - far, y - far, x + far, y + far) for x, y in (s.at for s in spots)]
    left, bottom, right, top = box_round([plain, *around])
    corner = (left - _AROUND, paper - top - _AROUND)
    size = (right - left + 2 * _AROUND, top - bottom + 2 * _AROUND)
    said = [title, *(f"marked {s.number}: {s.description}" for s in spots)]
    marks = [_mark(x, paper - y, ring, names) for (x, y), names in _together(spots, ring).items()]
    return Picture(
        join([*(_layer(seen, layer, paper, pen) for layer in Layer), *marks]),
        " ".join(figure(round(v, 3)) for v in (*corner, *size)),
        "; ".join(said),
    )


def _layer(seen: Marks, layer: Layer, paper: float, pen: float) -> Html:
    style = STYLES[layer]
    lines = [shape("path", d=data(s.path, paper)) for s in seen.strokes if s.layer is layer]
    arrows = [
        shape("path", d=data(f.path, paper), class_="f") for f in seen.fills if f.layer is layer
    ]
    words = [_words(n, paper) for n in seen.labels if n.layer is layer]
    if not (lines or arrows or words):
        return Html("")
    dashes = " ".join(figure(d) for d in style.dashes) or "none"
    width = figure(round(style.width * pen, 3))
    return tag("g", *lines, *arrows, *words, stroke_width=width, stroke_dasharray=dashes)


def _words(label: Label, paper: float) -> Html:
    said = printable(label.text)
    x, y = figure(label.at[0]), figure(paper - label.at[1])
    turned = {"transform": f"rotate({figure(-label.angle)} {x} {y})"} if label.angle else {}
    return tag(
        "text",
        said,
        x=x,
        y=y,
        text_anchor=label.anchor,
        font_size=figure(font_size(label.height)),
        textLength=figure(text_width(said, label.height)),
        lengthAdjust="spacingAndGlyphs",
        **turned,
    )


def _together(spots: Iterable[Spot], ring: float) -> dict[Point, list[str]]:
    """Spots that would lie on one another share a ring."""
    found: dict[Point, list[str]] = {}
    for s in spots:
        near = (
            p for p in found if abs(p[0] - s.at[0]) < 2 * ring and abs(p[1] - s.at[1]) < 2 * ring
        )
        found.setdefault(next(near, s.at), []).append(s.number)
    return found


def _mark(x: float, y: float, ring: float, numbers: Sequence[str]) -> Html:
    """A ring with four ticks, unlike anything on a template, and its numbers beside it."""
    inner, outer = (ring * t for t in _TICK)
    ticks = " ".join(
        f"M{figure(x + u * inner)},{figure(y + v * inner)}"
        f" L{figure(x + u * outer)},{figure(y + v * outer)}"
        for u, v in ((1, 0), (0, 1), (-1, 0), (0, -1))
    )
    beside = ring * _BESIDE * 0.5
    return tag(
        "g",
        shape("circle", cx=figure(x), cy=figure(y), r=figure(ring)),
        shape("path", d=ticks),
        tag(
            "text",
            ", ".join(numbers),
            x=figure(x + beside),
            y=figure(y - beside),
            font_size=figure(round(ring * _LETTER, 3)),
        ),
        class_="mark",
        stroke_width=figure(round(ring * 0.28, 3)),
    )
