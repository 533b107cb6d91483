"""The frog's throat: two tangent arcs between the ferrule's shoulder and the thumb projection.

Frame of the frog: x = 0 at the heel, toward the head; z = 0 at the bottom plane, toward the stick.
Lengths may be arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import FloatOrArray


@dataclass(frozen=True)
class Throat:
    """A throat.

    Args:
        shoulder: x of the shoulder (mm).
        ferrule: height of the ferrule, where the lower arc starts (mm).
        depth: depth of the throat behind the shoulder (mm).
        height: height of its deepest point (mm).
        straight: length of the vertical line between the arcs, centred on that height (mm).
        tip: x of the front of the thumb projection (mm).
        tip_height: height of the thumb projection's underside there (mm).
        slope_deg: slope of that underside, falling toward the heel (degrees).
    """

    shoulder: FloatOrArray
    ferrule: FloatOrArray
    depth: FloatOrArray
    height: FloatOrArray
    straight: FloatOrArray
    tip: FloatOrArray
    tip_height: FloatOrArray
    slope_deg: FloatOrArray

    @cached_property
    def deepest(self) -> FloatOrArray:
        """x of the deepest point (mm)."""
        return self.shoulder - self.depth

    @cached_property
    def low(self) -> FloatOrArray:
        """Height at which the lower arc ends (mm)."""
        return self.height - self.straight / 2

    @cached_property
    def high(self) -> FloatOrArray:
        """Height at which the upper arc begins (mm)."""
        return self.height + self.straight / 2

    @cached_property
    def rise(self) -> FloatOrArray:
        """Height of the lower arc (mm); if less than the depth, the arc undercuts the shoulder."""
        return self.low - self.ferrule

    @cached_property
    def lower_radius(self) -> FloatOrArray:
        """Radius (mm) of the arc through the shoulder, vertical at the deepest point."""
        return (self.depth**2 + self.rise**2) / (2 * self.depth)

    @cached_property
    def upper_radius(self) -> FloatOrArray:
        """Radius (mm) of the arc vertical at the deepest point and tangent to the underside."""
        slope = np.radians(self.slope_deg)
        room = self.tip_height - self.high - np.tan(slope) * (self.tip - self.deepest)
        return room * np.cos(slope) / (1 - np.sin(slope))

    @cached_property
    def joins_thumb(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Point where the upper arc meets the underside of the thumb projection (mm)."""
        slope, r = np.radians(self.slope_deg), self.upper_radius
        return (self.deepest + r * (1 - np.sin(slope)), self.high + r * np.cos(slope))

    def gap(self, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
        """Calculate the distance (mm) from a point in the wood to the throat."""
        lower = _to_arc(
            x - self.deepest - self.lower_radius,
            z - self.low,
            self.lower_radius,
            (self.depth - self.lower_radius, -self.rise),
        )
        u, v = self.joins_thumb
        upper = _to_arc(
            x - self.deepest - self.upper_radius,
            z - self.high,
            self.upper_radius,
            (u - self.deepest - self.upper_radius, v - self.high),
        )
        piece = np.hypot(x - self.deepest, z - np.clip(z, self.low, self.high))
        return np.minimum(np.minimum(lower, upper), piece)


def _to_arc(
    dx: FloatOrArray, dz: FloatOrArray, radius: FloatOrArray, end: tuple[FloatOrArray, FloatOrArray]
) -> FloatOrArray:
    """Calculate the distance (mm) to the arc about (0, 0) from its leftmost point to ``end``."""
    # In the arc's sector the nearest point is radial; elsewhere it is one of the two ends.
    side = np.sign(end[1])
    above = side * dz >= 0
    before = side * (dx * end[1] - dz * end[0]) <= 0
    radial = np.abs(np.hypot(dx, dz) - radius)
    ends = np.minimum(np.hypot(dx + radius, dz), np.hypot(dx - end[0], dz - end[1]))
    return np.where(above & before, radial, ends)
