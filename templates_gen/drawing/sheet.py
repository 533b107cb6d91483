"""A sheet: strokes, fills and labels on a page, in millimetres. It knows no file format.

Page coordinates: origin at the lower left corner of the paper, x to the right, y up.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from templates_gen.geometry import Path, Point


class Layer(StrEnum):
    """Layers by what a line is for."""

    OUTLINE = "OUTLINE"
    POCKET = "POCKET"
    SCRIBE = "SCRIBE"
    HIDDEN = "HIDDEN"
    CENTRE = "CENTRE"
    DRILL = "DRILL"
    DIMENSION = "DIMENSION"
    NOTE = "NOTE"


#: Instead of which side is up, of what has no size of its own to print at.
CHART, TABLE = UNSCALED = ("a chart, at no scale", "a list, at no scale")

#: The layers a tool follows: no words stand on their lines, and every line is closed.
CUTS = (Layer.OUTLINE, Layer.POCKET)


@dataclass(frozen=True)
class LineStyle:
    """How a layer's lines look.

    Args:
        width: pen width (mm).
        dashes: lengths (mm) drawn and skipped in turn; empty for a continuous line.
        purpose: what the layer's lines are for.
    """

    width: float
    dashes: tuple[float, ...]
    purpose: str


#: Widths wide : narrow as 2 : 1, dashes in multiples of the narrow width.
#: Source: ISO 128-2 line types 01.1, 01.2, 02.1 and 04.1 (from memory).
STYLES: dict[Layer, LineStyle] = {
    Layer.OUTLINE: LineStyle(0.35, (), "cut along the middle of this line"),
    Layer.POCKET: LineStyle(0.35, (), "edge of a pocket, cut from within"),
    Layer.SCRIBE: LineStyle(0.18, (), "scribe, bend or mark here; do not cut"),
    Layer.HIDDEN: LineStyle(0.18, (2.16, 0.54), "lies behind or belongs to a neighbour"),
    Layer.CENTRE: LineStyle(0.18, (4.32, 0.54, 0.18, 0.54), "centre line or datum"),
    Layer.DRILL: LineStyle(0.18, (), "a hole to drill, at its size"),
    Layer.DIMENSION: LineStyle(0.18, (), "dimensions"),
    Layer.NOTE: LineStyle(0.18, (), "words, frame and measuring bars"),
}


@dataclass(frozen=True)
class Stroke:
    """A path drawn with a layer's pen."""

    path: Path
    layer: Layer


@dataclass(frozen=True)
class Fill:
    """A closed path filled solid (an arrowhead)."""

    path: Path
    layer: Layer


@dataclass(frozen=True)
class Label:
    """One line of text.

    Args:
        text: what it says.
        at: the anchor, on the base line (mm).
        height: height of a capital letter (mm).
        anchor: which end of the text stands at the anchor.
        angle: counter-clockwise slope of the base line (degrees).
        layer: NOTE or DIMENSION.
    """

    text: str
    at: Point
    height: float = 2.5
    anchor: Literal["start", "middle", "end"] = "start"
    angle: float = 0.0
    layer: Layer = Layer.NOTE


#: Rows of words, the headings first.
Table = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Sheet:
    """One page, ready to be written in any format.

    Args:
        name: the template's name (``ferrule-mandrel``); the file is ``<pattern>--<name>``.
        title: what the template is, in words.
        pattern: the pattern's name, as the maker wrote it (any characters).
        purpose: what to do with it, one sentence.
        size: width and height of the paper (mm).
        datum: where the first view's own origin stands on the page (mm).
        cut_size: width and height of the largest that is cut (mm).
        strokes, fills, labels: what is drawn.
        tables: the tables that are drawn, as words.
    """

    name: str
    title: str
    pattern: str
    purpose: str
    size: tuple[float, float]
    datum: Point
    cut_size: tuple[float, float]
    strokes: tuple[Stroke, ...]
    fills: tuple[Fill, ...]
    labels: tuple[Label, ...]
    tables: tuple[Table, ...]
