"""Parallels of an outline, its arcs kept as arcs.

Distances are positive to the right of travel: outward from an outline that runs counter-clockwise,
into the hole from one that runs clockwise.
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

#: Ends of neighbouring parallels this near (mm) are one point: a tangent joint, to rounding.
_JOINED = 1e-8

#: How far apart (mm) a parallel's distance is proved.
_PROOF_STEP = 1.0


@dataclass(frozen=True)
class RawOffset:
    """The parallel of one piece or one outside corner, before it is cut to its neighbours.

    Args:
        beside: the stretch of the path it runs beside (mm from its start); no length at a corner.
        parallel: the piece, or None where an arc is too tight to have one.
        place: where on the path it comes from.
        cause: what to say when it cannot be.
    """

    beside: tuple[float, float]
    parallel: Segment | None
    place: Point
    cause: str


@dataclass(frozen=True)
class TrimmedOffset:
    """A raw parallel cut to its neighbours.

    Args:
        raw: what it was cut from.
        piece: what is left, or the whole where the cuts would leave nothing.
        begin: where it begins, as a fraction of the raw parallel's length.
        end: where it ends.
    """

    raw: RawOffset
    piece: Segment
    begin: float
    end: float

    @property
    def beside(self) -> tuple[float, float]:
        """The stretch of the path it runs beside (mm from the path's start)."""
        a, b = self.raw.beside
        return (a + self.begin * (b - a), a + self.end * (b - a))


def offset(path: Path, distance: float) -> Path:
    """The parallel of a path, all of it; round at outside corners, sharp at inside ones.

    Every point of it stands at the distance from the path, and every piece of the path has its
    parallel in it. Going back by the same distance gives the path again, but that its sharp
    inside corners come back round.

    Args:
        path: open or closed, free of crossings.
        distance: how far (mm), positive to the right of travel, outward from an outline.

    Raises:
        GeometryError: a hollow is too tight or a piece too short for it, two parts of the path
            stand too near to one another, or it crosses itself; the message says which and where.
    """
    if distance == 0.0:
        return path
    require_simple(path)
    pieces, troubles = trim_offsets(raw_offsets(path, distance), path.closed)
    if troubles:
        raise troubles[0]
    if not pieces:
        raise GeometryError(f"nothing is left of the outline at {abs(distance):g}", path.start)
    track = Path.from_segments([t.piece for t in pieces], closed=path.closed)
    verify_offset(path, track, distance)
    return track


def require_simple(path: Path) -> None:
    """Raise ``GeometryError`` for a path that crosses itself: it has no sides."""
    place = self_intersection(path)
    if place is not None:
        raise GeometryError("the outline crosses or touches itself", place)


def raw_offsets(path: Path, distance: float) -> list[RawOffset]:
    """Beside each piece its parallel and round each outside corner an arc, not yet cut."""
    pieces, joints = path.segments, path.kinks()
    out = []
    for i, piece in enumerate(pieces):
        end_at = path.stations[i + 1]
        out += _beside(piece, (path.stations[i], end_at), distance)
        if i < len(joints):
            corner, turn_deg = joints[i]
            after = pieces[(i + 1) % len(pieces)]
            start, end = offset_point(piece, 1.0, distance), offset_point(after, 0.0, distance)
            if turn_deg * distance > 0 and point_distance(start, end) > _JOINED:
                arc = Segment(start, end, math.tan(math.radians(turn_deg) / 4))
                cause = f"no room round a corner for a parallel at {abs(distance):g}"
                out.append(RawOffset((end_at, end_at), arc, corner, cause))
    return out


def _beside(piece: Segment, where: tuple[float, float], distance: float) -> list[RawOffset]:
    """The parallel of one piece; none where an arc shrinks to its centre, which loses nothing."""
    place = piece.point(0.5)
    moved = Segment(
        offset_point(piece, 0.0, distance), offset_point(piece, 1.0, distance), piece.bulge
    )
    if piece.is_line:
        cause = f"a line of {piece.length:.3f} is too short for a parallel at {abs(distance):g}"
        return [RawOffset(where, moved, place, cause)]
    radius = piece.radius + math.copysign(1.0, piece.bulge) * distance
    if abs(radius * piece.turn) <= _JOINED:
        return []
    cause = f"an arc of radius {piece.radius:.3f} is too tight for a parallel at {abs(distance):g}"
    return [RawOffset(where, moved if radius > 0 else None, place, cause)]


def offset_point(piece: Segment, t: float, distance: float) -> Point:
    """The point at a distance to the right of a piece, at a fraction of its length."""
    (x, y), (tx, ty) = piece.point(t), piece.tangent(t)
    return (x + ty * distance, y - tx * distance)


def trim_offsets(
    raws: Sequence[RawOffset], closed: bool
) -> tuple[list[TrimmedOffset], list[GeometryError]]:
    """Cut each parallel to its neighbours; what could not be cut stays whole and is told."""
    troubles = [GeometryError(r.cause, r.place) for r in raws if r.parallel is None]
    n = len(raws)
    joints: list[Point | None] = [None] * n
    for i in range(n if closed else n - 1):
        pair = (raws[i], raws[(i + 1) % n])
        before, after = pair[0].parallel, pair[1].parallel
        if before is not None and after is not None and n > 1:
            joints[i] = _joint(before, after)
            if joints[i] is None:
                short = pair[0] if before.length < after.length else pair[1]
                troubles.append(GeometryError(short.cause, short.place))
    out = []
    for i, raw in enumerate(raws):
        if raw.parallel is not None:
            cut = _cut(raw, raw.parallel, joints[i - 1], joints[i])
            if cut is None:
                troubles.append(GeometryError(raw.cause, raw.place))
            out.append(cut or TrimmedOffset(raw, raw.parallel, 0.0, 1.0))
    return out, troubles


def _joint(before: Segment, after: Segment) -> Point | None:
    """Where two neighbouring parallels pass into one another, or None."""
    if point_distance(before.end, after.start) <= _JOINED:
        return after.start
    return max(segment_intersections(before, after), key=before.nearest, default=None)


def _cut(
    raw: RawOffset, whole: Segment, begin: Point | None, end: Point | None
) -> TrimmedOffset | None:
    """A parallel between two joints, or None where they leave nothing of it."""
    start, stop = begin or whole.start, end or whole.end
    t0, t1 = whole.nearest(start), whole.nearest(stop)
    if t1 <= t0 or point_distance(start, stop) <= _JOINED:
        return None
    bulge = math.tan(whole.turn * (t1 - t0) / 4) if whole.bulge else 0.0
    return TrimmedOffset(raw, Segment(start, stop, bulge), t0, t1)


def verify_offset(path: Path, track: Path, distance: float) -> None:
    """Hold a parallel to its distance, everywhere.

    Raises:
        GeometryError: it crosses itself or comes nearer to the path, or strays from it.
    """
    place = self_intersection(track)
    if place is not None:
        raise GeometryError(f"no room for a parallel at {abs(distance):g}: it meets itself", place)
    for piece in track.segments:
        n = max(4, math.ceil(piece.length / _PROOF_STEP))
        for i in range(n):
            p = piece.point(i / n)
            stands = path.distance(p)
            if abs(stands - abs(distance)) > OFFSET:
                raise GeometryError(
                    f"the parallel at {abs(distance):g} comes to stand at {stands:.6f}", p
                )
