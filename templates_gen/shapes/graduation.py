"""The stick's diameter by position, from the handle's end to the head."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray

#: The rule's two ordinates, at the butt and at the head.
_BUTT, _HEAD = 110.0, 22.0


class GraduationKind(StrEnum):
    """How the diameter falls toward the head."""

    PUBLISHED = "published"
    LINEAR = "linear"
    STATIONS = "stations"


def published(
    along: FloatOrArray,
    length: FloatOrArray,
    handle: FloatOrArray,
    thick: FloatOrArray,
    thin: FloatOrArray,
) -> FloatOrArray:
    """Diameter (mm) by the published geometric rule in closed form.

    A straight line falls from an ordinate of 110 at the butt to 22 at the head; each step along the
    stick is as long as the ordinate at its start, and the diameter falls by equal parts at each.
    Source: F.-J. Fétis 1856, quoted in H. Saint-George, The Bow, ch. VI.

    Args:
        along: place from the butt (mm).
        length: from the butt to the face's rear edge (mm).
        handle: length of the handle, on which the rule does not act (mm).
        thick, thin: diameter at the handle's end and at the head (mm).
    """
    share = _HEAD / _BUTT
    start = length * share / (1 - share)
    from_head = length - along
    whole = np.log((start + length - handle) / start)
    return thin + (thick - thin) * np.log((start + from_head) / start) / whole


def linear(
    along: FloatOrArray,
    length: FloatOrArray,
    handle: FloatOrArray,
    thick: FloatOrArray,
    thin: FloatOrArray,
) -> FloatOrArray:
    """Diameter (mm) falling evenly from the handle's end to the head."""
    return thick + (thin - thick) * (along - handle) / (length - handle)


def stations(along: FloatOrArray, table: Sequence[tuple[float, float]]) -> FloatOrArray:
    """Diameter (mm) through measured stations: smooth, and never beyond its neighbours.

    Source: F. N. Fritsch and R. E. Carlson, Monotone piecewise cubic interpolation, 1980, with the
    harmonic mean of the neighbouring slopes.

    Args:
        along: place from the butt (mm); before the first it stays as there, and after the last
            it goes on falling as there, for to stop would be a corner in the stick.
        table: place and diameter (mm), places rising.
    """
    x, y = np.array(table, dtype=float).T
    step, slope = np.diff(x), np.diff(y) / np.diff(x)
    before, after = slope[:-1], slope[1:]
    wide, near = 2 * step[1:] + step[:-1], step[1:] + 2 * step[:-1]
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (wide + near) / (wide / before + near / after)
    inner = np.where(before * after > 0, mean, 0.0)
    ends = np.concatenate([slope[:1], inner, slope[-1:]])
    at = np.clip(along, x[0], x[-1])
    i = np.clip(np.searchsorted(x, at, side="right") - 1, 0, len(x) - 2)
    t, h = (at - x[i]) / step[i], step[i]
    first = y[i] * (1 + 2 * t) * (1 - t) ** 2 + h * ends[i] * t * (1 - t) ** 2
    second = y[i + 1] * t**2 * (3 - 2 * t) - h * ends[i + 1] * t**2 * (1 - t)
    on = np.maximum(along - x[-1], 0.0) * ends[-1]
    thick: FloatOrArray = first + second + on
    return thick


def hump(table: Sequence[tuple[float, float]]) -> float | None:
    """The first place (mm) at which a measured stick thickens toward the head, or None."""
    return next((b[0] for a, b in pairwise(table) if b[1] > a[1] + 0.005), None)


def steps(length: float) -> tuple[float, ...]:
    """The rule's own stations (mm from the butt), to the first at or beyond the length.

    Each step is as long as the falling ordinate at its start.
    """
    unit = length / 700.0
    places, at = [0.0], 0.0
    for _ in range(12):
        at += (_BUTT - (_BUTT - _HEAD) * at / length) * unit if length else 0.0
        places.append(at)
    return tuple(places)
