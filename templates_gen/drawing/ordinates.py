"""A table of ordinates: what a long form is checked by when its paper has moved."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.drawing.sheet import Layer, Stroke
from templates_gen.drawing.view import View, Word, line
from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Point
from templates_gen.geometry.measure import crossings

#: Every so many millimetres, as far as a steel rule is read at a glance.
STEP = 50.0
_COLUMN, _ROW, _DROP = 14.0, 6.0, 4.2
_MOST = 12
_OVER = 1.0


def ordinates(path: Path, step: float = STEP) -> list[Point]:
    """How high a line stands (mm) at every whole step of x, and at both its ends.

    Args:
        path: the line; of a closed outline its upper edge counts.
        step: how far apart (mm).

    Raises:
        GeometryError: the line is not there at some place between its ends.
    """
    left, low, right, high = path.box
    first = int(left // step) + 1
    at = [left, *(n * step for n in range(first, int(right // step) + 1) if n * step < right)]
    return [(x, _height(path, x, (low, high))) for x in [*at, right] if left <= x <= right]


def _height(path: Path, x: float, span: tuple[float, float]) -> float:
    upright = line((x, span[0] - _OVER), (x, span[1] + _OVER))
    met = crossings(upright, path)
    if not met:
        raise GeometryError("the line has no ordinate", (x, span[0]))
    return max(y for _, y in met)


def table(title: str, points: Sequence[Point], says: str = "y") -> View:
    """A view of a table: x and the ordinate under it, to a tenth, as many rows as it takes.

    Args:
        title: written under the table.
        points: the ordinates (mm).
        says: what the ordinate is called.
    """
    blocks = [points[i : i + _MOST] for i in range(0, len(points), _MOST)]
    wide = (1 + max(len(b) for b in blocks)) * _COLUMN
    strokes, words = [], []
    for number, block in enumerate(blocks):
        top = -number * 2.5 * _ROW
        for row in range(3):
            y = top - row * _ROW
            strokes.append(Stroke(line((0.0, y), (wide, y)), Layer.NOTE))
        for row, name in enumerate(("x", says)):
            words.append(Word((_COLUMN / 2, top - row * _ROW - _DROP), name))
        for column, (x, y) in enumerate(block, start=1):
            middle = (column + 0.5) * _COLUMN
            words.append(Word((middle, top - _DROP), f"{x:.1f}".removesuffix(".0")))
            words.append(Word((middle, top - _ROW - _DROP), f"{y + 0.0:.1f}"))
    return View(title, tuple(strokes), tuple(words))
