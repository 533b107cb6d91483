"""Measuring outlines: what lies inside, where they cross, how near they come, how tight they turn.

Everything is worked out from the lines and arcs themselves, never from a polygon in their place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import Enum
from typing import NamedTuple

from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Box, Point, Segment, hypot
from templates_gen.tolerances import SAME_POINT

#: Two arcs that only touch meet twice, this near (mm) to one another, for want of digits.
_TOUCH = 1e-6

#: Beyond this radius (mm) a crossing reckoned from the centre is made good, by so many steps.
_FAR = 1e4
_STEPS = 40


class Where(Enum):
    """Where a point stands to a closed outline."""

    INSIDE = "inside"
    ON = "on"
    OUTSIDE = "outside"


class Gap(NamedTuple):
    """How near two outlines come.

    Args:
        distance: the least distance (mm).
        here: where that is on the first.
        there: where that is on the second.
    """

    distance: float
    here: Point
    there: Point


def locate(path: Path, p: Point, tolerance: float = SAME_POINT) -> Where:
    """Whether a point is inside a closed outline, outside it or on it.

    Args:
        path: the outline, whichever way it runs.
        p: the point (mm).
        tolerance: as near as this (mm) is on it.
    """
    if not path.closed:
        raise ValueError("an open path has no inside")
    if path.distance(p) <= tolerance:
        return Where.ON
    swept = sum(_swept(piece, p) for piece in path.segments)
    return Where.INSIDE if round(swept / math.tau) else Where.OUTSIDE


def _swept(piece: Segment, p: Point) -> float:
    """Angle (radians) by which an eye at ``p``, not on the piece, turns to follow it."""
    ax, ay = piece.start[0] - p[0], piece.start[1] - p[1]
    bx, by = piece.end[0] - p[0], piece.end[1] - p[1]
    angle = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    if piece.is_line or piece.outside(p) >= 0:
        return angle
    # From within its circle an arc only ever runs one way round the eye.
    way = math.copysign(1.0, piece.bulge)
    return way * ((way * angle) % math.tau)


# --- crossings -----------------------------------------------------------------------------------


def meet(a: Segment, b: Segment) -> list[Point]:
    """Every point two pieces share; of a stretch they share, its two ends."""
    if _apart(a.box, b.box) > SAME_POINT:
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
    # Ends first: where one piece ends on the other, its own coordinates are the best we have.
    if any(_FAR < piece.radius < math.inf for piece in (a, b)):
        flat = max(a, b, key=lambda piece: piece.radius)
        found = [_polished(a, b, p) for p in (*found, flat.start, flat.end)]
    for p in (a.start, a.end, b.start, b.end, *found):
        shared = a.distance(p) <= SAME_POINT and b.distance(p) <= SAME_POINT
        if shared and all(hypot(p, q) > _TOUCH for q in points):
            points.append(p)
    return points


def _apart(a: Box, b: Box) -> float:
    """Distance (mm) between two upright rectangles, 0 where they overlap."""
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


def _polished(a: Segment, b: Segment, p: Point) -> Point:
    """The crossing Newton's steps lead to from ``p``: a far centre leaves too few digits."""
    for _ in range(_STEPS):
        off_a, (ax, ay) = _off(a, p)
        off_b, (bx, by) = _off(b, p)
        cross = ax * by - ay * bx
        if cross == 0.0 or max(abs(off_a), abs(off_b)) < SAME_POINT / 1e4:
            break
        p = (p[0] - (off_a * by - off_b * ay) / cross, p[1] - (ax * off_b - bx * off_a) / cross)
    return p


def _off(piece: Segment, p: Point) -> tuple[float, Point]:
    """How far a point is off a piece's line or circle, and which way that grows."""
    if piece.is_line:
        tx, ty = piece.tangent(0.5)
        return (p[0] - piece.start[0]) * ty - (p[1] - piece.start[1]) * tx, (ty, -tx)
    dx, dy = p[0] - piece.centre[0], p[1] - piece.centre[1]
    size = math.hypot(dx, dy)
    return piece.outside(p), (dx / size, dy / size) if size else (1.0, 0.0)


def self_crossing(path: Path) -> Point | None:
    """The first place where a path crosses or touches itself, or None."""
    pieces = path.segments
    last = len(pieces) - 1
    for i, a in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            joints = [a.end] if j == i + 1 else []
            if path.closed and i == 0 and j == last:
                joints.append(a.start)
            for p in meet_off(a, pieces[j], joints):
                return p
    return None


def meet_off(a: Segment, b: Segment, joints: Sequence[Point]) -> list[Point]:
    """Every point two pieces share, but for the joints they are known to share."""
    return [p for p in meet(a, b) if all(hypot(p, joint) > _TOUCH for joint in joints)]


# --- nearness and tightness ----------------------------------------------------------------------


def gap(a: Path, b: Path) -> Gap:
    """The least distance between two paths, and where; 0 where they meet."""
    best = Gap(math.inf, a.start, b.start)
    for p in a.segments:
        for q in b.segments:
            if _apart(p.box, q.box) < best.distance:
                best = min(best, _piece_gap(p, q), key=lambda g: g.distance)
    return best


def _piece_gap(a: Segment, b: Segment) -> Gap:
    shared = meet(a, b)
    if shared:
        return Gap(0.0, shared[0], shared[0])
    # Nearest where an end is, or where both stand square to the line between them.
    pairs = [Gap(b.distance(p), p, b.point(b.nearest(p))) for p in _likely(a, b)]
    pairs += [Gap(a.distance(p), a.point(a.nearest(p)), p) for p in _likely(b, a)]
    return min(pairs, key=lambda g: g.distance)


def _likely(a: Segment, b: Segment) -> list[Point]:
    """Points of ``a`` among which is the nearest to ``b``, unless an end of ``b`` is."""
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
