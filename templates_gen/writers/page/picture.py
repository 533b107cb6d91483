"""Draw a sheet as an SVG picture on the index page, without its furniture, with places marked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from templates_gen.drawing import PlacedSheet
from templates_gen.drawing.font import font_size
from templates_gen.drawing.marks import Marks, box_round
from templates_gen.drawing.sheet import STYLES, Label, Layer
from templates_gen.drawing.text import printable, text_width
from templates_gen.geometry import Point
from templates_gen.writers.figures import figure
from templates_gen.writers.page.markup import Html, join, shape, tag
from templates_gen.writers.svg import data

_AROUND = 3.0
#: The lines of a drawing longer than this (mm) are thickened, to show in a small picture.
_FINE = 250.0
#: Radius of a mark's ring as a share of the picture's longer side, and its least value (mm).
_RING, _LEAST_RING = 0.025, 1.2
#: Ends of the ticks, place and height of the number, in radii of the ring.
_TICK, _BESIDE, _LETTER = (1.0, 1.9), 2.1, 1.7


@dataclass(frozen=True)
class Spot:
    """A place to mark.

    Args:
        at: the place on the page (mm).
        number: the number beside its ring.
        description: the check it belongs to.
    """

    at: Point
    number: str
    description: str


@dataclass(frozen=True)
class Picture:
    """A drawing as markup, its view box (mm, y down) and its text alternative."""

    content: Html
    view_box: str
    description: str


def picture(sheet: PlacedSheet, spots: Sequence[Spot]) -> Picture:
    """Draw a sheet with marks.

    Args:
        sheet: the sheet.
        spots: the places to mark on it.
    """
    return _picture(sheet.content, sheet.title, sheet.size[1], tuple(spots))


# Cached: while a file is watched, most sheets stay the same.
@lru_cache(maxsize=512)
def _picture(seen: Marks, title: str, paper: float, spots: tuple[Spot, ...]) -> Picture:
    """Draw the marks and spots of a sheet of height ``paper`` (mm)."""
    plain = seen.box
    longer = max(plain[2] - plain[0], plain[3] - plain[1])
    pen, ring = max(1.0, longer / _FINE), max(_LEAST_RING, _RING * longer)
    far = 4 * ring
    around = [(x - far, y - far, x + far, y + far) for x, y in (s.at for s in spots)]
    left, bottom, right, top = box_round([plain, *around])
    corner = (left - _AROUND, paper - top - _AROUND)
    size = (right - left + 2 * _AROUND, top - bottom + 2 * _AROUND)
    words = [title, *(f"marked {s.number}: {s.description}" for s in spots)]
    marks = [_mark(x, paper - y, ring, names) for (x, y), names in _together(spots, ring).items()]
    return Picture(
        join([*(_layer(seen, layer, paper, pen) for layer in Layer), *marks]),
        " ".join(figure(round(v, 3)) for v in (*corner, *size)),
        "; ".join(words),
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
    words = printable(label.text)
    x, y = figure(label.at[0]), figure(paper - label.at[1])
    turned = {"transform": f"rotate({figure(-label.angle)} {x} {y})"} if label.angle else {}
    return tag(
        "text",
        words,
        x=x,
        y=y,
        text_anchor=label.anchor,
        font_size=figure(font_size(label.height)),
        textLength=figure(text_width(words, label.height)),
        lengthAdjust="spacingAndGlyphs",
        **turned,
    )


def _together(spots: Iterable[Spot], ring: float) -> dict[Point, list[str]]:
    """Group spots that would overlap, so that they share a ring."""
    found: dict[Point, list[str]] = {}
    for s in spots:
        near = (
            p for p in found if abs(p[0] - s.at[0]) < 2 * ring and abs(p[1] - s.at[1]) < 2 * ring
        )
        found.setdefault(next(near, s.at), []).append(s.number)
    return found


def _mark(x: float, y: float, ring: float, numbers: Sequence[str]) -> Html:
    """Draw a ring with four ticks, a mark no template uses, and the numbers beside it."""
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
