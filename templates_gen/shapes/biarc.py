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
        return self.depth_and_slope(x, z)[0]

    def depth_and_slope(self, x: Num, z: Num) -> tuple[Num, Num, Num]:
        """The depth (mm), and how it grows for each mm forward and for each mm up."""
        first, second = (arc.right_of(x, z) for arc in self._arcs)
        nearer = np.abs(first[0]) <= np.abs(second[0])
        depth, forward, up = (np.where(nearer, a, b) for a, b in zip(first, second, strict=True))
        return depth, forward, up

    @cached_property
    def _arcs(self) -> tuple[_Arc, _Arc]:
        jx, jz = self.joint
        return (
            _Arc(self.x0, self.z0, jx, jz, self.turns[0]),
            _Arc(jx, jz, self.x1, self.z1, self.turns[1]),
        )

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


@dataclass(frozen=True)
class _Arc:
    """An arc told by its ends (mm) and its turn (radians)."""

    x0: Num
    z0: Num
    x1: Num
    z1: Num
    turn: Num

    @cached_property
    def _bulge(self) -> Num:
        bulge = np.tan(self.turn / 4)
        # A straight piece is an arc so flat that its centre lies a kilometre away.
        return np.where(np.abs(bulge) < 1e-8, 1e-8, bulge)

    @cached_property
    def _centre(self) -> tuple[Num, Num]:
        reach = (1 - self._bulge**2) / (4 * self._bulge)
        across, along = self.z1 - self.z0, self.x1 - self.x0
        return (self.x0 + self.x1) / 2 - across * reach, (self.z0 + self.z1) / 2 + along * reach

    def right_of(self, x: Num, z: Num) -> tuple[Num, Num, Num]:
        """Distance from a point, below nought on the arc's left; its slopes forward and up."""
        (cx, cz), way = self._centre, np.sign(self._bulge)
        # From the centre to each end and to the point; outside an arc to the left is on its right.
        ax, az, bx, bz = self.x0 - cx, self.z0 - cz, self.x1 - cx, self.z1 - cz
        px, pz = x - cx, z - cz
        far = np.hypot(px, pz)
        radial = way * (far - np.hypot(ax, az)), way * px / far, way * pz / far
        begin = _from_end(x - self.x0, z - self.z0, way * ax, way * az)
        end = _from_end(x - self.x1, z - self.z1, way * bx, way * bz)
        beside = (way * (ax * pz - az * px) >= 0) & (way * (px * bz - pz * bx) >= 0)
        first = np.abs(begin[0]) <= np.abs(end[0])
        depth, forward, up = (
            np.where(beside, r, np.where(first, s, t))
            for r, s, t in zip(radial, begin, end, strict=True)
        )
        return depth, forward, up


def _from_end(x: Num, z: Num, ax: Num, az: Num) -> tuple[Num, Num, Num]:
    """Distance from an end, on the side an axis (ax, az) says; its slopes forward and up."""
    far = _side(ax * x + az * z) * np.hypot(x, z)
    with np.errstate(divide="ignore", invalid="ignore"):
        return far, x / far, z / far


def _side(across: Num) -> Num:
    """One way or the other, never neither."""
    return np.where(across < 0, -1.0, 1.0)
