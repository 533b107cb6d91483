"""What joins tiled pages: register crosses, a datum line through them, a length end to end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from templates_gen.drawing.grid import Grid, Place
from templates_gen.drawing.marks import Marks, box_of, label_corners
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.view import line
from templates_gen.geometry import Point, circle
from templates_gen.geometry.segment import Box

_CAP = 2.5
#: Arm of a register cross, its ring, and how far it stands in from the ends of an overlap (mm).
ARM, _RING, _IN = 4.0, 1.5, 8.0
#: Half the height of the ticks a length is measured between (mm).
TICK = 3.0
#: Lines this near (mm) are hard to tell apart.
_NEAR = 1.0
#: What rises less than this runs along, flat arcs too.
_SLOPE = 0.1
_STEP = 5.0


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


def crosses(grid: Grid) -> list[Cross]:
    """Two crosses, far apart, in every overlap of two neighbouring pages."""
    found: list[Cross] = []
    number = count(1)
    # Not where four pages lie over one another.
    inward = _IN if 1 in (grid.rows, grid.columns) else grid.overlap + ARM + 2.0
    for at in grid.places:
        left, bottom, right, top = grid.shown(at)
        if at.column < grid.columns:
            x = right - grid.overlap / 2
            found += _pair(next(number), (x, top - inward), (x, bottom + inward))
        if at.row < grid.rows:
            y = bottom + grid.overlap / 2
            found += _pair(next(number), (left + inward, y), (right - inward, y))
    return found


def _pair(number: int, one: Point, other: Point) -> Iterator[Cross]:
    yield Cross(f"{number}a", one)
    yield Cross(f"{number}b", other)


def drawn(cross: Cross) -> Marks:
    """A cross with its ring and its name."""
    (x, y), strokes = cross.at, []
    for a, b in (((x - ARM, y), (x + ARM, y)), ((x, y - ARM), (x, y + ARM))):
        strokes.append(Stroke(line(a, b), Layer.NOTE))
    strokes.append(Stroke(circle(cross.at, _RING), Layer.NOTE))
    name = Label(cross.name, (x + _RING + 0.2, y + _RING), _CAP, "start", 0.0, Layer.NOTE)
    return Marks(tuple(strokes), (), (name,))


def datums(grid: Grid, content: Marks, origin: Point) -> tuple[list[float], list[float]]:
    """Heights of the level datum lines, one for each row, and x of the upright ones.

    A line stands at the template's own zero where it can; where a line of the template runs along
    it, beside it. A template of one row has no upright ones, one of one column no level ones.
    """
    level, upright = [], []
    if grid.columns > 1:
        for row in range(1, grid.rows + 1):
            _, low, _, high = grid.shown(Place(row, 1))
            wanted = origin[1] if grid.rows == 1 else (low + high) / 2
            level.append(_clear(wanted, (low, high), _taken(content, 1)))
    if grid.rows > 1:
        for column in range(1, grid.columns + 1):
            low, _, high, _ = grid.shown(Place(1, column))
            wanted = origin[0] if grid.columns == 1 else (low + high) / 2
            upright.append(_clear(wanted, (low, high), _taken(content, 0)))
    return level, upright


def _taken(content: Marks, axis: int) -> list[tuple[float, float]]:
    """What a datum keeps clear of: what runs level (axis 1) or upright (axis 0), and all words."""
    boxes = (p.box for s in content.strokes for p in s.path.segments)
    words = (box_of(label_corners(n)) for n in content.labels)
    along = (b for b in boxes if b[axis + 2] - b[axis] < _SLOPE * (b[3 - axis] - b[1 - axis]))
    return [(b[axis], b[axis + 2]) for b in (*along, *words)]


def _clear(wanted: float, span: tuple[float, float], taken: Sequence[tuple[float, float]]) -> float:
    """The place nearest to the one wanted that is on the page and clear of lines and words."""
    low, high = span[0] + 2 * _IN, span[1] - 2 * _IN
    steps = sorted(range(-60, 61), key=abs)
    for at in (min(max(wanted, low), high) + n * _STEP for n in steps):
        if low <= at <= high and _is_clear(at, taken):
            return at
    return (low + high) / 2


def _is_clear(at: float, taken: Sequence[tuple[float, float]]) -> bool:
    return all(at < a - _NEAR or at > b + _NEAR for a, b in taken)


def checks(
    content: Marks, box: Box, level: Sequence[float], upright: Sequence[float]
) -> list[Check]:
    """What to measure end to end on the datum lines: whole tens, nearly as long as the template."""
    found = []
    for axis, rows in ((0, level), (1, upright)):
        if not rows:
            continue
        ends = _ends(box[axis], box[axis + 2], _taken(content, axis))
        a, b = ((v, rows[0]) if axis == 0 else (rows[0], v) for v in ends)
        found.append(Check(a, b))
    return found


def _ends(low: float, high: float, taken: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Two places a whole ten apart, both clear of lines and words where that can be."""
    middle, most = (low + high) / 2, int((high - low) // 10)
    tens = (n * 10.0 for n in range(most, max(1, most // 2), -1))
    ends = [(middle - w / 2, middle + w / 2) for w in tens]
    clear = (e for e in ends if _is_clear(e[0], taken) and _is_clear(e[1], taken))
    return next(clear, ends[0])


def lines(box: Box, level: Sequence[float], upright: Sequence[float]) -> Marks:
    """The datum lines over all pages."""
    over = 5.0
    strokes = [line((box[0] - over, y), (box[2] + over, y)) for y in level]
    strokes += [line((x, box[1] - over), (x, box[3] + over)) for x in upright]
    return Marks(tuple(Stroke(path, Layer.CENTRE) for path in strokes))


def ticks(check: Check) -> Marks:
    """The two ticks of a length, with its figure at both."""
    along = check.end[1] == check.start[1]
    strokes, labels = [], []
    for x, y in (check.start, check.end):
        a, b = ((x, y - TICK), (x, y + TICK)) if along else ((x - TICK, y), (x + TICK, y))
        strokes.append(Stroke(line(a, b), Layer.NOTE))
        at = (x + 0.6, y + 1.0) if along else (x + TICK + 0.6, y - _CAP / 2)
        says = f"end of {check.length:g}"
        labels.append(Label(says, at, _CAP, "start", 0.0, Layer.NOTE))
    return Marks(tuple(strokes), (), tuple(labels))
