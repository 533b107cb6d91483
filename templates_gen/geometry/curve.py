"""Parametric curves: ellipses, and cubic splines through measured points."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise
from typing import TypeVar

from templates_gen.errors import GeometryError
from templates_gen.geometry.arrays import Floats
from templates_gen.geometry.segment import Point, point_distance
from templates_gen.tolerances import SAME_POINT

#: A curve: maps t in 0 … 1 to a point (mm) and a tangent vector (of any length but zero).
Curve = Callable[[float], tuple[Point, Point]]
#: A number, or an array with one number per curve.
N = TypeVar("N", float, Floats)


def ellipse(a: float, b: float, start: float, end: float, centre: Point = (0.0, 0.0)) -> Curve:
    """Make an elliptical arc.

    Args:
        a: semi-axis along x (mm).
        b: semi-axis along y (mm).
        start: parameter where it starts (radians).
        end: parameter where it ends (radians).
        centre: mm.
    """

    def at(t: float) -> tuple[Point, Point]:
        angle = start + (end - start) * t
        c, s = math.cos(angle), math.sin(angle)
        sign = math.copysign(1.0, end - start)
        return (centre[0] + a * c, centre[1] + b * s), (-sign * a * s, sign * b * c)

    return at


def spline_through(
    points: Sequence[Point], leave: Point | None = None, arrive: Point | None = None
) -> Curve:
    """Interpolate measured points, in order, by a cubic spline parametrized by chord length.

    Position, direction and curvature are continuous.

    Args:
        points: the points (mm), at least two, no two neighbours equal.
        leave: tangent at the first point, of any length; not-a-knot if None.
        arrive: tangent at the last point; not-a-knot if None.

    Raises:
        GeometryError: too few points, or two neighbours equal.
    """
    if len(points) < 2:
        raise GeometryError("a curve needs at least two points", *points)
    steps = [point_distance(p, q) for p, q in pairwise(points)]
    for p, step in zip(points, steps, strict=False):
        if not SAME_POINT < step < math.inf:
            raise GeometryError("two neighbouring points are equal, or one is not finite", p)
    knots = [0.0, *accumulate(steps)]
    first, last = (None if d is None else _unit(d) for d in (leave, arrive))
    values = [[p[k] for p in points] for k in (0, 1)]
    tangents = [
        spline_slopes(steps, values[k], first and first[k], last and last[k]) for k in (0, 1)
    ]

    def at(t: float) -> tuple[Point, Point]:
        i = min(bisect_right(knots, t * knots[-1]) - 1, len(steps) - 1)
        u = (t * knots[-1] - knots[i]) / steps[i]
        (x, dx), (y, dy) = (
            hermite_cubic(u, steps[i], values[k][i : i + 2], tangents[k][i : i + 2]) for k in (0, 1)
        )
        return (x, y), (dx, dy)

    return at


def _unit(vector: Point) -> Point:
    size = math.hypot(*vector)
    if not 0 < size < math.inf:
        raise GeometryError("a direction has zero length or is not finite")
    return (vector[0] / size, vector[1] / size)


def hermite_cubic(u: float, h: N, y: Sequence[N], m: Sequence[N]) -> tuple[N, N]:
    """Evaluate a cubic Hermite polynomial.

    Args:
        u: fraction of the span (0 … 1).
        h: length of the span.
        y: values at its ends.
        m: slopes at its ends.

    Returns:
        Value and slope.
    """
    rise, rest = y[1] - y[0], 1 - u
    a, b = h * m[0] - rise, rise - h * m[1]
    sag = a * rest + b * u
    return y[0] + u * rise + u * rest * sag, (rise + (rest - u) * sag + u * rest * (b - a)) / h


def spline_slopes(h: Sequence[N], y: Sequence[N], first: N | None, last: N | None) -> list[N]:
    """Find the slopes of a cubic spline at its knots.

    Args:
        h: lengths of the spans.
        y: values at the knots, one more than the spans.
        first: slope at the first knot; not-a-knot if None.
        last: slope at the last knot; not-a-knot if None.

    Source: C. de Boor, A Practical Guide to Splines, ch. IV, 'not-a-knot' (from memory).
    """
    d: list[N] = [(b - a) / step for (a, b), step in zip(pairwise(y), h, strict=True)]
    if len(h) == 1 and first is None and last is None:
        return [d[0], d[0]]
    # Each row: coefficients of the slope before, here and after, and the right-hand side.
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
    """Make the row for an end knot: its coefficient, its neighbour's, the right-hand side."""
    if slope is not None:
        return 1.0, 0.0, slope
    if len(h) < 3:
        return 1.0, 1.0, 2 * d[0]
    both = h[0] + h[1]
    return h[1], both, ((h[0] + 2 * both) * h[1] * d[0] + h[0] ** 2 * d[1]) / both


def _tridiagonal(rows: Sequence[tuple[N | float, N | float, N | float, N]]) -> list[N]:
    """Solve a tridiagonal system (Thomas algorithm)."""
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
