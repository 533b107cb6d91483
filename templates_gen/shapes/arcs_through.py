"""Approximate a spline through measured points by tangent arcs, for one line or many at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from templates_gen.geometry import FloatOrArray, Floats
from templates_gen.geometry.curve import hermite_cubic, spline_slopes
from templates_gen.shapes.arcs import Arcs, select_arcs
from templates_gen.shapes.biarc import Biarc

#: A point: x forward, z up (mm).
Place = tuple[FloatOrArray, FloatOrArray]

#: Length (mm) of curve per biarc: where the radius is 4 mm or more the arcs are then within
#: 0.005 mm of the curve.
PIECE = 2.0
#: A measured point this near to the line's end (mm, along x) is taken as the end.
AT_END = 0.2


def piece_counts(table: Sequence[tuple[float, float]]) -> list[int]:
    """Count the biarcs for each span between measured points (mm)."""
    return [max(1, math.ceil(math.dist(a, b) / PIECE)) for a, b in pairwise(table)]


def arcs_through_table(
    table: Sequence[tuple[float, float]], start: Place, end: Place, heading: FloatOrArray
) -> Arcs:
    """Draw arcs from a start to an end through the measured points between.

    Args:
        table: measured points (mm), x rising; the first is at the start.
        start, end: the ends (mm), which replace the points measured there.
        heading: direction at the start (radians from +x).
    """
    kept: FloatOrArray = sum(np.less(x, end[0] - AT_END).astype(int) for x, _ in table[1:])
    lines = {}
    for count in np.unique(kept):
        rows = table[: int(count) + 1]
        ends = zip(start, end, strict=True)
        x, z = ([a, *(q[i] for q in rows[1:]), b] for i, (a, b) in enumerate(ends))
        lines[int(count)] = spline_arcs(x, z, heading, [*piece_counts(rows), 2])
    return select_arcs(lines, kept)


def spline_arcs(
    x: Sequence[FloatOrArray],
    z: Sequence[FloatOrArray],
    heading: FloatOrArray,
    counts: Sequence[int],
) -> Arcs:
    """Approximate a cubic spline through points by biarcs tangent to it at their ends.

    The spline is that of ``geometry.curve.spline_through``.

    Args:
        x, z: the points (mm), in order.
        heading: direction at the first point (radians from +x); not-a-knot at the last.
        counts: number of biarcs in each span.
    """
    *rows, angle = np.broadcast_arrays(*x, *z, heading)
    both = np.stack([rows[: len(x)], rows[len(x) :]], axis=1).astype(float)  # forward and up
    steps = np.hypot(*np.moveaxis(np.diff(both, axis=0), 1, 0))
    tangents = spline_slopes(
        list(steps), list(both), np.stack([np.cos(angle), np.sin(angle)]), None
    )
    knots = []
    for i, (step, count) in enumerate(zip(steps, counts, strict=True)):
        for share in np.arange(count + (i == len(steps) - 1)) / count:
            (px, pz), (dx, dz) = hermite_cubic(
                share, step, list(both[i : i + 2]), tangents[i : i + 2]
            )
            knots.append(np.stack([px, pz, np.arctan2(dz, dx)]))
    return _biarcs(np.stack(knots, axis=1))


def _biarcs(knots: Floats) -> Arcs:
    """Join neighbouring knots (x and z in mm, direction in radians) by biarcs with equal legs."""
    (x0, z0, angle0), (x1, z1, angle1) = knots[:, :-1], knots[:, 1:]
    pairs = Biarc(x0, z0, angle0, x1, z1, angle1, 1.0)
    x, z = (_interleaved(knots[i], joint) for i, joint in enumerate(pairs.joint))
    return Arcs(x, z, _interleaved(*pairs.turns))


def _interleaved(outer: FloatOrArray, inner: FloatOrArray) -> Floats:
    """Interleave the rows of two arrays."""
    rows, others = np.asarray(outer), np.asarray(inner)
    laid = np.empty((len(rows) + len(others), *rows.shape[1:]))
    laid[::2], laid[1::2] = rows, others
    return laid
