"""Arcs along a smooth curve through measured points, for one line or many at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray, Floats
from templates_gen.geometry.curve import cubic, slopes
from templates_gen.shapes.arcs import Arcs, chosen
from templates_gen.shapes.biarc import Biarc

#: Forward and up (mm).
Place = tuple[FloatOrArray, FloatOrArray]

#: A curve through points is drawn in pieces of two arcs about this long (mm): where the radius is
#: 4 mm or more the arcs then stand within 0.005 mm of the curve.
PIECE = 2.0
#: A measured point this near to the line's end (mm, forward) is the end itself.
AT_END = 0.2


def pieces(table: Sequence[tuple[float, float]]) -> list[int]:
    """Into how many pieces the spans between measured points (mm) are cut."""
    return [max(1, math.ceil(math.dist(a, b) / PIECE)) for a, b in pairwise(table)]


def through_table(
    table: Sequence[tuple[float, float]], start: Place, end: Place, heading: FloatOrArray
) -> Arcs:
    """Arcs from a start to an end along the curve through the measured points between.

    Args:
        table: measured points (mm), rising forward; the first was measured at the start.
        start, end: the ends (mm), which take the place of points measured there.
        heading: direction at the start (radians from +x).
    """
    kept: FloatOrArray = sum(np.less(x, end[0] - AT_END).astype(int) for x, _ in table[1:])
    lines = {}
    for count in np.unique(kept):
        rows = table[: int(count) + 1]
        ends = zip(start, end, strict=True)
        x, z = ([a, *(q[i] for q in rows[1:]), b] for i, (a, b) in enumerate(ends))
        lines[int(count)] = through(x, z, heading, [*pieces(rows), 2])
    return chosen(lines, kept)


def through(
    x: Sequence[FloatOrArray],
    z: Sequence[FloatOrArray],
    heading: FloatOrArray,
    counts: Sequence[int],
) -> Arcs:
    """Arcs along a smooth curve through points, meeting it at the points and between.

    Between two points the curve (a cubic spline by chord lengths, as ``geometry.curve.through``) is
    cut into pieces; each is drawn as two arcs that leave and arrive as the curve does.

    Args:
        x, z: the points (mm), in their order.
        heading: direction at the first (radians from +x); at the last the curve finds its own.
        counts: into how many pieces each span is cut.
    """
    *rows, way = np.broadcast_arrays(*x, *z, heading)
    both = np.stack([rows[: len(x)], rows[len(x) :]], axis=1).astype(float)  # forward and up
    steps = np.hypot(*np.moveaxis(np.diff(both, axis=0), 1, 0))
    ways = slopes(list(steps), list(both), np.stack([np.cos(way), np.sin(way)]), None)
    knots = []
    for i, (step, count) in enumerate(zip(steps, counts, strict=True)):
        for share in np.arange(count + (i == len(steps) - 1)) / count:
            (px, pz), (dx, dz) = cubic(share, step, list(both[i : i + 2]), ways[i : i + 2])
            knots.append(np.stack([px, pz, np.arctan2(dz, dx)]))
    return _joined(np.stack(knots, axis=1))


def _joined(knots: Floats) -> Arcs:
    """Two arcs with equal legs between each two places (mm) and directions (radians)."""
    (x0, z0, way0), (x1, z1, way1) = knots[:, :-1], knots[:, 1:]
    pairs = Biarc(x0, z0, way0, x1, z1, way1, 1.0)
    x, z = (_between(knots[i], joint) for i, joint in enumerate(pairs.joint))
    return Arcs(x, z, _between(*pairs.turns))


def _between(outer: FloatOrArray, inner: FloatOrArray) -> Floats:
    """Rows taken in turn from two stacks."""
    rows, others = np.asarray(outer), np.asarray(inner)
    laid = np.empty((len(rows) + len(others), *rows.shape[1:]))
    laid[::2], laid[1::2] = rows, others
    return laid
