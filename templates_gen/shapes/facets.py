"""Facets beside a ridge: the ridge carried across, back and down in straight lines."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray

#: The nearest place is found in so many steps at most; nearer than this (mm) is the same place.
_STEPS, _SAME = 12, 1e-10


def depth(
    under: Callable[[FloatOrArray, FloatOrArray], tuple[FloatOrArray, FloatOrArray, FloatOrArray]],
    cheek: Callable[[FloatOrArray, FloatOrArray], FloatOrArray],
    fall: FloatOrArray,
    place: tuple[FloatOrArray, FloatOrArray, FloatOrArray],
) -> FloatOrArray:
    """Distance (mm) of a place from the facet; through it, below nought.

    So far across, a place lies under the facet as one higher and farther forward lies under the
    ridge.

    Args:
        under: how far a place (x, z) in mm lies under the ridge, and how that grows forward and up.
        cheek: how far across (mm) the facet goes at such a place.
        fall: how far the facet falls, both back and down, for each mm across.
        place: forward, across from the ridge's edge and up (mm).
    """
    x, y, z = place
    y = np.maximum(y, 0.0)
    across, last = y, None
    for _ in range(_STEPS):
        here, forward, up = under(x + fall * across, z + fall * across)
        slope = fall * (forward + up)
        nearest = (y + slope * (slope * across - here)) / (1 + slope**2)
        most = cheek(x - here * forward, z - here * up)
        nearest = np.clip(nearest, 0.0, np.maximum(most, 0.0))
        if not np.any(np.abs(nearest - across) > _SAME):
            break
        follows = 0.0 if last is None else _follows(last, (across, nearest))
        last = across, nearest
        across = np.maximum((nearest - follows * across) / (1 - follows), 0.0)
    least = np.hypot(under(x + fall * across, z + fall * across)[0], across - y)
    signed: FloatOrArray = np.where(under(x + fall * y, z + fall * y)[0] < 0, -least, least)
    return signed


def _follows(
    one: tuple[FloatOrArray, FloatOrArray], other: tuple[FloatOrArray, FloatOrArray]
) -> FloatOrArray:
    """How much a place found moves with the place it was found from, as far as that is tame."""
    (from_a, to_a), (from_b, to_b) = one, other
    apart = from_b - from_a
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(np.abs(apart) > _SAME, (to_b - to_a) / apart, 0.0)
    tame: FloatOrArray = np.clip(share, -0.5, 0.5)
    return tame
