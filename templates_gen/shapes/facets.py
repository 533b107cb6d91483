"""Facets beside a ridge: the ridge carried across, back and down in straight lines."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from templates_gen.shapes.arch import Num

#: The nearest place is found in so many steps at most; nearer than this (mm) is the same place.
_STEPS, _SAME = 12, 1e-10


def depth(
    under: Callable[[Num, Num], tuple[Num, Num, Num]],
    cheek: Callable[[Num, Num], Num],
    fall: Num,
    place: tuple[Num, Num, Num],
) -> Num:
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
    across = y
    for _ in range(_STEPS):
        here, forward, up = under(x + fall * across, z + fall * across)
        slope = fall * (forward + up)
        nearest = (y + slope * (slope * across - here)) / (1 + slope**2)
        most = cheek(x - here * forward, z - here * up)
        before, across = across, np.clip(nearest, 0.0, np.maximum(most, 0.0))
        if not np.any(np.abs(across - before) > _SAME):
            break
    least = np.hypot(under(x + fall * across, z + fall * across)[0], across - y)
    signed: Num = np.where(under(x + fall * y, z + fall * y)[0] < 0, -least, least)
    return signed
