"""Lines and arcs in place of a free curve: tangent arcs that stand close to it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment
from templates_gen.tolerances import FIT_DISTANCE, FIT_KINK_DEG, SAME_POINT

#: A curve: from t in 0 … 1 to a point (mm) and a direction of travel (any length but zero).
Curve = Callable[[float], tuple[Point, Point]]

#: Where a piece is compared with its curve.
_PROBES = 9
_MOST_PAIRS = 200


@dataclass(frozen=True)
class Fit:
    """Arcs in place of a curve, and how well they serve.

    Args:
        path: the open path.
        distance: farthest the curve stands from the path (mm), measured.
        kink_deg: sharpest turn at a joint (degrees), measured.
    """

    path: Path
    distance: float
    kink_deg: float


def fit(curve: Curve, distance: float = FIT_DISTANCE) -> Fit:
    """Follow a curve with pairs of tangent arcs, each pair as long as the distance allows.

    Args:
        curve: the curve, with a direction everywhere.
        distance: how far the arcs may stand from it (mm).

    Raises:
        GeometryError: the curve has no direction somewhere, or a corner no arc can follow.
    """
    pieces: list[Segment] = []
    t = 0.0
    for _ in range(_MOST_PAIRS):
        stop, pair = _longest(curve, t, distance / 2)
        pieces += pair
        t = stop
        if t >= 1.0:
            return _measured(curve, Path.from_segments(pieces, closed=False), distance)
    raise GeometryError("the curve is too sharp for arcs to follow", curve(t)[0])


def _longest(curve: Curve, t: float, distance: float) -> tuple[float, list[Segment]]:
    """The farthest stop from ``t`` that one pair of arcs reaches within the distance."""
    pair = _biarc(curve, t, 1.0)
    if pair is not None and _gap(curve, t, 1.0, pair) <= distance:
        return 1.0, pair
    low, high, best = t, 1.0, None
    for _ in range(14):
        middle = (low + high) / 2
        pair = _biarc(curve, t, middle)
        if pair is not None and _gap(curve, t, middle, pair) <= distance:
            low, best = middle, pair
        else:
            high = middle
    if best is None:
        raise GeometryError("no arc can follow the curve", curve(t)[0])
    return low, best


def _biarc(curve: Curve, t0: float, t1: float) -> list[Segment] | None:
    """Two arcs with equal legs from one point and direction to another, or None."""
    p, u = _ray(curve, t0)
    q, w = _ray(curve, t1)
    vx, vy = q[0] - p[0], q[1] - p[1]
    if math.hypot(vx, vy) <= SAME_POINT:
        return None
    # d solves |v - d (u + w)| = 2 d, the condition that both arcs share the joint's tangent.
    sx, sy = u[0] + w[0], u[1] + w[1]
    a = 4 - sx * sx - sy * sy
    b = vx * sx + vy * sy
    c = vx * vx + vy * vy
    root = math.sqrt(b * b + a * c)
    d = c / (b + root) if b + root > 0 else None
    if d is None or d <= 0:
        return None
    joint = (
        (p[0] + q[0] + d * (u[0] - w[0])) / 2,
        (p[1] + q[1] + d * (u[1] - w[1])) / 2,
    )
    first = _tangent_arc(p, u, joint)
    second = _tangent_arc(q, (-w[0], -w[1]), joint)
    if first is None or second is None:
        return None
    return [first, second.reversed()]


def _tangent_arc(p: Point, u: Point, q: Point) -> Segment | None:
    vx, vy = q[0] - p[0], q[1] - p[1]
    if math.hypot(vx, vy) <= SAME_POINT:
        return None
    half = math.atan2(u[0] * vy - u[1] * vx, u[0] * vx + u[1] * vy)
    return Segment(p, q, math.tan(half / 2)) if abs(half) < math.pi / 2 else None


def _ray(curve: Curve, t: float) -> tuple[Point, Point]:
    point, (dx, dy) = curve(t)
    size = math.hypot(dx, dy)
    if not (0 < size < math.inf):
        raise GeometryError("the curve has no direction", point)
    return point, (dx / size, dy / size)


def _gap(curve: Curve, t0: float, t1: float, pieces: list[Segment]) -> float:
    """Farthest the curve stands from some pieces between two places."""
    stations = (t0 + (t1 - t0) * (i + 0.5) / _PROBES for i in range(_PROBES))
    return max(min(piece.distance(curve(t)[0]) for piece in pieces) for t in stations)


def _measured(curve: Curve, path: Path, distance: float) -> Fit:
    n = 12 * len(path.segments)
    gap = max(path.distance(curve(i / n)[0]) for i in range(n + 1))
    kink = max((abs(turn) for _, turn in path.kinks()), default=0.0)
    if gap > distance or kink > FIT_KINK_DEG:
        raise GeometryError(f"arcs stand {gap:.4f} mm off and turn {kink:.3f}°", path.start)
    return Fit(path, gap, kink)


def ellipse(a: float, b: float, start: float, end: float, centre: Point = (0.0, 0.0)) -> Curve:
    """An ellipse of semi-axes ``a`` along x and ``b`` along y, between two parameters (radians)."""

    def at(t: float) -> tuple[Point, Point]:
        angle = start + (end - start) * t
        c, s = math.cos(angle), math.sin(angle)
        way = math.copysign(1.0, end - start)
        return (centre[0] + a * c, centre[1] + b * s), (-way * a * s, way * b * c)

    return at
