"""Draw the registration marks of tiled pages: crosses, datum lines and their end ticks."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from templates_gen.drawing.grid import Grid
from templates_gen.drawing.marks import DESCENT, Marks, box_of, crosses_box, label_corners, overlap
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.view import line
from templates_gen.geometry import Box, Point, circle

_CAP = 2.5
_NOTHING = Marks()
#: Arm and ring of a registration cross, and its distance from the ends of an overlap (mm).
ARM, _RING, _IN = 4.0, 1.5, 8.0
#: Half the height of an end tick (mm).
TICK = 3.0
#: Distance of a datum line from all other marks (mm), so that it is not taken for a cut.
OUTSIDE = 5.0
#: Space a datum line takes with its text; how far it extends beyond the template (mm).
BEYOND, _OVER = 6.0, 5.0
#: Distance between a tick or a line and its text (mm).
_AIR = 1.2
#: Step (mm) by which a cross moves off the template, up to a third of the overlap's length.
_STEP = 1.0
#: Space round the template on a side without a datum line (mm).
_ROUND = 2.0


@dataclass(frozen=True)
class Cross:
    """A registration cross, printed at the same place on both pages of an overlap."""

    name: str
    at: Point

    @property
    def box(self) -> Box:
        """Bounding box (mm)."""
        x, y = self.at
        return (x - ARM, y - ARM, x + ARM, y + ARM)


@dataclass(frozen=True)
class MeasuredLength:
    """A length to measure over all pages, from one end tick to the other."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """The length it must have (mm)."""
        return self.end[0] - self.start[0] + self.end[1] - self.start[1]


def crosses(grid: Grid, marks: Marks = _NOTHING) -> list[Cross]:
    """Place two crosses, far apart, in every overlap of two neighbouring pages.

    Args:
        grid: the pages.
        marks: the marks the crosses avoid where they can.
    """
    found: list[Cross] = []
    number = count(1)
    # Keep out of the corners where four pages overlap.
    inward = _IN if 1 in (grid.rows, grid.columns) else grid.overlap + ARM + 2.0
    for at in grid.places:
        left, bottom, right, top = grid.shown(at)
        if at.column < grid.columns:
            x = right - grid.overlap / 2
            found += _pair(next(number), (x, top - inward), (x, bottom + inward), marks)
        if at.row < grid.rows:
            y = bottom + grid.overlap / 2
            found += _pair(next(number), (left + inward, y), (right - inward, y), marks)
    return found


def _pair(number: int, one: Point, other: Point, marks: Marks) -> Iterator[Cross]:
    """Yield a cross at each end of an overlap, moved towards the other until it is clear."""
    for letter, (x, y), (u, v) in (("a", one, other), ("b", other, one)):
        steps = int(math.dist(one, other) / 3 / _STEP)
        shares = [n * _STEP / math.dist(one, other) for n in range(steps + 1)]
        tried = [Cross(f"{number}{letter}", (x + s * (u - x), y + s * (v - y))) for s in shares]
        yield next((c for c in tried if _is_clear(c, marks)), tried[0])


def _is_clear(cross: Cross, marks: Marks) -> bool:
    own = cross_marks(cross)
    words = [box_of(label_corners(n)) for n in marks.labels]
    return not any(
        any(crosses_box(box, s.path) for s in marks.strokes) or any(overlap(box, w) for w in words)
        for box in (own.box, *(box_of(label_corners(n)) for n in own.labels))
    )


def cross_marks(cross: Cross) -> Marks:
    """Draw a cross with its ring and its name."""
    x, y = cross.at
    arms = line((x - ARM, y), (x + ARM, y)), line((x, y - ARM), (x, y + ARM))
    # The lower of a pair is below the datum line, and its name below the cross.
    up = -_RING - _CAP if cross.name.endswith("b") else _RING
    name = Label(cross.name, (x + _RING + 0.2, y + up), _CAP)
    paths = (*arms, circle(cross.at, _RING))
    return Marks(tuple(Stroke(path, Layer.NOTE) for path in paths), (), (name,))


def box_with_datums(box: Box, *, level: bool, upright: bool) -> Box:
    """Return the box round a template and the datum lines beside it.

    Args:
        box: bounding box of the template, text and dimensions included (mm).
        level, upright: whether there are horizontal and vertical datum lines.
    """
    beyond = OUTSIDE + BEYOND
    low, high = (beyond if upright else _ROUND), (beyond if upright and level else _ROUND)
    under, over = (beyond if level else _ROUND), (beyond if upright and level else _ROUND)
    return (box[0] - low, box[1] - under, box[2] + high, box[3] + over)


def datum_positions(grid: Grid, box: Box) -> tuple[list[float], list[float]]:
    """Return the y of the horizontal and the x of the vertical datum lines, all off the template.

    Several columns have a line below the template, several rows one at its left. Where there are
    several of both, all four sides have one.

    Args:
        grid: the pages.
        box: bounding box of the template, text and dimensions included (mm).
    """
    level, upright = grid.columns > 1, grid.rows > 1
    sides = 2 if level and upright else 1
    heights, widths = [box[1] - OUTSIDE, box[3] + OUTSIDE], [box[0] - OUTSIDE, box[2] + OUTSIDE]
    return heights[: sides * level], widths[: sides * upright]


def measured_lengths(
    box: Box, level: Sequence[float], upright: Sequence[float]
) -> list[MeasuredLength]:
    """Choose the lengths to measure on the datum lines: the template's, rounded down to tens."""
    found = []
    for axis, beside in ((0, level), (1, upright)):
        if beside:
            middle = (box[axis] + box[axis + 2]) / 2
            half = (box[axis + 2] - box[axis]) // 10 * 10 / 2
            ends = ((middle - half, beside[0]), (middle + half, beside[0]))
            found.append(MeasuredLength(*((a, b) if axis == 0 else (b, a) for a, b in ends)))
    return found


def datum_lines(box: Box, level: Sequence[float], upright: Sequence[float]) -> Marks:
    """Draw the datum lines over all pages."""
    strokes = [line((box[0] - _OVER, y), (box[2] + _OVER, y)) for y in level]
    strokes += [line((x, box[1] - _OVER), (x, box[3] + _OVER)) for x in upright]
    return Marks(tuple(Stroke(path, Layer.CENTRE) for path in strokes))


def end_ticks(check: MeasuredLength) -> Marks:
    """Draw the two end ticks of a length, each with its text on the side off the template."""
    along = check.end[1] == check.start[1]
    description = f"datum line: {check.length:g} mm between the end ticks"
    angle = 0.0 if along else 90.0
    strokes, labels = [], []
    for x, y in (check.start, check.end):
        a, b = ((x, y - TICK), (x, y + TICK)) if along else ((x - TICK, y), (x + TICK, y))
        strokes.append(Stroke(line(a, b), Layer.NOTE))
        inward = _AIR if (x, y) == check.start else -_AIR
        at = (x + inward, y - _AIR - _CAP) if along else (x - _AIR - DESCENT * _CAP, y + inward)
        labels.append(Label(description, at, _CAP, "start" if inward > 0 else "end", angle))
    return Marks(tuple(strokes), (), tuple(labels))
