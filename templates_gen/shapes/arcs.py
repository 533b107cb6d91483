"""Chains of tangent arcs as arrays: radii, steepest and lowest points, signed distances.

Rules about a drawn line measure it here. Lengths may be arrays with one entry per tolerance corner;
the arcs are stacked along the first axis.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import FloatOrArray, Floats, Path

#: In a chain of many short arcs, a point is compared with this many near the nearest joint.
NEAR = 6


@dataclass(frozen=True)
class Arcs:
    """A chain of tangent arcs.

    Args:
        x, z: ends and joints (mm), along the first axis one more than there are arcs.
        turn: angle of each arc (radians, positive to the left).
    """

    x: Floats
    z: Floats
    turn: Floats

    @cached_property
    def radii(self) -> Floats:
        """Radius of each arc (mm)."""
        with np.errstate(divide="ignore", invalid="ignore"):
            radii: Floats = self._chord / (2 * np.abs(np.sin(self.turn / 2)))
        return radii

    @cached_property
    def headings(self) -> Floats:
        """Direction at each end and joint (radians from +x), without jumps of 2π."""
        first = np.arctan2(*self._run[::-1])[:1] - self.turn[:1] / 2
        return np.concatenate([first, first + np.cumsum(self.turn, axis=0)])

    @cached_property
    def sharpest(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Least radius (mm), convex or concave, and the midpoint of its arc (mm)."""
        return _least(self.radii, *self._middles)

    @cached_property
    def steepest(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Steepest slope (degrees from horizontal, up or down) and its point (mm)."""
        steep, x, z = _least(-np.degrees(np.abs(self.headings)), self.x, self.z)
        return -steep, x, z

    @cached_property
    def lowest(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Least height (mm) and its point (mm): an end, or the bottom of a concave arc."""
        (cx, cz), start = self._centre, self.headings[:-1]
        concave = (self.turn > 0) & (start < 0) & (start + self.turn > 0)
        bottom = np.where(concave, cz - np.abs(self.radii), np.inf)
        x, z = np.concatenate([self.x, cx]), np.concatenate([self.z, bottom])
        return _least(z, x, z)

    def depth_and_slope(
        self, x: FloatOrArray, z: FloatOrArray
    ) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Calculate the signed distance of a point from the chain, and its gradient.

        Args:
            x, z: the point (mm).

        Returns:
            Distance (mm) from the nearest arc, negative on the left; its derivatives by x and z.
        """
        like = np.broadcast_shapes(np.shape(x), np.shape(z), self.turn.shape[1:])
        line = Arcs(*(_under(v, like) for v in (self.x, self.z, self.turn)))
        arcs = line._arcs if len(self.turn) <= NEAR else line._near(x, z)
        found = _signed_distance(arcs, x, z)
        nearest = np.argmin(np.abs(found[0]), axis=0, keepdims=True)
        depth, forward, up = (np.take_along_axis(v, nearest, axis=0)[0] for v in found)
        return depth, forward, up

    @cached_property
    def _arcs(self) -> tuple[Floats, ...]:
        """Start, end and centre of each arc (mm), and the sign of its angle."""
        ends = self.x[:-1], self.z[:-1], self.x[1:], self.z[1:]
        return (*ends, *self._centre, np.sign(self._bulge))

    def _near(self, x: FloatOrArray, z: FloatOrArray) -> tuple[Floats, ...]:
        """Select the arcs near the joint that is nearest to each point."""
        joint = np.argmin(np.hypot(self.x - x, self.z - z), axis=0)
        first = np.clip(joint - NEAR // 2, 0, len(self.turn) - NEAR)
        which = first + np.arange(NEAR).reshape(-1, *(1,) * joint.ndim)
        return tuple(np.take_along_axis(v, which, axis=0) for v in self._arcs)

    def divided(self, count: int) -> Arcs:
        """Split the last arc into equal parts, so that the chain has ``count`` arcs."""
        more = count - len(self.turn)
        shares = np.arange(1, more + 1).reshape(-1, *(1,) * (self.turn.ndim - 1)) / (more + 1)
        turn, (cx, cz) = self.turn[-1:], (v[-1:] for v in self._centre)
        ax, az = self.x[-2:-1] - cx, self.z[-2:-1] - cz
        c, s = np.cos(turn * shares), np.sin(turn * shares)
        x, z = cx + ax * c - az * s, cz + ax * s + az * c
        return Arcs(
            np.concatenate([self.x[:-1], x, self.x[-1:]]),
            np.concatenate([self.z[:-1], z, self.z[-1:]]),
            np.concatenate([self.turn[:-1], np.repeat(turn / (more + 1), more + 1, axis=0)]),
        )

    @cached_property
    def _run(self) -> tuple[Floats, Floats]:
        return np.diff(self.x, axis=0), np.diff(self.z, axis=0)

    @cached_property
    def _chord(self) -> Floats:
        return np.hypot(*self._run)

    @cached_property
    def _bulge(self) -> Floats:
        bulge = np.tan(self.turn / 4)
        # A line is treated as an arc so flat that its centre is a kilometre away.
        return np.where(np.abs(bulge) < 1e-8, 1e-8, bulge)

    @cached_property
    def _centre(self) -> tuple[Floats, Floats]:
        reach, (along, across) = (1 - self._bulge**2) / (4 * self._bulge), self._run
        x, z = (v[:-1] + step / 2 for v, step in zip((self.x, self.z), self._run, strict=True))
        return x - across * reach, z + along * reach

    @cached_property
    def _middles(self) -> tuple[Floats, Floats]:
        (along, across), rise = self._run, self._bulge / 2
        return self.x[:-1] + along / 2 + across * rise, self.z[:-1] + across / 2 - along * rise

    def path(self) -> Path:
        """Convert to an open path; for single numbers only.

        Raises:
            GeometryError: the arcs do not exist.
        """
        rows = np.stack([self.x[:-1], self.z[:-1], np.tan(self.turn / 4)], axis=-1)
        end = (float(self.x[-1]), float(self.z[-1]))
        if not np.isfinite(rows).all() or np.abs(rows[:, 2]).max() > 1:
            raise GeometryError("no tangent arcs join the line's ends in these directions", end)
        return Path((*((x, z, b) for x, z, b in rows.tolist()), (*end, 0.0)), closed=False)


def select_arcs(lines: Mapping[int, Arcs], which: FloatOrArray) -> Arcs:
    """Select one chain per tolerance corner, all split into the same number of arcs.

    Args:
        lines: the chains by number.
        which: the number of the chain for each corner.
    """
    most = max(len(line.turn) for line in lines.values())
    rows = [(np.equal(which, n), line.divided(most)) for n, line in lines.items()]
    if len(rows) == 1:
        return rows[0][1]
    cases, like = [case for case, _ in rows], np.shape(which)
    x, z, turn = (
        np.select(cases, [_under(getattr(line, k), like) for _, line in rows])
        for k in ("x", "z", "turn")
    )
    return Arcs(x, z, turn)


def _under(v: Floats, like: tuple[int, ...]) -> Floats:
    """Add axes, so that the arcs of one corner broadcast against many points."""
    return v.reshape(v.shape[0], *(1,) * (len(like) + 1 - v.ndim), *v.shape[1:])


def _least(v: Floats, x: Floats, z: Floats) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
    """Find the least along the first axis (NaN where one is NaN), and its point."""
    at = np.argmin(v, axis=0, keepdims=True)
    least, there_x, there_z = (np.take_along_axis(u, at, axis=0)[0] for u in (v, x, z))
    return least, there_x, there_z


def _signed_distance(
    arcs: Sequence[Floats], x: FloatOrArray, z: FloatOrArray
) -> tuple[Floats, Floats, Floats]:
    """Calculate the signed distance of a point from each arc, and its gradient."""
    x0, z0, x1, z1, cx, cz, sign = arcs
    # From the centre to each end and to the point; the outside of a left-hand arc is its right.
    ax, az, bx, bz, px, pz = x0 - cx, z0 - cz, x1 - cx, z1 - cz, x - cx, z - cz
    far = np.hypot(px, pz)
    with np.errstate(divide="ignore", invalid="ignore"):
        radial = sign * (far - np.hypot(ax, az)), sign * px / far, sign * pz / far
    begin = _from_end(x - x0, z - z0, sign * ax, sign * az)
    end = _from_end(x - x1, z - z1, sign * bx, sign * bz)
    beside = (sign * (ax * pz - az * px) >= 0) & (sign * (px * bz - pz * bx) >= 0)
    first = np.abs(begin[0]) <= np.abs(end[0])
    depth, forward, up = (
        np.where(beside, r, np.where(first, s, t))
        for r, s, t in zip(radial, begin, end, strict=True)
    )
    return depth, forward, up


def _from_end(
    x: FloatOrArray, z: FloatOrArray, ax: FloatOrArray, az: FloatOrArray
) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
    """Calculate the distance from an end, signed by the vector (ax, az), and its gradient."""
    far = np.where(ax * x + az * z < 0, -1.0, 1.0) * np.hypot(x, z)
    with np.errstate(divide="ignore", invalid="ignore"):
        return far, x / far, z / far
