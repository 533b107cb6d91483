"""Find what a round cutter can cut of a path, and the corners it cannot reach."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.errors import GeometryError
from templates_gen.geometry.measure import intersections_except
from templates_gen.geometry.offset import (
    TrimmedOffset,
    offset,
    raw_offsets,
    require_simple,
    trim_offsets,
    verify_offset,
)
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance
from templates_gen.tolerances import OFFSET, SAME_POINT

#: A piece of the offset is removed if it is nearer to the path by this much (mm).
_NEARER = 1e-9

#: Ends of the remaining pieces this near (mm) are joined.
_JOINED = 1e-7

#: Reduction of the radius (mm) for a slot exactly as wide as the cutter.
_RELIEF = OFFSET

#: Depth (mm) from which wood left in a corner is visible.
VISIBLE_DEPTH = 0.01

#: Samples of a span the cutter does not reach, and bisections to refine the deepest.
_SAMPLES = 32
_BISECTIONS = 40


@dataclass(frozen=True)
class UnreachedPlace:
    """A place a round cutter does not reach.

    Args:
        place: the point of the path farthest from the cutter.
        depth: its distance (mm) from the cutter.
    """

    place: Point
    depth: float


@dataclass(frozen=True)
class CutterReach:
    """What a round cutter can cut of a path.

    Args:
        tracks: paths of the cutter's centre, the longest first.
        edges: the edge it cuts, one per track.
        unreached: the places it does not reach, the deepest first.
    """

    tracks: tuple[Path, ...]
    edges: tuple[Path, ...]
    unreached: tuple[UnreachedPlace, ...]


def cutter_reach(path: Path, radius: float, shows: float = VISIBLE_DEPTH) -> CutterReach:
    """Find what a round cutter can cut along one side of a path.

    Args:
        path: open or closed, without self-intersections.
        radius: the cutter's radius (mm), positive to cut on the right of travel (outside a
            counter-clockwise path), negative on the left (inside it).
        shows: least depth (mm) of an unreached place that is reported.

    Raises:
        GeometryError: the cutter fits nowhere, or the path intersects itself.
    """
    require_simple(path)
    try:
        return _reach(path, radius, shows)
    except GeometryError:
        # In a slot exactly as wide as the cutter both tracks coincide: reduce the radius a little.
        return _reach(path, math.copysign(abs(radius) - _RELIEF, radius), shows)


def _reach(path: Path, radius: float, shows: float) -> CutterReach:
    pieces, _ = trim_offsets(raw_offsets(path, radius), path.closed)
    kept = [t for t in _split(pieces) if _is_clear(t.piece, path, radius)]
    if not kept:
        raise GeometryError(f"a cutter of radius {abs(radius):g} finds no room", path.start)
    tracks = _chained([t.piece for t in kept], path)
    for track in tracks:
        verify_offset(path, track, radius)
    # The cutter cannot be that far from a span shorter than the depth.
    gaps = [gap for gap in _gaps(path, kept) if gap.end - gap.begin > shows]
    unreached = [_deepest(path, gap, abs(radius)) for gap in gaps]
    return CutterReach(
        tracks,
        tuple(offset(track, -radius) for track in tracks),
        tuple(sorted((m for m in unreached if m.depth >= shows), key=lambda m: -m.depth)),
    )


def _split(pieces: list[TrimmedOffset]) -> Iterator[TrimmedOffset]:
    """Split pieces wherever two of them intersect."""
    cuts: list[list[Point]] = [[] for _ in pieces]
    for i, a in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            b = pieces[j]
            joints = [p for p in (a.piece.start, a.piece.end) if p in (b.piece.start, b.piece.end)]
            for p in intersections_except(a.piece, b.piece, joints):
                cuts[i].append(p)
                cuts[j].append(p)
    for t, points in zip(pieces, cuts, strict=True):
        marks = sorted((t.piece.nearest(p), p) for p in points)
        marks = [(0.0, t.piece.start), *marks, (1.0, t.piece.end)]
        for (t0, p), (t1, q) in pairwise(marks):
            if t1 > t0 and point_distance(p, q) > SAME_POINT:
                part = Segment(p, q, t.piece.part(t0, t1).bulge)
                span = t.end - t.begin
                yield TrimmedOffset(t.raw, part, t.begin + t0 * span, t.begin + t1 * span)


def _is_clear(piece: Segment, path: Path, radius: float) -> bool:
    """Report whether a piece split at all intersections is nowhere too near to the path."""
    return path.distance(piece.point(0.5)) >= abs(radius) - _NEARER


def _chained(pieces: list[Segment], path: Path) -> tuple[Path, ...]:
    """Join pieces end to end into paths, the longest first."""
    pool, tracks = list(pieces), []
    while pool:
        chain = [pool.pop(0)]
        while not (closed := point_distance(chain[-1].end, chain[0].start) <= _JOINED):
            if (after := _index_at(chain[-1].end, [p.start for p in pool])) is not None:
                chain.append(pool.pop(after))
            elif (before := _index_at(chain[0].start, [p.end for p in pool])) is not None:
                chain.insert(0, pool.pop(before))
            else:
                break
        if path.closed and not closed:
            raise GeometryError("the cutter's track does not close", chain[-1].end)
        tracks.append(Path.from_segments(chain, closed=closed))
    return tuple(sorted(tracks, key=lambda t: -t.length))


def _index_at(p: Point, ends: list[Point]) -> int | None:
    """Find the index of the end that is at ``p``, or None."""
    best = min(range(len(ends)), key=lambda i: point_distance(p, ends[i]), default=None)
    return best if best is not None and point_distance(p, ends[best]) <= _JOINED else None


@dataclass(frozen=True)
class _Gap:
    """A span of the path (mm from its start) the cutter does not reach, and the nearest centres."""

    begin: float
    end: float
    centres: tuple[Point, ...]


def _gaps(path: Path, kept: list[TrimmedOffset]) -> list[_Gap]:
    """List the spans of a path that have no track beside them, in order."""
    first, last = kept[0], kept[-1]
    pairs = [(a.beside[1], b.beside[0], (a.piece.end, b.piece.start)) for a, b in pairwise(kept)]
    if path.closed:
        home = first.beside[0] + path.length
        pairs.append((last.beside[1], home, (last.piece.end, first.piece.start)))
    else:
        pairs.append((0.0, first.beside[0], (first.piece.start, first.piece.start)))
        pairs.append((last.beside[1], path.length, (last.piece.end, last.piece.end)))
    return [_Gap(*pair) for pair in pairs]


def _deepest(path: Path, gap: _Gap, radius: float) -> UnreachedPlace:
    """Find the place of a gap that is farthest from the cutter."""

    def depth(s: float) -> float:
        p = path.point_at(s)
        return min(point_distance(p, centre) for centre in gap.centres) - radius

    step = (gap.end - gap.begin) / _SAMPLES
    samples = [gap.begin + i * step for i in range(_SAMPLES + 1)]
    corners = [s + lap for s in path.stations for lap in (0.0, path.length)]
    best = max([s for s in corners if gap.begin < s < gap.end] + samples, key=depth)
    for _ in range(_BISECTIONS):
        step /= 2
        sides = (max(gap.begin, best - step), min(gap.end, best + step))
        best = max((best, *sides), key=depth)
    return UnreachedPlace(path.point_at(best), depth(best))
