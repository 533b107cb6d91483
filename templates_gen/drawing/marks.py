"""Group strokes, fills and labels as marks, measure them and place them on a page."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from templates_gen.drawing.sheet import Fill, Label, Stroke
from templates_gen.drawing.text import text_width
from templates_gen.geometry import Box, Path, Point
from templates_gen.tolerances import SAME_POINT

#: Depth of letters below the base line, as a fraction of the height of a capital.
DESCENT = 0.29


@dataclass(frozen=True)
class Marks:
    """Strokes, fills and labels in one frame."""

    strokes: tuple[Stroke, ...] = ()
    fills: tuple[Fill, ...] = ()
    labels: tuple[Label, ...] = ()

    def __add__(self, other: Marks) -> Marks:
        return Marks(
            self.strokes + other.strokes, self.fills + other.fills, self.labels + other.labels
        )

    @property
    def box(self) -> Box:
        """Bounding box of everything, text included (mm)."""
        boxes = [s.path.box for s in self.strokes] + [f.path.box for f in self.fills]
        return box_round(boxes + [box_of(label_corners(n)) for n in self.labels])


# Cached: while a file is watched, most marks stay the same.
@lru_cache(maxsize=512)
def place(marks: Marks, dx: float, dy: float) -> Marks:
    """Move marks to their place on the page (mm). Square, bars and template all pass here."""
    return Marks(
        tuple(replace(s, path=s.path.moved(dx, dy)) for s in marks.strokes),
        tuple(replace(f, path=f.path.moved(dx, dy)) for f in marks.fills),
        tuple(replace(n, at=(n.at[0] + dx, n.at[1] + dy)) for n in marks.labels),
    )


def box_round(boxes: Iterable[Box]) -> Box:
    """Return the bounding box of several boxes."""
    left, bottom, right, top = zip(*boxes, strict=True)
    return (min(left), min(bottom), max(right), max(top))


def box_of(points: Iterable[Point]) -> Box:
    """Return the bounding box of several points."""
    return box_round((x, y, x, y) for x, y in points)


def overlap(a: Box, b: Box) -> bool:
    """Return whether two boxes overlap; a common edge is no overlap."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def crosses_box(box: Box, path: Path) -> bool:
    """Return whether a line passes through a box, sampled every 0.2 mm."""
    if not overlap(box, _thick(path.box)):
        return False
    for piece in path.segments:
        if overlap(box, _thick(piece.box)):
            n = max(2, int(piece.length / 0.2))
            points = (piece.point(i / n) for i in range(n + 1))
            if any(box[0] < x < box[2] and box[1] < y < box[3] for x, y in points):
                return True
    return False


def _thick(box: Box) -> Box:
    """Enlarge a box a little: that of a horizontal or vertical line has no inside."""
    return (box[0] - SAME_POINT, box[1] - SAME_POINT, box[2] + SAME_POINT, box[3] + SAME_POINT)


def label_corners(label: Label) -> tuple[Point, Point, Point, Point]:
    """Return the corners of a label's box, counter-clockwise from below its first letter."""
    width = text_width(label.text, label.height)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    low, high = -DESCENT * label.height, label.height
    c, s = math.cos(math.radians(label.angle)), math.sin(math.radians(label.angle))

    def corner(u: float, v: float) -> Point:
        return (label.at[0] + u * c - v * s, label.at[1] + u * s + v * c)

    right = left + width
    return (corner(left, low), corner(right, low), corner(right, high), corner(left, high))
