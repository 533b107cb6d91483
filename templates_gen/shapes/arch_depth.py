"""Distances of points from the outer face of the ferrule's arch.

Frame of the arch: y outward from the mid-plane, level up from the plate's top. Lengths may be
arrays.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry import FloatOrArray
from templates_gen.shapes.arch import ArchKind

#: The nearest point of an ellipse is found by so many bisections, then Newton steps.
_BISECTIONS, _NEWTON_STEPS = 5, 4


def depth_in_arch(
    kind: ArchKind,
    width: FloatOrArray,
    height: FloatOrArray,
    wall: FloatOrArray,
    corner: FloatOrArray,
    y: FloatOrArray,
    level: FloatOrArray,
) -> FloatOrArray:
    """Calculate the distance (mm) of a point from the arch's outer face, negative outside.

    The outer face is offset from the neutral line by half the wall.

    Args:
        kind: curve of the neutral line.
        width, height, wall, corner: as for ``arch.developed_length``.
        y, level: the point (mm), right of the mid-plane.
    """
    a, b = (width - wall) / 2, height - wall / 2
    if kind is ArchKind.HALF_ELLIPSE:
        return _in_ellipse(a, b, y, level) + wall / 2
    if kind is ArchKind.SEGMENT:
        radius = (a * a + b * b) / (2 * b)
        # The feet are filed flush with the plate.
        flush = width / 2 - y
        return np.minimum(radius + wall / 2 - np.hypot(y, level - b + radius), flush)
    radius = a if kind is ArchKind.HALF_CIRCLE else corner - wall / 2
    beside, over = y - a + radius, level - b + radius
    in_corner = (beside > 0.0) & (over > 0.0)
    straight = np.minimum(a - y, b - level)
    return np.where(in_corner, radius - np.hypot(beside, over), straight) + wall / 2


def _in_ellipse(
    a: FloatOrArray, b: FloatOrArray, y: FloatOrArray, level: FloatOrArray
) -> FloatOrArray:
    """Calculate the distance (mm) of a point inside an ellipse from it."""
    longer, across, up = b * b - a * a, a * y, b * level
    t: FloatOrArray = np.pi / 4 + 0.0 * (longer + across + up)
    step = np.pi / 8
    # ``slope`` is the derivative of the squared distance by the angle; positive beyond the least.
    for _ in range(_BISECTIONS):
        sine, cosine = np.sin(t), np.cos(t)
        slope = longer * sine * cosine + across * sine - up * cosine
        t, step = np.where(slope < 0.0, t + step, t - step), step / 2
    for _ in range(_NEWTON_STEPS):
        sine, cosine = np.sin(t), np.cos(t)
        slope = longer * sine * cosine + across * sine - up * cosine
        second = longer * (cosine * cosine - sine * sine) + across * cosine + up * sine
        t = t - slope / np.maximum(second, 1e-9)
    return np.hypot(a * np.cos(t) - y, b * np.sin(t) - level)
