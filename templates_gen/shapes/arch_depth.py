"""How deep a place lies inside the ferrule's arch: its distance from the arch's outer face.

Frame of the arch: y outward from the mid-plane, level up from the plate's top. Every length may be
an array.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.shapes.arch import ArchKind

#: The nearest place of an ellipse is bracketed by halving, then found by Newton's steps.
_HALVINGS, _STEPS = 5, 4


def depth(
    kind: ArchKind,
    width: FloatOrArray,
    height: FloatOrArray,
    wall: FloatOrArray,
    corner: FloatOrArray,
    y: FloatOrArray,
    level: FloatOrArray,
) -> FloatOrArray:
    """Distance (mm) of a place from the arch's outer face; less than 0 outside.

    The outer face is the parallel of the neutral line, half the wall outside it.

    Args:
        kind: the curve of the neutral line.
        width, height, wall, corner: as for ``arch.developed_length``.
        y, level: the place (mm), right of the mid-plane.
    """
    a, b = (width - wall) / 2, height - wall / 2
    if kind is ArchKind.HALF_ELLIPSE:
        return _in_ellipse(a, b, y, level) + wall / 2
    if kind is ArchKind.SEGMENT:
        radius = (a * a + b * b) / (2 * b)
        # What stands out past the plate is filed flush with it.
        flush = width / 2 - y
        return np.minimum(radius + wall / 2 - np.hypot(y, level - b + radius), flush)
    round_ = a if kind is ArchKind.HALF_CIRCLE else corner - wall / 2
    beside, over = y - a + round_, level - b + round_
    in_corner = (beside > 0.0) & (over > 0.0)
    straight = np.minimum(a - y, b - level)
    return np.where(in_corner, round_ - np.hypot(beside, over), straight) + wall / 2


def _in_ellipse(
    a: FloatOrArray, b: FloatOrArray, y: FloatOrArray, level: FloatOrArray
) -> FloatOrArray:
    """Distance (mm) of a place inside from the ellipse."""
    longer, across, up = b * b - a * a, a * y, b * level
    t: FloatOrArray = np.pi / 4 + 0.0 * (longer + across + up)
    step = np.pi / 8
    # How the distance changes with the angle: the least is passed where this is above 0.
    for _ in range(_HALVINGS):
        sine, cosine = np.sin(t), np.cos(t)
        slope = longer * sine * cosine + across * sine - up * cosine
        t, step = np.where(slope < 0.0, t + step, t - step), step / 2
    for _ in range(_STEPS):
        sine, cosine = np.sin(t), np.cos(t)
        slope = longer * sine * cosine + across * sine - up * cosine
        bend = longer * (cosine * cosine - sine * sine) + across * cosine + up * sine
        t = t - slope / np.maximum(bend, 1e-9)
    far: FloatOrArray = np.hypot(a * np.cos(t) - y, b * np.sin(t) - level)
    return far
