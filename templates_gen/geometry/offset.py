"""Offset paths at a distance, arcs staying arcs (parallel curves).

Distances are positive to the right of travel: outward for a counter-clockwise path, inward for a
clockwise one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.errors import GeometryError
from templates_gen.geometry.measure import segment_intersections, self_intersection
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance
from templates_gen.tolerances import OFFSET

#: Ends of neighbouring offset pieces this near (mm) are one point: a tangent joint, to rounding.
_JOINED = 1e-8

#: Spacing (mm) of the points at which an offset path's distance is verified.
_CHECK_STEP = 1.0


@dataclass(frozen=True)
class RawOffset:
    """The offset of one piece, or the arc round one outside corner, before trimming.

    Args:
        beside: span of the path it is offset from (mm from the start); of zero length at a corner.
        parallel: the offset piece, or None where an arc is too tight to have one.
        place: the point of the path it is offset from.
        cause: error message for when it cannot be made.
    """

    beside: tuple[float, float]
    parallel: Segment | None
    place: Point
    cause: str


@dataclass(frozen=True)
class TrimmedOffset:
    """A raw offset trimmed at its neighbours.

    Args:
        raw: the raw offset.
        piece: what trimming leaves, or all of it where trimming would leave nothing.
        begin: where it starts, as a fraction of the raw offset's length.
        end: where it ends.
    """

    raw: RawOffset
    piece: Segment
    begin: float
    end: float

    @property
    def beside(self) -> tuple[float, float]:
        """Span of the path it is offset from (mm from the path's start)."""
        a, b = self.raw.beside
        return (a + self.begin * (b - a), a + self.end * (b - a))


def offset(path: Path, distance: float) -> Path:
    """Offset a path: round at outside corners, sharp at inside ones.

    Every point of the offset is at the distance from the path, and every piece of the path has its
    own offset piece. Offsetting back by the same distance restores the path, except that sharp
    inside corners come back rounded.

    Args:
        path: open or closed, without self-intersections.
        distance: mm, positive to the right of travel (outward for a counter-clockwise path).

    Raises:
        GeometryError: a concave arc is too tight or a piece too short, two parts of the path are
            too close, or it intersects itself; the message says which and where.
    """
    if distance == 0.0:
        return path
    require_simple(path)
    pieces, errors = trim_offsets(raw_offsets(path, distance), path.closed)
    if errors:
        raise errors[0]
    if not pieces:
        raise GeometryError(f"an offset of {abs(distance):g} leaves nothing", path.start)
    track = Path.from_segments([t.piece for t in pieces], closed=path.closed)
    verify_offset(path, track, distance)
    return track


def require_simple(path: Path) -> None:
    """Raise ``GeometryError`` for a path that intersects itself: it has no sides."""
    place = self_intersection(path)
    if place is not None:
        raise GeometryError("the outline crosses or touches itself", place)


def raw_offsets(path: Path, distance: float) -> list[RawOffset]:
    """Offset each piece and draw an arc round each outside corner, without trimming."""
    pieces, joints = path.segments, path.kinks()
    out = []
    for i, piece in enumerate(pieces):
        end_at = path.stations[i + 1]
        out += _offset_piece(piece, (path.stations[i], end_at), distance)
        if i < len(joints):
            corner, turn_deg = joints[i]
            after = pieces[(i + 1) % len(pieces)]
            start, end = offset_point(piece, 1.0, distance), offset_point(after, 0.0, distance)
            if turn_deg * distance > 0 and point_distance(start, end) > _JOINED:
                arc = Segment(start, end, math.tan(math.radians(turn_deg) / 4))
                cause = f"no room at a corner for an offset of {abs(distance):g}"
                out.append(RawOffset((end_at, end_at), arc, corner, cause))
    return out


def _offset_piece(piece: Segment, where: tuple[float, float], distance: float) -> list[RawOffset]:
    """Offset one piece; nothing is left of an arc that shrinks to its centre."""
    place = piece.point(0.5)
    moved = Segment(
        offset_point(piece, 0.0, distance), offset_point(piece, 1.0, distance), piece.bulge
    )
    if piece.is_line:
        cause = f"a line of {piece.length:.3f} is too short for an offset of {abs(distance):g}"
        return [RawOffset(where, moved, place, cause)]
    radius = piece.radius + math.copysign(1.0, piece.bulge) * distance
    if abs(radius * piece.turn) <= _JOINED:
        return []
    cause = f"an arc of radius {piece.radius:.3f} is too tight for an offset of {abs(distance):g}"
    return [RawOffset(where, moved if radius > 0 else None, place, cause)]


def offset_point(piece: Segment, t: float, distance: float) -> Point:
    """Offset the point at a fraction of a piece's length, to the right of travel (mm)."""
    (x, y), (tx, ty) = piece.point(t), piece.tangent(t)
    return (x + ty * distance, y - tx * distance)


def trim_offsets(
    raws: Sequence[RawOffset], closed: bool
) -> tuple[list[TrimmedOffset], list[GeometryError]]:
    """Trim raw offsets at their neighbours.

    Returns:
        The offsets, those that cannot be trimmed left whole, and an error for each such case.
    """
    errors = [GeometryError(r.cause, r.place) for r in raws if r.parallel is None]
    n = len(raws)
    joints: list[Point | None] = [None] * n
    for i in range(n if closed else n - 1):
        pair = (raws[i], raws[(i + 1) % n])
        before, after = pair[0].parallel, pair[1].parallel
        if before is not None and after is not None and n > 1:
            joints[i] = _joint(before, after)
            if joints[i] is None:
                short = pair[0] if before.length < after.length else pair[1]
                errors.append(GeometryError(short.cause, short.place))
    out = []
    for i, raw in enumerate(raws):
        if raw.parallel is not None:
            cut = _trim(raw, raw.parallel, joints[i - 1], joints[i])
            if cut is None:
                errors.append(GeometryError(raw.cause, raw.place))
            out.append(cut or TrimmedOffset(raw, raw.parallel, 0.0, 1.0))
    return out, errors


def _joint(before: Segment, after: Segment) -> Point | None:
    """Find where two neighbouring offsets meet, or None."""
    if point_distance(before.end, after.start) <= _JOINED:
        return after.start
    return max(segment_intersections(before, after), key=before.nearest, default=None)


def _trim(
    raw: RawOffset, whole: Segment, begin: Point | None, end: Point | None
) -> TrimmedOffset | None:
    """Trim an offset to two joints, or return None if nothing is left."""
    start, stop = begin or whole.start, end or whole.end
    t0, t1 = whole.nearest(start), whole.nearest(stop)
    if t1 <= t0 or point_distance(start, stop) <= _JOINED:
        return None
    bulge = math.tan(whole.turn * (t1 - t0) / 4) if whole.bulge else 0.0
    return TrimmedOffset(raw, Segment(start, stop, bulge), t0, t1)


def verify_offset(path: Path, track: Path, distance: float) -> None:
    """Verify that an offset path is at its distance everywhere.

    Args:
        path: the path.
        track: its offset.
        distance: the distance (mm); its sign is ignored.

    Raises:
        GeometryError: the offset intersects itself, or comes too near or too far.
    """
    place = self_intersection(track)
    if place is not None:
        raise GeometryError(f"no room for an offset of {abs(distance):g}: it meets itself", place)
    for piece in track.segments:
        n = max(4, math.ceil(piece.length / _CHECK_STEP))
        for i in range(n):
            p = piece.point(i / n)
            measured = path.distance(p)
            if abs(measured - abs(distance)) > OFFSET:
                raise GeometryError(f"the offset of {abs(distance):g} measures {measured:.6f}", p)
