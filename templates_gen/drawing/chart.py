"""A chart as a view: curves over an axis, told apart by their dashes. It is at no scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing.sheet import Layer, Stroke
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import Dimension, Leader, Text, View, line
from templates_gen.errors import GeometryError
from templates_gen.geometry import Pen, Point

#: Room for the curves (mm), and at most so many steps on an axis.
WIDE, HIGH = 150.0, 46.0
_STEPS_X, _STEPS_Y = 8, 5
_TICK = 1.2
#: A curve may dip so far (in steps) under the axis; where it goes deeper, the axis does.
_DIP = 0.25
#: Height of the figures under the axis (mm), and how far they stand at least under a dip.
_FIGURES, _UNDER_A_DIP = -4.5, 3.3


@dataclass(frozen=True)
class Curve:
    """A line on the chart.

    Args:
        points: in the units of the axes, x rising.
        says: words led to it, or "".
        at: which of its points they are led to, in parts of their number.
        layer: how it is dashed.
    """

    points: Sequence[Point]
    description: str = ""
    at: float = 0.5
    layer: Layer = Layer.SCRIBE


@dataclass(frozen=True)
class Reach:
    """How far axes go at least: level from ``rear`` to ``far``, upright from nought to ``up``."""

    rear: float = 0.0
    far: float = 1.0
    up: float = 1.0


def chart(title: str, curves: Sequence[Curve], across: str, up: str, least: Reach) -> View:
    """A view of curves over a level axis; the upright one begins at zero, or below if they do.

    Args:
        title: what it shows, written under it.
        curves: what is drawn; the axes reach as far as they and ``least`` do.
        across, up: what the axes tell, with their units.
        least: how far the axes reach at least.

    Raises:
        GeometryError: a number of a curve cannot be worked out.
    """
    if not all(math.isfinite(v) for c in curves for p in c.points for v in p):
        raise GeometryError("a number of the chart cannot be worked out")
    xs, ys = ([p[i] for c in curves for p in c.points] for i in (0, 1))
    rear, far, tall = min(least.rear, *xs), max(least.far, *xs), max(least.up, *ys)
    low = min(0.0, *ys)
    steps = (_step(far - rear, _STEPS_X), _step(tall - low, _STEPS_Y))
    first_up = math.floor(low / steps[1] + _DIP)
    last_up = math.ceil(tall / steps[1] - 1e-9)
    sx, sy = WIDE / (far - rear), HIGH / ((last_up - first_up) * steps[1])

    def on(p: Point) -> Point:
        return ((p[0] - rear) * sx, (p[1] - first_up * steps[1]) * sy)

    # Figures stand clear of a curve that dips under the axis.
    under = min(_FIGURES, on((rear, low))[1] - _UNDER_A_DIP)
    strokes = [
        Stroke(line((0.0, 0.0), (WIDE, 0.0)), Layer.NOTE),
        Stroke(line((0.0, 0.0), (0.0, HIGH)), Layer.NOTE),
    ]
    words: list[Dimension] = [Text((WIDE, under - 4.0), across, "end"), Text((0.0, HIGH + 2.5), up)]
    for i in range(math.ceil(rear / steps[0] - 1e-9), int(far / steps[0] + 1e-9) + 1):
        x, _ = on((i * steps[0], 0.0))
        strokes.append(Stroke(line((x, -_TICK), (x, -0.1)), Layer.NOTE))
        words.append(Text((x, under), figure(i * steps[0])))
    if first_up < 0:
        zero = on((rear, 0.0))[1]
        strokes.append(Stroke(line((0.0, zero), (WIDE, zero)), Layer.NOTE))
    for i in range(first_up if first_up < 0 else 1, last_up + 1):
        _, y = on((0.0, i * steps[1]))
        strokes.append(Stroke(line((-_TICK, y), (-0.1, y)), Layer.NOTE))
        words.append(Text((-2.0, y - 1.0), figure(i * steps[1]), "end"))
    for c in curves:
        first, *rest = (on(p) for p in c.points)
        pen = Pen(first)
        for p in rest:
            pen.line_to(*p)
        strokes.append(Stroke(pen.open(), c.layer))
        if c.description:
            tip = on(c.points[round(c.at * (len(c.points) - 1))])
            words.append(Leader(tip, (tip[0] + 6.0, tip[1] + 5.0), c.description))
    return View(title, tuple(strokes), tuple(words))


def _step(far: float, most: int) -> float:
    """The finest of 1, 2, 5 times a power of ten that makes at most so many steps."""
    power = 10.0 ** math.floor(math.log10(far / most))
    return next(k * power for k in (1, 2, 5, 10) if far / (k * power) <= most)
