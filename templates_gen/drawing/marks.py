"""Marks: anything drawn, before it has a place on a page, and the one way to give it one."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from templates_gen.drawing.sheet import Fill, Label, Stroke
from templates_gen.drawing.text import text_width
from templates_gen.geometry import Path, Point
from templates_gen.geometry.segment import Box
from templates_gen.tolerances import SAME_POINT

#: How far letters reach below the base line, as a part of the height of a capital.
DESCENT = 0.29


@dataclass(frozen=True)
class Marks:
    """Strokes, fills and labels that belong together, in a frame of their own."""

    strokes: tuple[Stroke, ...] = ()
    fills: tuple[Fill, ...] = ()
    labels: tuple[Label, ...] = ()

    def __add__(self, other: Marks) -> Marks:
        return Marks(
            self.strokes + other.strokes, self.fills + other.fills, self.labels + other.labels
        )

    @property
    def box(self) -> Box:
        """Box round everything, words included."""
        boxes = [s.path.box for s in self.strokes] + [f.path.box for f in self.fills]
        return box_round(boxes + [box_of(label_corners(n)) for n in self.labels])


# Of what did not change since the last save, nothing is moved anew.
@lru_cache(maxsize=512)
def place(marks: Marks, dx: float, dy: float) -> Marks:
    """Put marks at their place on the page. Square, bars and template all go through here."""
    return Marks(
        tuple(replace(s, path=s.path.moved(dx, dy)) for s in marks.strokes),
        tuple(replace(f, path=f.path.moved(dx, dy)) for f in marks.fills),
        tuple(replace(n, at=(n.at[0] + dx, n.at[1] + dy)) for n in marks.labels),
    )


def box_round(boxes: Iterable[Box]) -> Box:
    """The box round several boxes."""
    left, bottom, right, top = zip(*boxes, strict=True)
    return (min(left), min(bottom), max(right), max(top))


def box_of(points: Iterable[Point]) -> Box:
    """The box round several points."""
    return box_round((x, y, x, y) for x, y in points)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def stands_on(box: Box, path: Path) -> bool:
    """Whether a line runs through a box, looked at every fifth of a millimetre."""
    if not overlap(box, _thick(path.box)):
        return False
    for piece in path.segments:
        if not overlap(box, _thick(piece.box)):
            continue
        n = max(2, int(piece.length / 0.2))
        for x, y in (piece.point(i / n) for i in range(n + 1)):
            if box[0] < x < box[2] and box[1] < y < box[3]:
                return True
    return False


def _thick(box: Box) -> Box:
    """A level or upright line's box, which has no inside, given one."""
    return (box[0] - SAME_POINT, box[1] - SAME_POINT, box[2] + SAME_POINT, box[3] + SAME_POINT)


def label_corners(label: Label) -> tuple[Point, Point, Point, Point]:
    """Corners of the space a label takes, from below its first letter counter-clockwise."""
    width = text_width(label.text, label.height)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    low, high = -DESCENT * label.height, label.height
    c, s = math.cos(math.radians(label.angle)), math.sin(math.radians(label.angle))

    def corner(u: float, v: float) -> Point:
        return (label.at[0] + u * c - v * s, label.at[1] + u * s + v * c)

    right = left + width
    return (corner(left, low), corner(right, low), corner(right, high), corner(left, high))
