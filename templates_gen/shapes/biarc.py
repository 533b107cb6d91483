"""Two tangent arcs from one place and direction to another: the ridge of the head.

Every length may be an array. Directions are told as angles from +x, in radians.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path
from templates_gen.shapes.arch import Num


@dataclass(frozen=True)
class Biarc:
    """The construction.

    Args:
        x0, z0: where it begins (mm).
        heading0: its direction there.
        x1, z1: where it ends (mm).
        heading1: its direction there.
        ratio: the first tangent leg to the second; it shifts the bend along.
    """

    x0: Num
    z0: Num
    heading0: Num
    x1: Num
    z1: Num
    heading1: Num
    ratio: Num

    @cached_property
    def legs(self) -> tuple[Num, Num]:
        """The two tangent legs (mm).

        Joining legs must meet the joint's tangent at their own length: with v from start to end,
        v·v − 2 d v·(ρ t₁ + t₂) + 2 ρ d² (t₁·t₂ − 1) = 0, d the second leg.
        """
        vx, vz = self.x1 - self.x0, self.z1 - self.z0
        c0, s0 = np.cos(self.heading0), np.sin(self.heading0)
        c1, s1 = np.cos(self.heading1), np.sin(self.heading1)
        a = 2 * self.ratio * (c0 * c1 + s0 * s1 - 1)
        b = vx * (self.ratio * c0 + c1) + vz * (self.ratio * s0 + s1)
        c = vx * vx + vz * vz
        # a is never positive: the one positive root, without cancellation; none is no number.
        with np.errstate(divide="ignore", invalid="ignore"):
            second = c / (b + np.sqrt(b * b - a * c))
        return self.ratio * second, second

    @cached_property
    def joint(self) -> tuple[Num, Num]:
        """Where the arcs meet (mm)."""
        d0, d1 = self.legs
        qx, qz = self.x0 + d0 * np.cos(self.heading0), self.z0 + d0 * np.sin(self.heading0)
        rx, rz = self.x1 - d1 * np.cos(self.heading1), self.z1 - d1 * np.sin(self.heading1)
        with np.errstate(invalid="ignore"):
            return (d1 * qx + d0 * rx) / (d0 + d1), (d1 * qz + d0 * rz) / (d0 + d1)

    @cached_property
    def turns(self) -> tuple[Num, Num]:
        """How far each arc turns (radians, positive to the left)."""
        jx, jz = self.joint
        first = 2 * _wrapped(np.arctan2(jz - self.z0, jx - self.x0) - self.heading0)
        second = 2 * _wrapped(self.heading1 - np.arctan2(self.z1 - jz, self.x1 - jx))
        return first, second

    @cached_property
    def radii(self) -> tuple[Num, Num]:
        """Radius of each arc (mm)."""
        jx, jz = self.joint
        chords = np.hypot(jx - self.x0, jz - self.z0), np.hypot(self.x1 - jx, self.z1 - jz)
        with np.errstate(divide="ignore"):
            first, second = (
                chord / (2 * np.abs(np.sin(turn / 2)))
                for chord, turn in zip(chords, self.turns, strict=True)
            )
        return first, second

    def depth(self, x: Num, z: Num) -> Num:
        """Distance (mm) of a place from the nearer arc; on the arcs' left it is below nought."""
        jx, jz = self.joint
        first = _right_of(x, z, self.x0, self.z0, jx, jz, self.turns[0])
        second = _right_of(x, z, jx, jz, self.x1, self.z1, self.turns[1])
        nearer: Num = np.where(np.abs(first) <= np.abs(second), first, second)
        return nearer

    def path(self) -> Path:
        """The two arcs, open; single numbers only.

        Raises:
            GeometryError: the ends and directions allow none.
        """
        jx, jz = (float(v) for v in self.joint)
        bulges = [float(np.tan(t / 4)) for t in self.turns]
        start, end = (float(self.x0), float(self.z0)), (float(self.x1), float(self.z1))
        if not np.isfinite([jx, jz, *bulges]).all() or max(map(abs, bulges)) > 1:
            raise GeometryError("no two arcs join crown and nose in these directions", start)
        return Path(((*start, bulges[0]), (jx, jz, bulges[1]), (*end, 0.0)), closed=False)


def _wrapped(angle: Num) -> Num:
    turned: Num = (angle + np.pi) % (2 * np.pi) - np.pi
    return turned


def _right_of(x: Num, z: Num, x0: Num, z0: Num, x1: Num, z1: Num, turn: Num) -> Num:
    """Distance from a point to an arc told by its ends and its turn; below nought on its left."""
    bulge = np.tan(turn / 4)
    # A straight piece is an arc so flat that its centre lies a kilometre away.
    bulge = np.where(np.abs(bulge) < 1e-8, 1e-8, bulge)
    reach = (1 - bulge**2) / (4 * bulge)
    cx, cz = (x0 + x1) / 2 - (z1 - z0) * reach, (z0 + z1) / 2 + (x1 - x0) * reach
    # From the centre to each end and to the point; outside an arc to the left is on its right.
    ax, az, bx, bz, px, pz = x0 - cx, z0 - cz, x1 - cx, z1 - cz, x - cx, z - cz
    way = np.sign(bulge)
    radial = way * (np.hypot(px, pz) - np.hypot(ax, az))
    begin = np.hypot(x - x0, z - z0) * _side(way * (ax * (x - x0) + az * (z - z0)))
    end = np.hypot(x - x1, z - z1) * _side(way * (bx * (x - x1) + bz * (z - z1)))
    after, before = way * (ax * pz - az * px) >= 0, way * (px * bz - pz * bx) >= 0
    to_end = np.where(np.abs(begin) <= np.abs(end), begin, end)
    right: Num = np.where(after & before, radial, to_end)
    return right


def _side(across: Num) -> Num:
    """One way or the other, never neither."""
    return np.where(across < 0, -1.0, 1.0)
