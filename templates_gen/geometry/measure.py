"""Measure paths: point in polygon, intersections, least distance.

All results are computed from the lines and arcs themselves, not from a flattened polygon.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import Enum
from typing import NamedTuple

from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Box, Point, Segment, point_distance
from templates_gen.tolerances import SAME_POINT

#: Two arcs that only touch have, by rounding, two intersections no farther apart than this (mm).
_TOUCH = 1e-6

#: Intersections of arcs above this radius (mm) are refined by Newton's method, in so many steps.
_LARGE_RADIUS = 1e4
_NEWTON_STEPS = 40


class PointLocation(Enum):
    """Position of a point relative to a closed path."""

    INSIDE = "inside"
    ON = "on"
    OUTSIDE = "outside"


class Gap(NamedTuple):
    """The least distance between two paths.

    Args:
        distance: the least distance (mm).
        here: the nearest point of the first path.
        there: the nearest point of the second.
    """

    distance: float
    here: Point
    there: Point


def locate(path: Path, p: Point, tolerance: float = SAME_POINT) -> PointLocation:
    """Locate a point inside, on or outside a closed path, by its winding number.

    Args:
        path: the closed path, in either direction.
        p: the point (mm).
        tolerance: points within this distance (mm) are on the path.

    Raises:
        ValueError: the path is open.
    """
    if not path.closed:
        raise ValueError("an open path has no inside")
    if path.distance(p) <= tolerance:
        return PointLocation.ON
    winding = sum(_winding_angle(piece, p) for piece in path.segments)
    return PointLocation.INSIDE if round(winding / math.tau) else PointLocation.OUTSIDE


def _winding_angle(piece: Segment, p: Point) -> float:
    """Calculate the angle (radians) through which a piece winds round a point not on it."""
    ax, ay = piece.start[0] - p[0], piece.start[1] - p[1]
    bx, by = piece.end[0] - p[0], piece.end[1] - p[1]
    angle = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    if piece.is_line or piece.outside(p) >= 0:
        return angle
    # Seen from inside its circle an arc winds one way only.
    sign = math.copysign(1.0, piece.bulge)
    return sign * ((sign * angle) % math.tau)


# --- intersections -------------------------------------------------------------------------------


def segment_intersections(a: Segment, b: Segment) -> list[Point]:
    """Find the points two pieces share; of a shared stretch, its two ends."""
    if _box_distance(a.box, b.box) > SAME_POINT:
        return []
    if a.is_line and b.is_line:
        found = _line_line(a, b)
    elif a.is_line:
        found = _line_arc(a, b)
    elif b.is_line:
        found = _line_arc(b, a)
    else:
        found = _arc_arc(a, b)
    points: list[Point] = []
    # Ends first: where one piece ends on the other, its own coordinates are the most exact.
    if any(_LARGE_RADIUS < piece.radius < math.inf for piece in (a, b)):
        flat = max(a, b, key=lambda piece: piece.radius)
        found = [_refined(a, b, p) for p in (*found, flat.start, flat.end)]
    for p in (a.start, a.end, b.start, b.end, *found):
        shared = a.distance(p) <= SAME_POINT and b.distance(p) <= SAME_POINT
        if shared and _is_new(p, points):
            points.append(p)
    return points


def _box_distance(a: Box, b: Box) -> float:
    """Calculate the distance (mm) between two bounding boxes, 0 where they overlap."""
    dx = max(a[0] - b[2], b[0] - a[2], 0.0)
    dy = max(a[1] - b[3], b[1] - a[3], 0.0)
    return math.hypot(dx, dy)


def _line_line(a: Segment, b: Segment) -> list[Point]:
    ux, uy = a.end[0] - a.start[0], a.end[1] - a.start[1]
    vx, vy = b.end[0] - b.start[0], b.end[1] - b.start[1]
    cross = ux * vy - uy * vx
    if cross == 0.0:
        return []
    t = ((b.start[0] - a.start[0]) * vy - (b.start[1] - a.start[1]) * vx) / cross
    return [(a.start[0] + t * ux, a.start[1] + t * uy)]


def _line_arc(line: Segment, arc: Segment) -> list[Point]:
    (cx, cy), (ux, uy) = arc.centre, line.tangent(0.5)
    along = (cx - line.start[0]) * ux + (cy - line.start[1]) * uy
    aside = abs((cx - line.start[0]) * uy - (cy - line.start[1]) * ux)
    half = math.sqrt(max(0.0, (arc.radius - aside) * (arc.radius + aside)))
    foot = (line.start[0] + along * ux, line.start[1] + along * uy)
    return [(foot[0] + s * ux, foot[1] + s * uy) for s in (-half, half)]


def _arc_arc(a: Segment, b: Segment) -> list[Point]:
    (ax, ay), (bx, by) = a.centre, b.centre
    apart = math.hypot(bx - ax, by - ay)
    if apart <= SAME_POINT:
        return []
    ux, uy = (bx - ax) / apart, (by - ay) / apart
    along = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2
    half = math.sqrt(max(0.0, (a.radius - along) * (a.radius + along)))
    foot = (ax + along * ux, ay + along * uy)
    return [(foot[0] - s * uy, foot[1] + s * ux) for s in (-half, half)]


def _refined(a: Segment, b: Segment, p: Point) -> Point:
    """Refine an intersection by Newton's method: a distant centre costs digits."""
    for _ in range(_NEWTON_STEPS):
        off_a, (ax, ay) = _signed_distance(a, p)
        off_b, (bx, by) = _signed_distance(b, p)
        cross = ax * by - ay * bx
        if cross == 0.0 or max(abs(off_a), abs(off_b)) < SAME_POINT / 1e4:
            break
        p = (p[0] - (off_a * by - off_b * ay) / cross, p[1] - (ax * off_b - bx * off_a) / cross)
    return p


