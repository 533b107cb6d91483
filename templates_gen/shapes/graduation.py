"""Graduation: the stick's diameter by position, from the end of the handle to the head."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise

import numpy as np

from templates_gen.geometry import FloatOrArray

#: Ordinates of the published rule at the butt and at the head.
_BUTT, _HEAD = 110.0, 22.0


class GraduationKind(StrEnum):
    """Law by which the diameter decreases toward the head."""

    PUBLISHED = "published"
    LINEAR = "linear"
    STATIONS = "stations"


def published_diameter(
    along: FloatOrArray,
    length: FloatOrArray,
    handle: FloatOrArray,
    thick: FloatOrArray,
    thin: FloatOrArray,
) -> FloatOrArray:
    """Calculate the diameter (mm) by the published geometric rule, in closed form.

    A straight line falls from an ordinate of 110 at the butt to 22 at the head. Each step along the
    stick is as long as the ordinate at its start; the diameter decreases equally at each step.
    Source: F.-J. Fétis 1856, quoted in H. Saint-George, The Bow, ch. VI.

    Args:
        along: distance from the butt (mm).
        length: from the butt to the rear edge of the head's face (mm).
        handle: length of the handle, to which the rule does not apply (mm).
        thick, thin: diameters at the end of the handle and at the head (mm).
    """
    share = _HEAD / _BUTT
    start = length * share / (1 - share)
    from_head = length - along
    whole = np.log((start + length - handle) / start)
    return thin + (thick - thin) * np.log((start + from_head) / start) / whole


def linear_diameter(
    along: FloatOrArray,
    length: FloatOrArray,
    handle: FloatOrArray,
    thick: FloatOrArray,
    thin: FloatOrArray,
) -> FloatOrArray:
    """Calculate the diameter (mm) of a linear taper from the end of the handle to the head.

    Args: as for ``published_diameter``.
    """
    return thick + (thin - thick) * (along - handle) / (length - handle)


def interpolated_diameter(
    along: FloatOrArray, table: Sequence[tuple[float, float]]
) -> FloatOrArray:
    """Interpolate the diameter (mm) between measured stations: smooth and monotone.

    Source: F. N. Fritsch and R. E. Carlson, Monotone piecewise cubic interpolation, 1980, with the
    harmonic mean of the neighbouring slopes.

    Args:
        along: distance from the butt (mm). Before the first station the diameter is constant; after
            the last it continues with the last slope, so that the stick has no kink there.
        table: distance from the butt and diameter (mm), distances rising.
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
    beyond = np.maximum(along - x[-1], 0.0) * ends[-1]
    return first + second + beyond


def first_thickening(table: Sequence[tuple[float, float]]) -> float | None:
    """Find the first station (mm) where a measured stick thickens toward the head, or None."""
    return next((b[0] for a, b in pairwise(table) if b[1] > a[1] + 0.005), None)
