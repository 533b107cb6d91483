"""How deep a place lies inside the ferrule's arch: its distance from the arch's outer face.

Frame of the arch: y outward from the mid-plane, level up from the plate's top. Every length may be
an array.
"""

from __future__ import annotations

import numpy as np

from templates_gen.shapes.arch import ArchKind, Num

#: The nearest place of an ellipse is bracketed by this many halvings: to a millionth of a mm.
_HALVINGS = 26


def depth(
    kind: ArchKind, width: Num, height: Num, wall: Num, corner: Num, y: Num, level: Num
) -> Num:
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


def _in_ellipse(a: Num, b: Num, y: Num, level: Num) -> Num:
    """Distance (mm) of a place inside from the ellipse; its nearest place by halving."""
    low, high = 0.0 * (a + b + y + level), np.pi / 2 + 0.0 * (a + b + y + level)
    for _ in range(_HALVINGS):
        t = (low + high) / 2
        # How the distance changes with the angle: on past its least where this is above 0.
        slope = (b * b - a * a) * np.sin(t) * np.cos(t) + a * y * np.sin(t) - b * level * np.cos(t)
        low, high = np.where(slope < 0.0, t, low), np.where(slope < 0.0, high, t)
    far: Num = np.hypot(a * np.cos(low) - y, b * np.sin(low) - level)
    return far
