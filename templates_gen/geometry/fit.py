"""Fit tangent arcs to a curve, as few as a given distance allows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.errors import GeometryError
from templates_gen.geometry.curve import Curve, ellipse, spline_through
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance, rotate
from templates_gen.tolerances import FIT_DISTANCE, FIT_KINK_DEG, SAME_POINT

__all__ = ["Curve", "Fit", "ellipse", "fit", "spline_through"]

#: Points of the curve compared with a biarc: while searching, and to check the result.
_SAMPLES = 16
_CHECK_SAMPLES = 48

#: Targets as shares of the allowed distance, tried in turn. The rest allows for what lies between
#: two samples: a bend too small to be sampled needs a smaller target.
_TARGETS = (0.95, 0.8, 0.5)

#: A biarc with this share of the target deviation is long enough; a longer one saves no arc.
_LONG_ENOUGH = 0.9
_MAX_TRIALS = 40
_MAX_BIARCS = 200


@dataclass(frozen=True)
class Fit:
    """Tangent arcs fitted to a curve, and their measured errors.

    Args:
        path: the open path.
        distance: greatest distance of the curve from the path (mm).
        kink_deg: greatest change of direction at a joint (degrees).
    """

    path: Path
    distance: float
    kink_deg: float


@dataclass(frozen=True)
class _BiarcFit:
    """A biarc fitted to the curve between two parameters.

    Args:
        t0: parameter of its start.
        t1: parameter of its end; both ends lie on the curve.
        arcs: the two arcs.
        tilt: angle (radians) of its end tangent, left of the curve's tangent there.
        deviation: greatest distance of the curve from the arcs (mm), sampled.
    """

    t0: float
    t1: float
    arcs: tuple[Segment, Segment]
    tilt: float
    deviation: float


def fit(curve: Curve, distance: float = FIT_DISTANCE) -> Fit:
    """Fit tangent arcs to a curve, as few as the distance allows.

    The path starts and ends on the curve and tangent to it, so mirrored halves join smoothly.

    Args:
        curve: the curve, with a tangent everywhere.
        distance: greatest distance of the arcs from it (mm).

    Raises:
        GeometryError: the curve has no tangent somewhere, or it has a corner.
    """
    for share in _TARGETS:
        biarcs = _fit_evenly(curve, distance * share)
        worst = max(_deviation(curve, b.t0, b.t1, b.arcs, _CHECK_SAMPLES) for b in biarcs)
        if worst <= distance:
            break
    return _checked(biarcs, worst, distance)


def _fit_evenly(curve: Curve, target: float) -> list[_BiarcFit]:
    """Fit biarcs whose deviations are about equal and at most the target (mm)."""
    biarcs = _fit_greedily(curve, target)
    # The deviation grows as the cube of the length. Spread what the last biarc leaves unused.
    used = len(biarcs) - 1 + (biarcs[-1].deviation / target) ** (1 / 3)
    for spare in (1.0, 1.2, 1.5):
        closer = target * spare * (used / len(biarcs)) ** 3
        if SAME_POINT < closer < target:
            even = _fit_greedily(curve, closer)
            if len(even) == len(biarcs):
                return even
    return biarcs


def _fit_greedily(curve: Curve, distance: float) -> list[_BiarcFit]:
    """Fit biarcs one after another, each as long as the distance (mm) allows."""
    biarcs: list[_BiarcFit] = []
    t, step, tilt = 0.0, 1.0, 0.0
    while t < 1.0:
        if len(biarcs) == _MAX_BIARCS:
            raise GeometryError("the curve bends too sharply to fit arcs", curve(t)[0])
        last = _fit_biarc(curve, t, tilt, 1.0) if t + 2 * step >= 1.0 else None
        if last is None or last.deviation > distance:
            last = _longest_biarc(curve, t, tilt, step, distance)
        biarcs.append(last)
        t, step, tilt = last.t1, last.t1 - t, last.tilt
    return biarcs


def _longest_biarc(curve: Curve, t: float, tilt: float, step: float, distance: float) -> _BiarcFit:
    """Find the longest biarc from ``t`` within the distance (mm); try the length ``step`` first."""
    best, high = None, None
    # Leave at least the same length for the next one, so that the last is no short stub.
    far = (t + 1.0) / 2
    stop = min(far, t + step)
    for _ in range(_MAX_TRIALS):
        trial = _fit_biarc(curve, t, tilt, stop)
        if trial is None or trial.deviation > distance:
            high = stop
        else:
            best = trial
            if stop >= far or trial.deviation >= _LONG_ENOUGH * distance:
                return best
        low = t if best is None else best.t1
        stop = (low + high) / 2 if high is not None else min(far, 2 * stop - t)
    if best is None:
        raise GeometryError("no arc fits the curve", curve(t)[0])
    return best


def _fit_biarc(curve: Curve, t0: float, tilt: float, t1: float) -> _BiarcFit | None:
    """Fit a biarc between two parameters of the curve, or return None if there is none."""
    p, u = _point_and_tangent(curve, t0)
    q, w = _point_and_tangent(curve, t1)
    arcs = _biarc(p, rotate(u, tilt), q, w)
    end_tilt = 0.0
    if arcs is not None and t1 < 1.0:
        end_tilt = _best_end_tilt(arcs, tilt)
        arcs = _biarc(p, rotate(u, tilt), q, rotate(w, end_tilt))
    if arcs is None:
        return None
    return _BiarcFit(t0, t1, arcs, end_tilt, _deviation(curve, t0, t1, arcs, _SAMPLES))


def _best_end_tilt(arcs: tuple[Segment, Segment], tilt: float) -> float:
    """Choose the tilt at the end of a biarc that lets the curve cross its arcs to both sides.

    Where the curvature grows evenly, by g per millimetre, arcs of length h / 2 deviate least when
    their joints lie on the curve and their tangents there are tilted by -g h² / 48: a third of the
    deviation of untilted ones. The curvatures of two arcs that start with ``tilt`` and end without
    tilt differ by 2 g h / 3 + 4 tilt / h, because both share the double integral of curvature.
    """
    first, second = arcs
    h = first.length + second.length
    step = second.turn / second.length - first.turn / first.length
    return -(step * h - 4 * tilt) / 32


def _biarc(p: Point, u: Point, q: Point, w: Point) -> tuple[Segment, Segment] | None:
    """Join two points with given unit tangents by a biarc with equal legs, or return None."""
    vx, vy = q[0] - p[0], q[1] - p[1]
    # The leg d solves |v - d (u + w)| = 2 d, so that the arcs are tangent at their joint.
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


def _tangent_arc(p: Point, u: Point, q: Point) -> Segment | None:
    """Make the arc from ``p`` with unit tangent ``u`` to ``q``; a line if it has no height."""
    vx, vy = q[0] - p[0], q[1] - p[1]
    if math.hypot(vx, vy) <= SAME_POINT:
        return None
    half = math.atan2(u[0] * vy - u[1] * vx, u[0] * vx + u[1] * vy)
    if abs(half) >= math.pi / 2:
        return None
    bulge = math.tan(half / 2)
    height = abs(bulge) * math.hypot(vx, vy) / 2
    return Segment(p, q, bulge if height > SAME_POINT else 0.0)


def _point_and_tangent(curve: Curve, t: float) -> tuple[Point, Point]:
    """Evaluate a curve: its point (mm) and unit tangent."""
    point, (dx, dy) = curve(t)
    size = math.hypot(dx, dy)
    if not (0 < size < math.inf):
        raise GeometryError("the curve has no tangent", point)
    return point, (dx / size, dy / size)


def _deviation(curve: Curve, t0: float, t1: float, arcs: Sequence[Segment], samples: int) -> float:
    """Measure the greatest distance (mm) of the curve between two parameters from arcs."""
    stations = (t0 + (t1 - t0) * (i + 0.5) / samples for i in range(samples))
    points = (curve(t)[0] for t in stations)
    return max(min(arc.distance(p) for arc in arcs) for p in points)


def _checked(biarcs: list[_BiarcFit], deviation: float, distance: float) -> Fit:
    """Join biarcs to a path and check its deviation, its radii and its kinks."""
    path = Path.from_segments(_merged([a for b in biarcs for a in b.arcs]), closed=False)
    for arc in path.segments:
        if arc.radius < distance:
            raise GeometryError("the curve has a corner; draw it as two curves", arc.start)
    kink = max((abs(turn) for _, turn in path.kinks()), default=0.0)
    if deviation > distance or kink > FIT_KINK_DEG:
        raise GeometryError(
            f"the fitted arcs deviate by {deviation:.4f} mm with kinks of {kink:.3f}°", path.start
        )
    return Fit(path, deviation, kink)


def _merged(arcs: list[Segment]) -> list[Segment]:
    """Merge neighbouring arcs of one circle and neighbouring collinear lines."""
    out = arcs[:1]
    for arc in arcs[1:]:
        merged = _merge(out[-1], arc)
        out[-1:] = [out[-1], arc] if merged is None else [merged]
    return out


def _merge(a: Segment, b: Segment) -> Segment | None:
    """Merge two neighbours into one piece, or return None if they are not parts of one."""
    turn = a.turn + b.turn
    if abs(turn) > math.pi or point_distance(a.start, b.end) <= SAME_POINT:
        return None
    whole = Segment(a.start, b.end, math.tan(turn / 4))
    drift = abs(math.remainder(whole.heading(0.0) - a.heading(0.0), math.tau))
    return whole if drift <= 1e-9 and whole.distance(a.end) <= SAME_POINT else None
