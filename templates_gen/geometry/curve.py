"""Free curves: an ellipse, and the smooth curve through points measured on a bow."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from templates_gen.errors import GeometryError
from templates_gen.geometry.segment import Point, point_distance
from templates_gen.tolerances import SAME_POINT

#: A curve: from t in 0 … 1 to a point (mm) and a direction of travel (any length but zero).
Curve = Callable[[float], tuple[Point, Point]]
#: One number, or an array with one for each of many curves.
N = TypeVar("N", float, NDArray[np.float64])


def ellipse(a: float, b: float, start: float, end: float, centre: Point = (0.0, 0.0)) -> Curve:
    """An ellipse of semi-axes ``a`` along x and ``b`` along y, between two parameters (radians)."""

    def at(t: float) -> tuple[Point, Point]:
        angle = start + (end - start) * t
        c, s = math.cos(angle), math.sin(angle)
        way = math.copysign(1.0, end - start)
        return (centre[0] + a * c, centre[1] + b * s), (-way * a * s, way * b * c)

    return at


def spline_through(
    points: Sequence[Point], leave: Point | None = None, arrive: Point | None = None
) -> Curve:
    """A smooth curve through measured points, in their order; it bends as a thin batten would.

    Position, direction and curvature run on without a jump (a cubic spline by chord lengths).

    Args:
        points: what was measured (mm), at least two, no two neighbours in one place.
        leave: direction at the first point, any length; without it the curve finds its own.
        arrive: direction at the last point.

    Raises:
        GeometryError: too few points, or two neighbours in one place.
    """
    if len(points) < 2:
        raise GeometryError("a curve needs at least two points", *points)
    steps = [point_distance(p, q) for p, q in pairwise(points)]
    for p, step in zip(points, steps, strict=False):
        if not SAME_POINT < step < math.inf:
            raise GeometryError("two neighbouring points in one place, or no number", p)
    knots = [0.0, *accumulate(steps)]
    first, last = (None if d is None else _unit(d) for d in (leave, arrive))
    values = [[p[k] for p in points] for k in (0, 1)]
    ways = [spline_slopes(steps, values[k], first and first[k], last and last[k]) for k in (0, 1)]

    def at(t: float) -> tuple[Point, Point]:
        i = min(bisect_right(knots, t * knots[-1]) - 1, len(steps) - 1)
        u = (t * knots[-1] - knots[i]) / steps[i]
        (x, dx), (y, dy) = (
            hermite_cubic(u, steps[i], values[k][i : i + 2], ways[k][i : i + 2]) for k in (0, 1)
        )
        return (x, y), (dx, dy)

    return at


def _unit(way: Point) -> Point:
    size = math.hypot(*way)
    if not 0 < size < math.inf:
        raise GeometryError("a direction has no length, or is no number")
    return (way[0] / size, way[1] / size)


def hermite_cubic(u: float, h: N, y: Sequence[N], m: Sequence[N]) -> tuple[N, N]:
    """Value and slope at the fraction ``u`` of a span ``h`` long, from those at its ends."""
    rise, rest = y[1] - y[0], 1 - u
    a, b = h * m[0] - rise, rise - h * m[1]
    sag = a * rest + b * u
    return y[0] + u * rise + u * rest * sag, (rise + (rest - u) * sag + u * rest * (b - a)) / h


def spline_slopes(h: Sequence[N], y: Sequence[N], first: N | None, last: N | None) -> list[N]:
    """Slopes at the points that make curvature run on; what no end states, two spans share.

    Source: C. de Boor, A Practical Guide to Splines, ch. IV, 'not-a-knot' (from memory).
    """
    d: list[N] = [(b - a) / step for (a, b), step in zip(pairwise(y), h, strict=True)]
    if len(h) == 1 and first is None and last is None:
        return [d[0], d[0]]
    # Each row: what it takes of the slope before, of its own and of the one after, and the sum.
    own, after, total = _end(h, d, first)
    rows: list[tuple[N | float, N | float, N | float, N]] = [(0.0, own, after, total)]
    for i in range(1, len(h)):
        rows.append(
            (h[i], 2 * (h[i - 1] + h[i]), h[i - 1], 3 * (h[i] * d[i - 1] + h[i - 1] * d[i]))
        )
    own, before, total = _end(h[::-1], d[::-1], last)
    rows.append((before, own, 0.0, total))
    return _tridiagonal(rows)


def _end(h: Sequence[N], d: Sequence[N], slope: N | None) -> tuple[N | float, N | float, N]:
    """An end's row: its own share, its neighbour's, and the sum."""
    if slope is not None:
        return 1.0, 0.0, slope
    if len(h) < 3:
        return 1.0, 1.0, 2 * d[0]
    both = h[0] + h[1]
    return h[1], both, ((h[0] + 2 * both) * h[1] * d[0] + h[0] ** 2 * d[1]) / both


def _tridiagonal(rows: Sequence[tuple[N | float, N | float, N | float, N]]) -> list[N]:
    after: list[N | float] = [0.0]
    known: list[N] = []
    for low, own, high, total in rows:
        pivot = own - low * after[-1]
        known.append((total - low * known[-1]) / pivot if known else total / pivot)
        after.append(high / pivot)
    out = [known[-1]]
    for share, value in zip(after[-2:0:-1], known[-2::-1], strict=True):
        out.append(value - share * out[-1])
    return out[::-1]
