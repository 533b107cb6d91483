"""Define a view: strokes, dimensions and notes of a part, in the part's own frame.

A part states what to draw; ``dimension`` draws lines, arrows and text, ``compose`` lays out the
page.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from templates_gen.drawing.marks import box_round
from templates_gen.drawing.sheet import CUTS, Layer, Stroke, Table
from templates_gen.geometry import Box, Path, Pen, Point, circle


@dataclass(frozen=True)
class HorizontalDim:
    """A horizontal dimension between two points.

    Args:
        p, q: the two points (mm).
        row: row of the dimension line: 1, 2 … above the view, -1, -2 … below it.
        text: its text; the distance if "".
        suffix: text after the distance (``±0.05``, `` at the heel``).
        before: without room between the points, put the text before the first point instead of
            after the last.
    """

    p: Point
    q: Point
    row: int
    text: str = ""
    suffix: str = ""
    before: bool = False


@dataclass(frozen=True)
class VerticalDim:
    """A vertical dimension; ``row`` 1, 2 … to the right of the view, -1, -2 … to its left."""

    p: Point
    q: Point
    row: int
    text: str = ""
    suffix: str = ""
    before: bool = False


@dataclass(frozen=True)
class Radius:
    """A radius or diameter: an arrow to the arc, with ``R`` or ``Ø`` and the number.

    Args:
        centre: centre of the arc (mm).
        radius: its radius (mm).
        toward: direction of the arrow from the centre (degrees from +x).
        diameter: write ``Ø`` and the diameter instead of ``R`` and the radius.
        reach: distance of the text outside (positive) or inside (negative) the arc (mm).
    """

    centre: Point
    radius: float
    toward: float
    diameter: bool = False
    reach: float = 6.0


@dataclass(frozen=True)
class Angle:
    """An angle at a vertex from one direction to another, counter-clockwise (degrees from +x)."""

    vertex: Point
    start: float
    end: float
    radius: float


@dataclass(frozen=True)
class Leader:
    """A leader line from a place on the drawing to text beside it.

    Args:
        tip: the place (mm).
        to: start of the text (mm).
        text: the text.
    """

    tip: Point
    to: Point
    text: str


@dataclass(frozen=True)
class Text:
    """Text at a place (mm); the anchor is on the base line, by default at its middle."""

    at: Point
    text: str
    anchor: Literal["start", "middle", "end"] = "middle"
    angle: float = 0.0


Dimension = HorizontalDim | VerticalDim | Radius | Angle | Leader | Text


@dataclass(frozen=True)
class View:
    """One drawing of a template in the part's own frame.

    Args:
        title: its title, written under it; "" for none.
        strokes: its lines, each on its layer.
        dimensions: dimensions and text.
        table: its text, if it is a table.
        kerf_offset: distance (mm) of its cuts from the finished edges that its dimensions state.
    """

    title: str
    strokes: tuple[Stroke, ...]
    dimensions: tuple[Dimension, ...] = ()
    table: Table = ()
    kerf_offset: float = 0.0

    @property
    def box(self) -> Box:
        """Bounding box of its lines, without text and dimensions (mm)."""
        return box_round(s.path.box for s in self.strokes)

    @property
    def cut_box(self) -> Box:
        """Bounding box of its cuts, or of all its lines if it has none (mm)."""
        cuts = [s for s in self.strokes if s.layer in CUTS]
        return box_round(s.path.box for s in cuts or self.strokes)


def cut_size(views: Iterable[View]) -> tuple[float, float]:
    """Return the greatest width and height (mm) of the cuts of several views."""
    boxes = [v.cut_box for v in views]
    return max(b[2] - b[0] for b in boxes), max(b[3] - b[1] for b in boxes)


def cut(path: Path) -> Stroke:
    """Make a path an outline to cut."""
    return Stroke(path, Layer.OUTLINE)


def pocket(path: Path) -> Stroke:
    """Make a path the edge of a pocket."""
    return Stroke(path, Layer.POCKET)


def scribe(path: Path) -> Stroke:
    """Make a path a line to scribe, bend or mark."""
    return Stroke(path, Layer.SCRIBE)


def hidden(path: Path) -> Stroke:
    """Make a path a hidden line, or a line of a neighbouring part."""
    return Stroke(path, Layer.HIDDEN)


def line(a: Point, b: Point) -> Path:
    """Make a straight open path between two points."""
    return Pen(a).line_to(*b).open()


def centre_line(a: Point, b: Point) -> Stroke:
    """Make a centre line or datum between two points."""
    return Stroke(line(a, b), Layer.CENTRE)


def drill(centre: Point, diameter: float, arm: float = 1.5) -> tuple[Stroke, ...]:
    """Make a hole to drill, with a centre cross that extends ``arm`` (mm) beyond it."""
    x, y = centre
    r = diameter / 2 + arm
    return (
        Stroke(circle(centre, diameter / 2), Layer.DRILL),
        centre_line((x - r, y), (x + r, y)),
        centre_line((x, y - r), (x, y + r)),
    )


def all_strokes(*groups: Stroke | Iterable[Stroke]) -> tuple[Stroke, ...]:
    """Join strokes and groups of strokes in one tuple."""
    return tuple(s for g in groups for s in ((g,) if isinstance(g, Stroke) else g))
