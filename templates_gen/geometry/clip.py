"""Clip a closed path at a horizontal line, or a chain of pieces at a sloping line."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise, takewhile

from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, rotate
from templates_gen.tolerances import SAME_POINT


def clip_below(path: Path, level: float) -> Path:
    """Clip a closed path at a horizontal line and keep the part below it.

    Args:
        path: the closed path.
        level: y of the line (mm).

    Returns:
        The part below, closed along the line, counter-clockwise.

    Raises:
        GeometryError: the line does not cut the path into two parts.
    """
    pieces = [part for piece in path.segments for part in _split(piece, level)]
    keep = [p.point(0.5)[1] < level for p in pieces]
    starts = [i for i in range(len(pieces)) if keep[i] and not keep[i - 1]]
    if not any(keep) or all(keep):
        raise GeometryError(f"the outline does not cross the line y = {level:g}", path.start)
    if len(starts) != 1:
        raise GeometryError(f"the line y = {level:g} cuts more than one part off", path.start)
    ordered = pieces[starts[0] :] + pieces[: starts[0]]
    chain = list(takewhile(lambda p: p.point(0.5)[1] < level, ordered))
    closing = Segment(chain[-1].end, chain[0].start)
    if closing.chord > SAME_POINT:
        chain.append(closing)
    return Path.from_segments(chain, closed=True).oriented()


def clip_above(path: Path, level: float) -> Path:
    """Clip a closed path at a horizontal line and keep the part above it."""
    return clip_below(path.mirrored(y=0.0), -level).mirrored(y=0.0).oriented()


def parts_below_line(pieces: Sequence[Segment], foot: Point, slope: float) -> list[Segment]:
    """Keep the parts of a chain of pieces that lie below a sloping line, in order.

    Args:
        pieces: the chain.
        foot: a point on the line (mm).
        slope: rise of the line per millimetre along x.
    """
    angle = -math.atan(slope)

    def levelled(q: Point) -> Point:
        return rotate((q[0] - foot[0], q[1] - foot[1]), angle)

    kept = []
    for piece in pieces:
        level = Segment(levelled(piece.start), levelled(piece.end), piece.bulge)
        spans = _spans(level, 0.0)
        kept += [piece.part(a, b) for a, b in spans if level.point((a + b) / 2)[1] < 0.0]
    return kept


def _split(piece: Segment, level: float) -> list[Segment]:
    """Split a piece where it crosses a horizontal line."""
    parts = [_snapped(piece.part(a, b), level) for a, b in _spans(piece, level)]
    return [p for p in parts if p.chord > SAME_POINT]


def _spans(piece: Segment, level: float) -> list[tuple[float, float]]:
    """List the spans of a piece, as fractions of its length, between its crossings of a line."""
    cuts = [0.0, *sorted(_crossings(piece, level)), 1.0]
    return [(a, b) for a, b in pairwise(cuts) if (b - a) * piece.length > SAME_POINT]


def _snapped(part: Segment, level: float) -> Segment:
    """Move ends within rounding of a horizontal line exactly onto it."""

    def snap(p: Point) -> Point:
        return (p[0], level) if abs(p[1] - level) < SAME_POINT else p

    return Segment(snap(part.start), snap(part.end), part.bulge)


def _crossings(piece: Segment, level: float) -> list[float]:
    """Find where a piece crosses a horizontal line, as fractions of its length."""
    (_, y0), (_, y1) = piece.start, piece.end
    if piece.is_line:
        return [(level - y0) / (y1 - y0)] if (y0 - level) * (y1 - level) < 0 else []
    (_, cy), r = piece.centre, piece.radius
    if abs(level - cy) >= r:
        return []
    angle = math.asin((level - cy) / r)
    found = (piece.fraction_at(a) for a in (angle, math.pi - angle))
    return [f for f in found if f is not None]
