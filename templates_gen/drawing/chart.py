"""Draw a chart as a view: curves over two axes, with different dashes, not to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.drawing.sheet import Layer, Stroke
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import Dimension, Leader, Text, View, line
from templates_gen.errors import GeometryError
from templates_gen.geometry import Pen, Point

#: Width and height of the plot area (mm), and the most steps on each axis.
WIDE, HIGH = 150.0, 46.0
_STEPS_X, _STEPS_Y = 8, 5
_TICK = 1.2
#: How far (in steps) a curve may dip below the axis before the axis is extended by a step.
_DIP = 0.25
#: Base line of the tick labels below the axis, and their least distance below a dip (mm).
_TICK_LABELS, _BELOW_A_DIP = -4.5, 3.3


@dataclass(frozen=True)
class Curve:
    """A line on the chart.

    Args:
        points: in the units of the axes, x rising.
        description: its label, or "".
        at: where its label points, as a fraction of the number of points.
        layer: sets the dashes.
    """

    points: Sequence[Point]
    description: str = ""
    at: float = 0.5
    layer: Layer = Layer.SCRIBE


@dataclass(frozen=True)
class Reach:
    """The least range of the axes: x from ``rear`` to ``far``, y from zero to ``up``."""

    rear: float = 0.0
    far: float = 1.0
    up: float = 1.0


def chart(title: str, curves: Sequence[Curve], across: str, up: str, least: Reach) -> View:
    """Draw curves over two axes; the y axis begins at zero, or below it if a curve does.

    Args:
        title: what the chart shows, written under it.
        curves: the curves; the axes cover them and ``least``.
        across, up: labels of the x and y axes, with their units.
        least: the least range of the axes.

    Raises:
        GeometryError: a value of a curve is not finite.
    """
    if not all(math.isfinite(v) for c in curves for p in c.points for v in p):
        raise GeometryError("the chart has a value that cannot be calculated")
    xs, ys = ([p[i] for c in curves for p in c.points] for i in (0, 1))
    rear, far, tall = min(least.rear, *xs), max(least.far, *xs), max(least.up, *ys)
    low = min(0.0, *ys)
    steps = (_step(far - rear, _STEPS_X), _step(tall - low, _STEPS_Y))
    first_up = math.floor(low / steps[1] + _DIP)
    last_up = math.ceil(tall / steps[1] - 1e-9)
    sx, sy = WIDE / (far - rear), HIGH / ((last_up - first_up) * steps[1])

    def on(p: Point) -> Point:
        return ((p[0] - rear) * sx, (p[1] - first_up * steps[1]) * sy)

    def axis(a: Point, b: Point) -> Stroke:
        return Stroke(line(a, b), Layer.NOTE)

    # Tick labels stay clear of a curve that dips below the axis.
    under = min(_TICK_LABELS, on((rear, low))[1] - _BELOW_A_DIP)
    strokes = [axis((0.0, 0.0), (WIDE, 0.0)), axis((0.0, 0.0), (0.0, HIGH))]
    words: list[Dimension] = [Text((WIDE, under - 4.0), across, "end"), Text((0.0, HIGH + 2.5), up)]
    for i in range(math.ceil(rear / steps[0] - 1e-9), int(far / steps[0] + 1e-9) + 1):
        x, _ = on((i * steps[0], 0.0))
        strokes.append(axis((x, -_TICK), (x, -0.1)))
        words.append(Text((x, under), figure(i * steps[0])))
    if first_up < 0:
        zero = on((rear, 0.0))[1]
        strokes.append(axis((0.0, zero), (WIDE, zero)))
    for i in range(first_up if first_up < 0 else 1, last_up + 1):
        _, y = on((0.0, i * steps[1]))
        strokes.append(axis((-_TICK, y), (-0.1, y)))
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


def _step(length: float, most: int) -> float:
    """Return the smallest of 1, 2, 5 times a power of ten that gives at most ``most`` steps."""
    power = 10.0 ** math.floor(math.log10(length / most))
    return next(k * power for k in (1, 2, 5, 10) if length / (k * power) <= most)
