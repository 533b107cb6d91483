"""A view: what a part wants drawn, in the part's own frame. The machinery gives it a page.

A part lists strokes, dimensions and notes; where their lines, arrows and words go is worked out in
``dimension``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from templates_gen.drawing.sheet import CUTS, Layer, Stroke, Table
from templates_gen.geometry import Path, Pen, Point, circle
from templates_gen.geometry.segment import Box


@dataclass(frozen=True)
class HorizontalDim:
    """A level dimension between two points.

    Args:
        p, q: the points measured, left and right (mm).
        row: how far out its line stands: 1, 2 … above the view, -1, -2 … below it.
        text: what it says; the distance if "".
        suffix: put after the distance (``±0.05``, `` at the heel``).
        before: where the words have no room between the points, they stand before the first
            instead of beyond the last.
    """

    p: Point
    q: Point
    row: int
    text: str = ""
    suffix: str = ""
    before: bool = False


@dataclass(frozen=True)
class VerticalDim:
    """An upright dimension; ``row`` 1, 2 … to the right of the view, -1, -2 … to its left."""

    p: Point
    q: Point
    row: int
    text: str = ""
    suffix: str = ""
    before: bool = False


@dataclass(frozen=True)
class Radius:
    """A radius: an arrow onto the arc from its centre's side, with ``R`` and the figure.

    Args:
        centre: centre of the arc (mm).
        radius: its radius (mm).
        toward: direction of the arrow from the centre (degrees from +x).
        diameter: say ``Ø`` and twice the radius instead.
        reach: how far the words stand beyond (positive) or within (negative) the arc (mm).
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
    """A line from a place on the drawing to words beside it.

    Args:
        tip: the place (mm).
        to: where the words begin (mm).
        text: the words.
    """

    tip: Point
    to: Point
    text: str


@dataclass(frozen=True)
class Text:
    """Words written at a place (mm), middle of the base line there unless anchored otherwise."""

    at: Point
    text: str
    anchor: Literal["start", "middle", "end"] = "middle"
    angle: float = 0.0


Dimension = HorizontalDim | VerticalDim | Radius | Angle | Leader | Text


@dataclass(frozen=True)
class View:
    """One drawing of a template in the part's own frame.

    Args:
        title: what it shows, written under it; "" for none.
        strokes: its lines, each on its layer.
        dimensions: dimensions and words.
        table: what it tells, if it is a table.
        kerf_offset: how far (mm) its cuts stand off the finished edges that its dimensions tell.
    """

    title: str
    strokes: tuple[Stroke, ...]
    dimensions: tuple[Dimension, ...] = ()
    table: Table = ()
    kerf_offset: float = 0.0

    @property
    def box(self) -> Box:
        """Box round its lines, without words and dimensions."""
        return _round(self.strokes)

    @property
    def cut_box(self) -> Box:
        """Box round what is cut; round all its lines where nothing is."""
        return _round([s for s in self.strokes if s.layer in CUTS] or self.strokes)


def cut_size(views: Iterable[View]) -> tuple[float, float]:
    """Width and height (mm) of the largest that is cut, over all views of a template."""
    boxes = [v.cut_box for v in views]
    return max(b[2] - b[0] for b in boxes), max(b[3] - b[1] for b in boxes)


def _round(strokes: Iterable[Stroke]) -> Box:
    left, bottom, right, top = zip(*(s.path.box for s in strokes), strict=True)
    return (min(left), min(bottom), max(right), max(top))


def cut(path: Path) -> Stroke:
    """An outline to cut."""
    return Stroke(path, Layer.OUTLINE)


def pocket(path: Path) -> Stroke:
    """The edge of a pocket."""
    return Stroke(path, Layer.POCKET)


def scribe(path: Path) -> Stroke:
    """A line to scribe, bend or mark."""
    return Stroke(path, Layer.SCRIBE)


def hidden(path: Path) -> Stroke:
    """A line that lies behind, or a neighbour's."""
    return Stroke(path, Layer.HIDDEN)


def line(a: Point, b: Point) -> Path:
    """A straight open path."""
    return Pen(a).line_to(*b).open()


def centre_line(a: Point, b: Point) -> Stroke:
    """A centre line or datum between two points."""
    return Stroke(line(a, b), Layer.CENTRE)


def drill(centre: Point, diameter: float, arm: float = 1.5) -> tuple[Stroke, ...]:
    """A hole at its size, with a centre cross that reaches ``arm`` beyond it."""
    x, y = centre
    r = diameter / 2 + arm
    return (
        Stroke(circle(centre, diameter / 2), Layer.DRILL),
        centre_line((x - r, y), (x + r, y)),
        centre_line((x, y - r), (x, y + r)),
    )


def all_strokes(*groups: Stroke | Iterable[Stroke]) -> tuple[Stroke, ...]:
    """Strokes and groups of strokes in one row."""
    return tuple(s for g in groups for s in ((g,) if isinstance(g, Stroke) else g))
