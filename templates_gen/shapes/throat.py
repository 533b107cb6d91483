"""The throat: two tangent arcs between the ferrule's shoulder and the thumb's line.

Frame of the frog: x = 0 at the heel, toward the head; z = 0 at the bottom plane, toward the stick.
Every length may be an array.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray


@dataclass(frozen=True)
class Throat:
    """The hollow's construction.

    Args:
        shoulder: x of the shoulder (mm).
        ferrule: height of the ferrule, where the lower arc begins (mm).
        depth: how far behind the shoulder the hollow reaches (mm).
        height: of its deepest place (mm).
        straight: upright piece between the arcs, its middle at that height (mm).
        tip: x of the thumb projection's front (mm).
        tip_height: of the thumb's line there (mm).
        slope_deg: how steeply that line falls toward the heel (degrees).
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
        """x of the deepest place (mm)."""
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
        """Height of the lower arc (mm); less than the depth, and the arc undercuts the shoulder."""
        return self.low - self.ferrule

    @cached_property
    def lower_radius(self) -> FloatOrArray:
        """Radius (mm) of the arc through the shoulder, upright at the deepest place."""
        return (self.depth**2 + self.rise**2) / (2 * self.depth)

    @cached_property
    def upper_radius(self) -> FloatOrArray:
        """Radius (mm) of the arc upright at the deepest place and tangent to the thumb's line."""
        slope = np.radians(self.slope_deg)
        room = self.tip_height - self.high - np.tan(slope) * (self.tip - self.deepest)
        radius: FloatOrArray = room * np.cos(slope) / (1 - np.sin(slope))
        return radius

    @cached_property
    def joins_thumb(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Where the upper arc meets the thumb's line (mm)."""
        slope, r = np.radians(self.slope_deg), self.upper_radius
        return (self.deepest + r * (1 - np.sin(slope)), self.high + r * np.cos(slope))

    def gap(self, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
        """Distance (mm) from a point in the wood to the throat."""
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
        least: FloatOrArray = np.minimum(np.minimum(lower, upper), piece)
        return least


def _to_arc(
    dx: FloatOrArray, dz: FloatOrArray, radius: FloatOrArray, end: tuple[FloatOrArray, FloatOrArray]
) -> FloatOrArray:
    """Distance to an arc from its leftmost point to ``end``, all told from its centre."""
    # Within the arc's wedge the nearest point is radial; outside it is one of the two ends.
    side = np.sign(end[1])
    above = side * dz >= 0
    before = side * (dx * end[1] - dz * end[0]) <= 0
    radial = np.abs(np.hypot(dx, dz) - radius)
    ends = np.minimum(np.hypot(dx + radius, dz), np.hypot(dx - end[0], dz - end[1]))
    gap: FloatOrArray = np.where(above & before, radial, ends)
    return gap
