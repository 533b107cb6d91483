"""Lines and arcs in place of a free curve: tangent arcs, few of them, that stand close to it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.errors import GeometryError
from templates_gen.geometry.curve import Curve, ellipse, spline_through
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance
from templates_gen.tolerances import FIT_DISTANCE, FIT_KINK_DEG, SAME_POINT

__all__ = ["Curve", "Fit", "ellipse", "fit", "spline_through"]

#: Places of a pair of arcs compared with the curve: while seeking it, and to prove the whole.
_PROBES = 16
_PROOFS = 48

#: Share of the distance aimed at; the rest is what lies between two probes. Where the curve has a
#: turn too small to see among the probes, more lies there, and the next is aimed at.
_AIMS = (0.95, 0.8, 0.5)

#: A pair this close under the aim is long enough; seeking further saves no arc.
_LONG_ENOUGH = 0.9
_SEEKS = 40
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


@dataclass(frozen=True)
class _Pair:
    """Two arcs that follow the curve from ``t0`` to ``t1``, at most ``gap`` off.

    They end on the curve, but ``lean`` (radians) to the left of its direction there.
    """

    t0: float
    t1: float
    arcs: tuple[Segment, Segment]
    lean: float
    gap: float


def fit(curve: Curve, distance: float = FIT_DISTANCE) -> Fit:
    """Follow a curve with tangent arcs, as few as the distance allows.

    It starts and ends on the curve and in its direction, so mirrored halves meet without a kink.

    Args:
        curve: the curve, with a direction everywhere.
        distance: how far the arcs may stand from it (mm).

    Raises:
        GeometryError: the curve has no direction somewhere, or it has a corner.
    """
    for share in _AIMS:
        pairs = _fewest(curve, distance * share)
        gap = _farthest(curve, pairs)
        if gap <= distance:
            break
    return _measured(pairs, gap, distance)


def _fewest(curve: Curve, aim: float) -> list[_Pair]:
    """Pairs of arcs that stand no farther off than is aimed at, all about equally far."""
    pairs = _follow(curve, aim)
    # A pair's gap grows as the cube of its length. Spread what the last one left unused.
    used = len(pairs) - 1 + (pairs[-1].gap / aim) ** (1 / 3)
    for spare in (1.0, 1.2, 1.5):
        closer = aim * spare * (used / len(pairs)) ** 3
        if SAME_POINT < closer < aim:
            even = _follow(curve, closer)
            if len(even) == len(pairs):
                return even
    return pairs


def _follow(curve: Curve, distance: float) -> list[_Pair]:
    """Pairs of arcs one after another, each as long as it can be."""
    pairs: list[_Pair] = []
    t, step, lean = 0.0, 1.0, 0.0
    while t < 1.0:
        if len(pairs) == _MOST_PAIRS:
            raise GeometryError("the curve is too sharp for arcs to follow", curve(t)[0])
        last = _pair(curve, t, lean, 1.0) if t + 2 * step >= 1.0 else None
        if last is None or last.gap > distance:
            last = _longest(curve, t, lean, step, distance)
        pairs.append(last)
        t, step, lean = last.t1, last.t1 - t, last.lean
    return pairs


def _longest(curve: Curve, t: float, lean: float, step: float, distance: float) -> _Pair:
    """The longest pair from ``t`` that keeps the distance; ``step`` is where to try first."""
    best, high = None, None
    # It leaves at least its own length to go, so that no stub is left over at the end.
    far = (t + 1.0) / 2
    stop = min(far, t + step)
    for _ in range(_SEEKS):
        pair = _pair(curve, t, lean, stop)
        if pair is None or pair.gap > distance:
            high = stop
        else:
            best = pair
            if stop >= far or pair.gap >= _LONG_ENOUGH * distance:
                return best
        low = t if best is None else best.t1
        stop = (low + high) / 2 if high is not None else min(far, 2 * stop - t)
    if best is None:
        raise GeometryError("no arc can follow the curve", curve(t)[0])
    return best


def _pair(curve: Curve, t0: float, lean: float, t1: float) -> _Pair | None:
    """Two arcs from one place on the curve to another, or None where none will go."""
    p, u = _ray(curve, t0)
    q, w = _ray(curve, t1)
    arcs = _biarc(p, _turned(u, lean), q, w)
    on = 0.0
    if arcs is not None and t1 < 1.0:
        on = _best_lean(arcs, lean)
        arcs = _biarc(p, _turned(u, lean), q, _turned(w, on))
    if arcs is None:
        return None
    return _Pair(t0, t1, arcs, on, _gap(curve, t0, t1, arcs, _PROBES))


def _best_lean(arcs: tuple[Segment, Segment], lean: float) -> float:
    """How far to lean at the end of a pair so that the curve runs to and fro across its arcs.

    Where curvature grows evenly, by g a millimetre, arcs of length h / 2 stand least off when
    they meet on the curve and lean from it by -g h² / 48; three times nearer than when they meet
    in its direction. Two arcs that start at ``lean`` and end without one differ in curvature by
    2 g h / 3 + 4 lean / h: it is the double integral of curvature that both must share.
    """
    first, second = arcs
    h = first.length + second.length
    step = second.turn / second.length - first.turn / first.length
    return -(step * h - 4 * lean) / 32


def _biarc(p: Point, u: Point, q: Point, w: Point) -> tuple[Segment, Segment] | None:
    """Two tangent arcs with equal legs from one point and direction to another, or None."""
    vx, vy = q[0] - p[0], q[1] - p[1]
    # d solves |v - d (u + w)| = 2 d, the condition that both arcs share the joint's tangent.
    sx, sy = u[0] + w[0], u[1] + w[1]
    a = 4 - sx * sx - sy * sy
    b = vx * sx + vy * sy
    c = vx * vx + vy * vy
    root = math.sqrt(max(0.0, b * b + a * c))
    if b + root <= 0:
        return None
    d = c / (b + root)
    joint = ((p[0] + q[0] + d * (u[0] - w[0])) / 2, (p[1] + q[1] + d * (u[1] - w[1])) / 2)
    first = _tangent_arc(p, u, joint)
    second = _tangent_arc(q, (-w[0], -w[1]), joint)
    return None if first is None or second is None else (first, second.reversed())


def _turned(way: Point, angle: float) -> Point:
    c, s = math.cos(angle), math.sin(angle)
    return (way[0] * c - way[1] * s, way[0] * s + way[1] * c)


def _tangent_arc(p: Point, u: Point, q: Point) -> Segment | None:
    """The arc from ``p`` in the direction ``u`` to ``q``; a line where it stands no way off."""
    vx, vy = q[0] - p[0], q[1] - p[1]
    if math.hypot(vx, vy) <= SAME_POINT:
        return None
    half = math.atan2(u[0] * vy - u[1] * vx, u[0] * vx + u[1] * vy)
    if abs(half) >= math.pi / 2:
        return None
    bulge = math.tan(half / 2)
    height = abs(bulge) * math.hypot(vx, vy) / 2
    return Segment(p, q, bulge if height > SAME_POINT else 0.0)


def _ray(curve: Curve, t: float) -> tuple[Point, Point]:
    point, (dx, dy) = curve(t)
    size = math.hypot(dx, dy)
    if not (0 < size < math.inf):
        raise GeometryError("the curve has no direction", point)
    return point, (dx / size, dy / size)


def _gap(curve: Curve, t0: float, t1: float, arcs: Sequence[Segment], probes: int) -> float:
    """Farthest the curve stands from its own arcs between two places."""
    stations = (t0 + (t1 - t0) * (i + 0.5) / probes for i in range(probes))
    points = (curve(t)[0] for t in stations)
    return max(min(arc.distance(p) for arc in arcs) for p in points)


def _farthest(curve: Curve, pairs: list[_Pair]) -> float:
    """Farthest the curve stands from all its arcs, looked at closely."""
    return max(_gap(curve, p.t0, p.t1, p.arcs, _PROOFS) for p in pairs)


def _measured(pairs: list[_Pair], gap: float, distance: float) -> Fit:
    path = Path.from_segments(_merged([a for p in pairs for a in p.arcs]), closed=False)
    for arc in path.segments:
        if arc.radius < distance:
            raise GeometryError("the curve has a corner; draw it as two curves", arc.start)
    kink = max((abs(turn) for _, turn in path.kinks()), default=0.0)
    if gap > distance or kink > FIT_KINK_DEG:
        raise GeometryError(f"arcs stand {gap:.4f} mm off and turn {kink:.3f}°", path.start)
    return Fit(path, gap, kink)


def _merged(arcs: list[Segment]) -> list[Segment]:
    """One arc for neighbours of one circle, one line for neighbours of one line."""
    out = arcs[:1]
    for arc in arcs[1:]:
        whole = _whole(out[-1], arc)
        if whole is None:
            out.append(arc)
        else:
            out[-1] = whole
    return out


def _whole(a: Segment, b: Segment) -> Segment | None:
    """The one piece that two neighbours are parts of, or None."""
    turn = a.turn + b.turn
    if abs(turn) > math.pi or point_distance(a.start, b.end) <= SAME_POINT:
        return None
    whole = Segment(a.start, b.end, math.tan(turn / 4))
    drift = abs(math.remainder(whole.heading(0.0) - a.heading(0.0), math.tau))
    return whole if drift <= 1e-9 and whole.distance(a.end) <= SAME_POINT else None
