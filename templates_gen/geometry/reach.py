"""What a round cutter can make of an outline, and the corners it cannot get into."""

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

#: A piece of the parallel is buried if it stands this much (mm) nearer to the outline.
_BURIED = 1e-9

#: Ends this near (mm) are one end when the buried pieces are gone.
_CHAINED = 1e-7

#: What a cutter's radius gives way (mm) where a slot is just as wide as the cutter.
_HAIR = OFFSET

#: Wood a cutter leaves in a corner shows from this depth on (mm).
VISIBLE_DEPTH = 0.01

#: Places looked at in a stretch the cutter does not reach, and how often the deepest is refined.
_LOOKS = 32
_REFINES = 40


@dataclass(frozen=True)
class UnreachedPlace:
    """A place a round cutter does not reach.

    Args:
        place: the point of the outline farthest from the cutter.
        depth: how far (mm) the cutter stays off it.
    """

    place: Point
    depth: float


@dataclass(frozen=True)
class CutterReach:
    """What a round cutter can make of an outline.

    Args:
        tracks: where its middle runs, the longest first.
        leaves: the edge it leaves behind, one for each track.
        missed: the places it does not reach, deepest first.
    """

    tracks: tuple[Path, ...]
    leaves: tuple[Path, ...]
    missed: tuple[UnreachedPlace, ...]


def cutter_reach(path: Path, radius: float, shows: float = VISIBLE_DEPTH) -> CutterReach:
    """What a round cutter can make of an outline, keeping to one side of it.

    Args:
        path: open or closed, free of crossings.
        radius: the cutter's radius (mm), positive to run on the right of travel (outside an
            outline), negative on the left (inside a pocket drawn counter-clockwise).
        shows: a place is missed if the cutter stays at least this far (mm) off it.

    Raises:
        GeometryError: the cutter goes nowhere, or the path crosses itself.
    """
    require_simple(path)
    try:
        return _reach(path, radius, shows)
    except GeometryError:
        # A slot just as wide as the cutter has both tracks in one line: let it have a hair.
        return _reach(path, math.copysign(abs(radius) - _HAIR, radius), shows)


def _reach(path: Path, radius: float, shows: float) -> CutterReach:
    whole, _ = trim_offsets(raw_offsets(path, radius), path.closed)
    kept = [t for t in _split(whole) if _is_clear(t.piece, path, radius)]
    if not kept:
        raise GeometryError(f"a cutter of radius {abs(radius):g} finds no room", path.start)
    tracks = _chained([t.piece for t in kept], path)
    for track in tracks:
        verify_offset(path, track, radius)
    # Off a stretch shorter than this the cutter cannot stay so far.
    gaps = [gap for gap in _gaps(path, kept) if gap.end - gap.begin > shows]
    missed = [_deepest(path, gap, abs(radius)) for gap in gaps]
    return CutterReach(
        tracks,
        tuple(offset(track, -radius) for track in tracks),
        tuple(sorted((m for m in missed if m.depth >= shows), key=lambda m: -m.depth)),
    )


def _split(whole: list[TrimmedOffset]) -> Iterator[TrimmedOffset]:
    """The pieces cut wherever two of them cross."""
    cuts: list[list[Point]] = [[] for _ in whole]
    for i, a in enumerate(whole):
        for j in range(i + 1, len(whole)):
            b = whole[j]
            joints = [p for p in (a.piece.start, a.piece.end) if p in (b.piece.start, b.piece.end)]
            for p in intersections_except(a.piece, b.piece, joints):
                cuts[i].append(p)
                cuts[j].append(p)
    for t, points in zip(whole, cuts, strict=True):
        marks = sorted((t.piece.nearest(p), p) for p in points)
        marks = [(0.0, t.piece.start), *marks, (1.0, t.piece.end)]
        for (t0, p), (t1, q) in pairwise(marks):
            if t1 > t0 and point_distance(p, q) > SAME_POINT:
                part = Segment(p, q, t.piece.part(t0, t1).bulge)
                span = t.end - t.begin
                yield TrimmedOffset(t.raw, part, t.begin + t0 * span, t.begin + t1 * span)


def _is_clear(piece: Segment, path: Path, radius: float) -> bool:
    """Whether a piece is all at its distance: it is either that or buried, cut where that ends."""
    return path.distance(piece.point(0.5)) >= abs(radius) - _BURIED


def _chained(pieces: list[Segment], path: Path) -> tuple[Path, ...]:
    """What is left, end to end again, the longest path first."""
    pool, tracks = list(pieces), []
    while pool:
        chain = [pool.pop(0)]
        while (after := _near(chain[-1].end, [p.start for p in pool])) is not None:
            if point_distance(chain[-1].end, chain[0].start) <= _CHAINED:
                break
            chain.append(pool.pop(after))
        while (before := _near(chain[0].start, [p.end for p in pool])) is not None:
            if point_distance(chain[-1].end, chain[0].start) <= _CHAINED:
                break
            chain.insert(0, pool.pop(before))
        closed = point_distance(chain[-1].end, chain[0].start) <= _CHAINED
        if path.closed and not closed:
            raise GeometryError("a cutter's track has no end that fits", chain[-1].end)
        tracks.append(Path.from_segments(chain, closed=closed))
    return tuple(sorted(tracks, key=lambda t: -t.length))


def _near(p: Point, ends: list[Point]) -> int | None:
    """Which of some ends is at ``p``."""
    best = min(range(len(ends)), key=lambda i: point_distance(p, ends[i]), default=None)
    return best if best is not None and point_distance(p, ends[best]) <= _CHAINED else None


@dataclass(frozen=True)
class _Gap:
    """A stretch of the path too deep to reach, and where the cutter's middle turns away from it."""

    begin: float
    end: float
    turns: tuple[Point, ...]


def _gaps(path: Path, kept: list[TrimmedOffset]) -> list[_Gap]:
    """The stretches of the path that have no track beside them, in order."""
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
    """Where a gap stands farthest from what the cutter reaches as it turns away."""

    def depth(s: float) -> float:
        p = path.point_at(s)
        return min(point_distance(p, turn) for turn in gap.turns) - radius

    step = (gap.end - gap.begin) / _LOOKS
    looks = [gap.begin + i * step for i in range(_LOOKS + 1)]
    corners = [s + lap for s in path.stations for lap in (0.0, path.length)]
    best = max([s for s in corners if gap.begin < s < gap.end] + looks, key=depth)
    for _ in range(_REFINES):
        step /= 2
        sides = (max(gap.begin, best - step), min(gap.end, best + step))
        best = max((best, *sides), key=depth)
    return UnreachedPlace(path.point_at(best), depth(best))
