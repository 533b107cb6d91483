"""Facets beside a ridge: the ridge extruded along a sloping direction, across, back and down."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from templates_gen.geometry import FloatOrArray

#: The nearest point is found in so many iterations at most, to within this (mm).
_ITERATIONS, _SAME = 12, 1e-10


def depth(
    under: Callable[[FloatOrArray, FloatOrArray], tuple[FloatOrArray, FloatOrArray, FloatOrArray]],
    cheek: Callable[[FloatOrArray, FloatOrArray], FloatOrArray],
    fall: FloatOrArray,
    place: tuple[FloatOrArray, FloatOrArray, FloatOrArray],
) -> FloatOrArray:
    """Calculate the distance (mm) of a point from the facet, negative outside.

    A point off the ridge is as far under the facet as the point shifted forward and up along the
    facet's slope is under the ridge.

    Args:
        under: depth (mm) of a point (x, z) under the ridge, and its derivatives by x and z.
        cheek: how far across (mm) the facet extends at such a point.
        fall: fall of the facet, both back and down, per millimetre across.
        place: the point: forward, across from the ridge's edge, and up (mm).
    """
    x, y, z = place
    y = np.maximum(y, 0.0)
    across, last = y, None
    for _ in range(_ITERATIONS):
        here, forward, up = under(x + fall * across, z + fall * across)
        slope = fall * (forward + up)
        nearest = (y + slope * (slope * across - here)) / (1 + slope**2)
        most = cheek(x - here * forward, z - here * up)
        nearest = np.clip(nearest, 0.0, np.maximum(most, 0.0))
        if not np.any(np.abs(nearest - across) > _SAME):
            break
        slope_of_map = 0.0 if last is None else _secant(last, (across, nearest))
        last = across, nearest
        across = np.maximum((nearest - slope_of_map * across) / (1 - slope_of_map), 0.0)
    least = np.hypot(under(x + fall * across, z + fall * across)[0], across - y)
    return np.where(under(x + fall * y, z + fall * y)[0] < 0, -least, least)


def _secant(
    one: tuple[FloatOrArray, FloatOrArray], other: tuple[FloatOrArray, FloatOrArray]
) -> FloatOrArray:
    """Calculate the secant slope of the fixed-point iteration, limited to ±0.5."""
    (from_a, to_a), (from_b, to_b) = one, other
    apart = from_b - from_a
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(np.abs(apart) > _SAME, (to_b - to_a) / apart, 0.0)
    return np.clip(share, -0.5, 0.5)
