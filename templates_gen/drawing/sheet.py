"""Define a sheet: strokes, fills and labels on a page, in mm, independent of any file format.

Page coordinates: origin at the lower left corner of the paper, x to the right, y up.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from templates_gen.geometry import Path, Point


class Layer(StrEnum):
    """Layers by the purpose of a line."""

    OUTLINE = "OUTLINE"
    POCKET = "POCKET"
    SCRIBE = "SCRIBE"
    HIDDEN = "HIDDEN"
    CENTRE = "CENTRE"
    DRILL = "DRILL"
    DIMENSION = "DIMENSION"
    NOTE = "NOTE"


#: Stated instead of the side that is up, on sheets without a scale.
CHART, TABLE = UNSCALED = ("chart, not to scale", "list, not to scale")

#: The layers a tool follows: their lines are closed and carry no text.
CUTS = (Layer.OUTLINE, Layer.POCKET)


@dataclass(frozen=True)
class LineStyle:
    """Line width and dashes of a layer.

    Args:
        width: pen width (mm).
        dashes: lengths (mm) of dashes and gaps in turn; empty for a continuous line.
        purpose: the purpose of the layer's lines.
    """

    width: float
    dashes: tuple[float, ...]
    purpose: str


#: Widths wide : narrow as 2 : 1, dashes in multiples of the narrow width.
#: Source: ISO 128-2 line types 01.1, 01.2, 02.1 and 04.1 (from memory).
STYLES: dict[Layer, LineStyle] = {
    Layer.OUTLINE: LineStyle(0.35, (), "cut along the middle of this line"),
    Layer.POCKET: LineStyle(0.35, (), "edge of a pocket; cut inside it"),
    Layer.SCRIBE: LineStyle(0.18, (), "scribe, bend or mark here; do not cut"),
    Layer.HIDDEN: LineStyle(0.18, (2.16, 0.54), "hidden line or a neighbouring part"),
    Layer.CENTRE: LineStyle(0.18, (4.32, 0.54, 0.18, 0.54), "centre line or datum"),
    Layer.DRILL: LineStyle(0.18, (), "hole to drill, at its diameter"),
    Layer.DIMENSION: LineStyle(0.18, (), "dimensions"),
    Layer.NOTE: LineStyle(0.18, (), "text, frame and measuring bars"),
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
        text: the text.
        at: the anchor, on the base line (mm).
        height: height of a capital letter (mm).
        anchor: which point of the text is at the anchor.
        angle: slope of the base line, counter-clockwise (degrees).
        layer: NOTE or DIMENSION.
    """

    text: str
    at: Point
    height: float = 2.5
    anchor: Literal["start", "middle", "end"] = "start"
    angle: float = 0.0
    layer: Layer = Layer.NOTE


#: Rows of text, the headings first.
Table = tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class Sheet:
    """One page, ready to be written in any format.

    Args:
        name: the template's name (``ferrule-mandrel``); the file is ``<pattern>--<name>``.
        title: the template's title.
        pattern: the pattern's name as stated (any characters).
        purpose: what to do with the sheet, one sentence.
        size: width and height of the paper (mm).
        datum: place of the first view's origin on the page (mm).
        cut_size: greatest width and height of a cut (mm).
        strokes, fills, labels: the drawing.
        tables: the text of the tables in the drawing.
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
