"""Cut an outline off at a level, or along a slope."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment
from templates_gen.tolerances import SAME_POINT


def clip_below(path: Path, level: float) -> Path:
    """What of a closed outline lies below a level line, closed along it.

    Raises:
        GeometryError: the line does not cut it in two, or cuts it in more than two.
    """
    pieces = [part for piece in path.segments for part in _split(piece, level)]
    keep = [p.point(0.5)[1] < level for p in pieces]
    starts = [i for i in range(len(pieces)) if keep[i] and not keep[i - 1]]
    if not any(keep) or all(keep):
        raise GeometryError(f"the outline does not cross the level {level:g}", path.start)
    if len(starts) != 1:
        raise GeometryError(f"the level {level:g} cuts the outline in several", path.start)
    chain: list[Segment] = []
    i = starts[0]
    while keep[i % len(pieces)]:
        chain.append(pieces[i % len(pieces)])
        i += 1
    closing = Segment(chain[-1].end, chain[0].start)
    if closing.chord > SAME_POINT:
        chain.append(closing)
    return Path.from_segments(chain, closed=True).oriented()


def clip_above(path: Path, level: float) -> Path:
    """What of a closed outline lies above a level line, closed along it."""
    return clip_below(path.mirrored(y=0.0), -level).mirrored(y=0.0).oriented()


def parts_below_line(pieces: Sequence[Segment], foot: Point, slope: float) -> list[Segment]:
    """The pieces, or parts of pieces, of a chain that lie below a sloping line, in their order.

    Args:
        foot: a place on the line (mm).
        slope: how much it rises for each millimetre along (mm).
    """
    turn = math.atan(slope)
    c, s = math.cos(turn), math.sin(turn)

    def levelled(q: Point) -> Point:
        x, y = q[0] - foot[0], q[1] - foot[1]
        return (x * c + y * s, y * c - x * s)

    kept = []
    for piece in pieces:
        level = Segment(levelled(piece.start), levelled(piece.end), piece.bulge)
        cuts = [0.0, *sorted(_crossings(level, 0.0)), 1.0]
        spans = [(a, b) for a, b in pairwise(cuts) if level.point((a + b) / 2)[1] < 0.0]
        kept += [piece.part(a, b) for a, b in spans if _long(piece, a, b)]
    return kept


def _split(piece: Segment, level: float) -> list[Segment]:
    """The parts of a piece between its crossings of a level line."""
    at = sorted(_crossings(piece, level))
    cuts = [0.0, *at, 1.0]
    spans = [(a, b) for a, b in pairwise(cuts) if _long(piece, a, b)]
    parts = [_snapped(piece.part(a, b), level) for a, b in spans]
    return [p for p in parts if p.chord > SAME_POINT]


def _long(piece: Segment, a: float, b: float) -> bool:
    return (b - a) * piece.length > SAME_POINT


def _snapped(part: Segment, level: float) -> Segment:
    """Ends that stand on the level stand on it exactly."""

    def snap(p: Point) -> Point:
        return (p[0], level) if abs(p[1] - level) < SAME_POINT else p

    return Segment(snap(part.start), snap(part.end), part.bulge)


def _crossings(piece: Segment, level: float) -> list[float]:
    (_, y0), (_, y1) = piece.start, piece.end
    if piece.is_line:
        return [(level - y0) / (y1 - y0)] if (y0 - level) * (y1 - level) < 0 else []
    (_, cy), r = piece.centre, piece.radius
    if abs(level - cy) >= r:
        return []
    angle = math.asin((level - cy) / r)
    found = (piece.fraction_at(a) for a in (angle, math.pi - angle))
    return [f for f in found if f is not None]
