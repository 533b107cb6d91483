"""Flatten arcs to chords, for formats without arcs."""

from __future__ import annotations

import math

from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment


def flatten(path: Path, chord_error: float) -> list[Point]:
    """Flatten a path to a polyline within a chord error.

    Args:
        path: open or closed.
        chord_error: greatest distance between a chord and its arc (mm).

    Returns:
        The vertices; the first point of a closed path is not repeated.

    Raises:
        ValueError: the chord error is not positive.
    """
    if not chord_error > 0:
        raise ValueError("the chord error must be positive")
    points: list[Point] = []
    for piece in path.segments:
        n = chord_count(piece, chord_error)
        points += [piece.point(i / n) for i in range(n)]
    return points if path.closed else [*points, path.end]


def chord_count(piece: Segment, chord_error: float) -> int:
    """Count the equal chords that a piece needs for a chord error (mm)."""
    if piece.is_line:
        return 1
    # A chord that subtends 2 a is r (1 - cos a) from its arc; asin of the half angle keeps the
    # digits of small angles. No chord subtends more than 180°.
    half = 2 * math.asin(min(1.0, math.sqrt(chord_error / (2 * piece.radius))))
    return max(1, math.ceil(abs(piece.turn) / (2 * half) - 1e-9))