def _signed_distance(piece: Segment, p: Point) -> tuple[float, Point]:
    """Calculate a point's signed distance (mm) from a piece's line or circle, and its gradient."""
    if piece.is_line:
        tx, ty = piece.tangent(0.5)
        return (p[0] - piece.start[0]) * ty - (p[1] - piece.start[1]) * tx, (ty, -tx)
    dx, dy = p[0] - piece.centre[0], p[1] - piece.centre[1]
    size = math.hypot(dx, dy)
    return piece.outside(p), (dx / size, dy / size) if size else (1.0, 0.0)


def _is_new(p: Point, known: Sequence[Point]) -> bool:
    """Report whether a point differs from all known ones."""
    return all(point_distance(p, q) > _TOUCH for q in known)


def self_intersection(path: Path) -> Point | None:
    """Find the first point where a path crosses or touches itself, or None."""
    pieces = path.segments
    last = len(pieces) - 1
    for i, a in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            joints = [a.end] if j == i + 1 else []
            if path.closed and i == 0 and j == last:
                joints.append(a.start)
            for p in intersections_except(a, pieces[j], joints):
                return p
    return None


def intersections_except(a: Segment, b: Segment, joints: Sequence[Point]) -> list[Point]:
    """Find the points two pieces share, other than their known joints."""
    return [p for p in segment_intersections(a, b) if _is_new(p, joints)]


# --- least distance ----------------------------------------------------------------------


def gap(a: Path, b: Path) -> Gap:
    """Find the least distance between two paths and the points where it is; 0 where they meet."""
    best = Gap(math.inf, a.start, b.start)
    for p in a.segments:
        for q in b.segments:
            if _box_distance(p.box, q.box) < best.distance:
                best = min(best, _segment_gap(p, q), key=lambda g: g.distance)
    return best


def _segment_gap(a: Segment, b: Segment) -> Gap:
    """Find the least distance between two pieces."""
    shared = segment_intersections(a, b)
    if shared:
        return Gap(0.0, shared[0], shared[0])
    # The least distance is at an end, or where both are square to the line between the points.
    pairs = [Gap(b.distance(p), p, b.point(b.nearest(p))) for p in _candidates(a, b)]
    pairs += [Gap(a.distance(p), a.point(a.nearest(p)), p) for p in _candidates(b, a)]
    return min(pairs, key=lambda g: g.distance)


def _candidates(a: Segment, b: Segment) -> list[Point]:
    """List the points of ``a`` that may be nearest to ``b``, apart from those at ends of ``b``."""
    points = [a.start, a.end]
    if a.is_line and not b.is_line:
        points.append(a.point(a.nearest(b.centre)))
    elif not a.is_line and not b.is_line:
        (ax, ay), (bx, by) = a.centre, b.centre
        for angle in (math.atan2(by - ay, bx - ax), math.atan2(ay - by, ax - bx)):
            t = a.fraction_at(angle)
            if t is not None:
                points.append(a.point(t))
    return points
