"""Straight chords in place of arcs, for whatever knows no arc."""

from __future__ import annotations

import math

from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment


def flatten(path: Path, chord_error: float) -> list[Point]:
    """Points along a path whose straight joins stand nowhere farther off than told.

    Args:
        path: open or closed; of a closed one the first point is not repeated.
        chord_error: the most a chord may stand off its arc (mm).

    Raises:
        ValueError: the error is not above zero.
    """
    if not chord_error > 0:
        raise ValueError("a chord's error must be above zero")
    points: list[Point] = []
    for piece in path.segments:
        n = chord_count(piece, chord_error)
        points += [piece.point(i / n) for i in range(n)]
    return points if path.closed else [*points, path.end]


def chord_count(piece: Segment, chord_error: float) -> int:
    """How many equal chords a piece needs."""
    if piece.is_line:
        return 1
    # A chord that turns by 2 a stands r (1 - cos a) off; asin of the half keeps the digits of
    # small angles, and beyond a half circle no chord goes.
    half = 2 * math.asin(min(1.0, math.sqrt(chord_error / (2 * piece.radius))))
    return max(1, math.ceil(abs(piece.turn) / (2 * half) - 1e-9))
