"""What joins tiled pages: register crosses, a datum line through them, a length end to end."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from templates_gen.drawing.grid import Grid
from templates_gen.drawing.marks import DESCENT, Marks, box_of, label_corners, overlap, stands_on
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.view import line
from templates_gen.geometry import Point, circle
from templates_gen.geometry.segment import Box

_CAP = 2.5
_NOTHING = Marks()
#: Arm of a register cross, its ring, and how far it stands in from the ends of an overlap (mm).
ARM, _RING, _IN = 4.0, 1.5, 8.0
#: Half the height of the ticks a length is measured between (mm).
TICK = 3.0
#: How far a datum line stands outside everything else, so that nobody saws to it (mm).
OUTSIDE = 5.0
#: What a datum line takes beyond itself, its words included; how far it runs past the ends (mm).
BEYOND, _OVER = 6.0, 5.0
#: Between a tick or a line and words (mm).
_AIR = 1.2
#: A cross that would stand on the template moves in, by steps, at most a third of the way (mm).
_STEP = 1.0
#: Room round the template where no datum line stands (mm).
_ROUND = 2.0


@dataclass(frozen=True)
class Cross:
    """A register cross: printed on both pages of an overlap, at the same place of the template."""

    name: str
    at: Point

    @property
    def box(self) -> Box:
        """Box round it."""
        x, y = self.at
        return (x - ARM, y - ARM, x + ARM, y + ARM)


@dataclass(frozen=True)
class Check:
    """A length (mm) to measure from the first page to the last, between two ticks."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """What it must measure (mm)."""
        return self.end[0] - self.start[0] + self.end[1] - self.start[1]


def crosses(grid: Grid, marks: Marks = _NOTHING) -> list[Cross]:
    """Two crosses, far apart, in every overlap of two neighbouring pages.

    Args:
        grid: the pages.
        marks: what the crosses keep clear of where they can.
    """
    found: list[Cross] = []
    number = count(1)
    # Not where four pages lie over one another.
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
    """A cross at each end of an overlap, moved towards the other until it stands clear."""
    for letter, (x, y), (u, v) in (("a", one, other), ("b", other, one)):
        steps = int(math.dist(one, other) / 3 / _STEP)
        shares = [n * _STEP / math.dist(one, other) for n in range(steps + 1)]
        tried = [Cross(f"{number}{letter}", (x + s * (u - x), y + s * (v - y))) for s in shares]
        yield next((c for c in tried if _is_clear(c, marks)), tried[0])


def _is_clear(cross: Cross, marks: Marks) -> bool:
    own = drawn(cross)
    words = [box_of(label_corners(n)) for n in marks.labels]
    return not any(
        any(stands_on(box, s.path) for s in marks.strokes) or any(overlap(box, w) for w in words)
        for box in (own.box, *(box_of(label_corners(n)) for n in own.labels))
    )


def drawn(cross: Cross) -> Marks:
    """A cross with its ring and its name."""
    (x, y), strokes = cross.at, []
    for a, b in (((x - ARM, y), (x + ARM, y)), ((x, y - ARM), (x, y + ARM))):
        strokes.append(Stroke(line(a, b), Layer.NOTE))
    strokes.append(Stroke(circle(cross.at, _RING), Layer.NOTE))
    # The lower of a pair stands under the datum line, and its name lower still.
    up = -_RING - _CAP if cross.name.endswith("b") else _RING
    name = Label(cross.name, (x + _RING + 0.2, y + up), _CAP, "start", 0.0, Layer.NOTE)
    return Marks(tuple(strokes), (), (name,))


def room(box: Box, *, level: bool, upright: bool) -> Box:
    """The box round a template and the datum lines beside it.

    Args:
        box: round the template, words and dimensions included (mm).
        level, upright: whether level and upright datum lines are wanted.
    """
    beyond = OUTSIDE + BEYOND
    low, high = (beyond if upright else _ROUND), (beyond if upright and level else _ROUND)
    under, over = (beyond if level else _ROUND), (beyond if upright and level else _ROUND)
    return (box[0] - low, box[1] - under, box[2] + high, box[3] + over)


def datums(grid: Grid, box: Box) -> tuple[list[float], list[float]]:
    """Heights of the level datum lines and x of the upright ones, all outside the template.

    One line under the template of several columns, one left of that of several rows. Where there
    are both, a second stands over it and right of it.

    Args:
        grid: the pages.
        box: round the template, words and dimensions included (mm).
    """
    level, upright = grid.columns > 1, grid.rows > 1
    below, above = [box[1] - OUTSIDE], [box[3] + OUTSIDE]
    left, right = [box[0] - OUTSIDE], [box[2] + OUTSIDE]
    if level and upright:
        return below + above, left + right
    return (below if level else []), (left if upright else [])


def checks(box: Box, level: Sequence[float], upright: Sequence[float]) -> list[Check]:
    """What to measure end to end on the datum lines: whole tens, nearly as long as the template."""
    found = []
    for axis, beside in ((0, level), (1, upright)):
        if not beside:
            continue
        middle = (box[axis] + box[axis + 2]) / 2
        half = (box[axis + 2] - box[axis]) // 10 * 10 / 2
        a, b = (
            (v, beside[0]) if axis == 0 else (beside[0], v) for v in (middle - half, middle + half)
        )
        found.append(Check(a, b))
    return found


def lines(box: Box, level: Sequence[float], upright: Sequence[float]) -> Marks:
    """The datum lines over all pages."""
    strokes = [line((box[0] - _OVER, y), (box[2] + _OVER, y)) for y in level]
    strokes += [line((x, box[1] - _OVER), (x, box[3] + _OVER)) for x in upright]
    return Marks(tuple(Stroke(path, Layer.CENTRE) for path in strokes))


def ticks(check: Check) -> Marks:
    """The two ticks of a length, each with words on the side away from the template."""
    along = check.end[1] == check.start[1]
    description = f"datum line: {check.length:g} between the end ticks"
    angle = 0.0 if along else 90.0
    strokes, labels = [], []
    for x, y in (check.start, check.end):
        a, b = ((x, y - TICK), (x, y + TICK)) if along else ((x - TICK, y), (x + TICK, y))
        strokes.append(Stroke(line(a, b), Layer.NOTE))
        inward = _AIR if (x, y) == check.start else -_AIR
        at = (x + inward, y - _AIR - _CAP) if along else (x - _AIR - DESCENT * _CAP, y + inward)
        label = Label(description, at, _CAP, "start" if inward > 0 else "end", angle, Layer.NOTE)
        labels.append(label)
    return Marks(tuple(strokes), (), tuple(labels))
