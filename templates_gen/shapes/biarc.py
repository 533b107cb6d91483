"""Biarcs: two tangent arcs between two points with given directions, as in the head's ridge.

Lengths may be arrays. Directions are angles from +x in radians.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import FloatOrArray
from templates_gen.shapes.arcs import Arcs


@dataclass(frozen=True)
class Biarc:
    """A biarc.

    Args:
        x0, z0: start point (mm).
        heading0: direction at the start.
        x1, z1: end point (mm).
        heading1: direction at the end.
        ratio: first tangent leg divided by the second; it moves the joint along.
    """

    x0: FloatOrArray
    z0: FloatOrArray
    heading0: FloatOrArray
    x1: FloatOrArray
    z1: FloatOrArray
    heading1: FloatOrArray
    ratio: FloatOrArray

    @cached_property
    def legs(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Tangent legs of the two arcs (mm).

        The legs are equal on both sides of each arc. With v from start to end,
        v·v − 2 d v·(ρ t₁ + t₂) + 2 ρ d² (t₁·t₂ − 1) = 0, d the second leg.
        """
        vx, vz = self.x1 - self.x0, self.z1 - self.z0
        c0, s0 = np.cos(self.heading0), np.sin(self.heading0)
        c1, s1 = np.cos(self.heading1), np.sin(self.heading1)
        a = 2 * self.ratio * (c0 * c1 + s0 * s1 - 1)
        b = vx * (self.ratio * c0 + c1) + vz * (self.ratio * s0 + s1)
        c = vx * vx + vz * vz
        # a is never positive: take the positive root, without cancellation; NaN if there is none.
        with np.errstate(divide="ignore", invalid="ignore"):
            second = c / (b + np.sqrt(b * b - a * c))
        return self.ratio * second, second

    @cached_property
    def joint(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Point where the arcs meet (mm)."""
        d0, d1 = self.legs
        qx, qz = self.x0 + d0 * np.cos(self.heading0), self.z0 + d0 * np.sin(self.heading0)
        rx, rz = self.x1 - d1 * np.cos(self.heading1), self.z1 - d1 * np.sin(self.heading1)
        with np.errstate(invalid="ignore"):
            return (d1 * qx + d0 * rx) / (d0 + d1), (d1 * qz + d0 * rz) / (d0 + d1)

    @cached_property
    def turns(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Angle of each arc (radians, positive to the left)."""
        jx, jz = self.joint
        first = 2 * _wrapped(np.arctan2(jz - self.z0, jx - self.x0) - self.heading0)
        second = 2 * _wrapped(self.heading1 - np.arctan2(self.z1 - jz, self.x1 - jx))
        return first, second

    @cached_property
    def arcs(self) -> Arcs:
        """The two arcs as a chain."""
        jx, jz = self.joint
        rows = np.broadcast_arrays(self.x0, jx, self.x1, self.z0, jz, self.z1, *self.turns)
        x, z, turn = (np.stack(rows[i:j]).astype(float) for i, j in ((0, 3), (3, 6), (6, 8)))
        return Arcs(x, z, turn)


def _wrapped(angle: FloatOrArray) -> FloatOrArray:
    """Reduce an angle to -π … π (radians)."""
    return (angle + np.pi) % (2 * np.pi) - np.pi
