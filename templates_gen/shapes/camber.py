"""The stick's camber: how deep its underside lies below the straight edge from ferrule to head.

An even arc has the same curvature everywhere. Even strain has y'' in proportion to 1/d with d the
stick's diameter. The tension law has y'' = T y / (E I), y the height of the axis above the hair
line: the hair's pull T makes that stick straight. Source: the shallow beam, M = E I y'' (any
handbook of mechanics).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray, Floats

#: Places along the hair at which the camber is reckoned.
STATIONS = 200
EVENLY = np.linspace(0.0, 1.0, STATIONS + 1)


class CamberKind(StrEnum):
    """How the bend is spread along the stick."""

    UNIFORM = "uniform"
    EVEN_STRAIN = "even-strain"
    TENSION = "tension"
    STATIONS = "stations"


#: This many places are about 25 mm apart; a change of curvature is scaled to 25 mm exactly.
_APART = 8
#: Terms of √(1 + t) − 1 in powers of t: enough for a micrometre of the deepest camber allowed.
_BINOMIAL = (1 / 2, -1 / 8, 1 / 16, -5 / 128, 7 / 256, -21 / 1024)


@dataclass(frozen=True)
class Camber:
    """A camber by its curvature.

    Args:
        length: between ferrule and head (mm).
        depth: at its deepest (mm).
        weights: relative curvature of the underside at evenly spaced places, last axis; any scale.
        bend: the part of it that the wood is bent by, in the same scale; all of it if None.
    """

    length: FloatOrArray
    depth: FloatOrArray
    weights: Floats
    bend: Floats | None = None

    @classmethod
    def along(
        cls,
        run: FloatOrArray,
        depth: FloatOrArray,
        weights: Floats,
        bend: Floats | None = None,
    ) -> Camber:
        """The camber of a stick so long along its underside.

        Args:
            run: from ferrule to head, along the underside (mm).
            depth, weights, bend: as above.
        """
        return cls(chord(run, depth, weights), depth, weights, bend)

    @cached_property
    def _shape(self) -> tuple[Floats, Floats]:
        """Depth and slope for unit length, its deepest as the weights give it."""
        return hung(self.weights)

    @property
    def _bent(self) -> Floats:
        return self.weights if self.bend is None else self.bend

    @cached_property
    def depths(self) -> Floats:
        """Depth below the straight edge at the places (mm), last axis along the bow."""
        y, _ = self._shape
        depths: Floats = y * self._scale
        return depths

    def some_depths(self, step: int) -> Floats:
        """Depth at every ``step``-th place only: enough where a smooth least is looked for."""
        y, _ = self._shape
        some: Floats = y[..., ::step] * self._scale
        return some

    @cached_property
    def slopes(self) -> Floats:
        """Slope of the depth at the places (mm per mm)."""
        _, slope = self._shape
        slopes: Floats = slope * self._scale / np.asarray(self.length)[..., None]
        return slopes

    @cached_property
    def _scale(self) -> Floats:
        y, _ = self._shape
        peak = y.max(axis=-1, keepdims=True)
        scale: Floats = np.asarray(self.depth)[..., None] / peak
        return scale

    @cached_property
    def unevenness(self) -> FloatOrArray:
        """Greatest relative change of the wood's bend between places 25 mm apart."""
        step = 25.0 / np.asarray(self.length) * (self.weights.shape[-1] - 1)
        w = self._bent
        first, last = w[..., :-_APART], w[..., _APART:]
        change = np.abs(last - first) / np.maximum(np.abs(last), 1e-12)
        most: FloatOrArray = change.max(axis=-1) * step / _APART
        return most

    @cached_property
    def shares(self) -> Floats:
        """Share of the underside's length before each place, last axis."""
        pace = np.sqrt(1.0 + self.slopes**2)
        along = _running((pace[..., :-1] + pace[..., 1:]) / 2)
        share: Floats = along / along[..., -1:]
        return share

    @cached_property
    def at_ferrule(self) -> FloatOrArray:
        """Slope (mm per mm) at which the stick sinks away from the ferrule."""
        _, slope = self._shape
        first: FloatOrArray = slope[..., 0] * self._scale[..., 0] / np.asarray(self.length)
        return first

    @cached_property
    def at_head(self) -> FloatOrArray:
        """Slope (mm per mm) at which the stick climbs toward the head."""
        return self.slope_near_head(1)

    def slope_near_head(self, back: int) -> FloatOrArray:
        """Slope (mm per mm) at which the stick climbs, so many places back from the head's own.

        Without the whole row of slopes, which is long where many bows are judged at once.
        """
        _, slope = self._shape
        near: FloatOrArray = -slope[..., -back] * self._scale[..., 0] / np.asarray(self.length)
        return near

    @cached_property
    def deepest(self) -> FloatOrArray:
        """Where it is deepest, as a part of the length from the ferrule."""
        y, slope = self._shape
        i = np.clip(np.argmax(y, axis=-1), 1, y.shape[-1] - 2)
        u = np.linspace(0.0, 1.0, y.shape[-1])
        before, after = (
            np.take_along_axis(slope, np.expand_dims(j, -1), -1)[..., 0] for j in (i - 1, i + 1)
        )
        place: FloatOrArray = u[i - 1] + (u[i + 1] - u[i - 1]) * before / (before - after)
        return place

    def at(self, along: float) -> tuple[float, float]:
        """Depth (mm) and slope at a place from the ferrule (mm); single numbers only.

        Cubic between places, from depth and slope at either end.
        """
        n = self.depths.shape[-1] - 1
        t = float(along) / float(np.asarray(self.length)) * n
        i = min(max(int(t), 0), n - 1)
        s, h = t - i, float(np.asarray(self.length)) / n
        y0, y1 = float(self.depths[i]), float(self.depths[i + 1])
        m0, m1 = float(self.slopes[i]) * h, float(self.slopes[i + 1]) * h
        a, b = 2 * y0 - 2 * y1 + m0 + m1, -3 * y0 + 3 * y1 - 2 * m0 - m1
        return ((a * s + b) * s + m0) * s + y0, ((3 * a * s + 2 * b) * s + m0) / h


def measured(table: Sequence[tuple[float, float]], length: FloatOrArray) -> Floats:
    """Relative curvature of the smooth curve through measured depths, ferrule to head.

    The depth is taken as nought at both ends; the bend runs on evenly beyond the outermost points.

    Args:
        table: place from the ferrule and depth below the straight edge (mm), places rising.
        length: between ferrule and head (mm).
    """
    span = float(np.max(np.asarray(length)))
    inner = [(x, y) for x, y in table if 0.5 < x < span - 0.5]
    x, y = np.array([(0.0, 0.0), *inner, (span, 0.0)]).T
    h, n = np.diff(x), len(x)
    system, right = np.zeros((n, n)), np.zeros(n)
    for i in range(1, n - 1):
        system[i, i - 1 : i + 2] = h[i - 1], 2 * (h[i - 1] + h[i]), h[i]
        right[i] = 6 * ((y[i + 1] - y[i]) / h[i] - (y[i] - y[i - 1]) / h[i - 1])
    system[0, :2], system[-1, -2:] = (1.0, -1.0), (-1.0, 1.0)
    bend = -np.linalg.solve(system, right)
    return np.asarray(np.interp(np.linspace(0.0, span, STATIONS + 1), x, bend))


def wrong_way(table: Sequence[tuple[float, float]], length: float) -> float | None:
    """Where (mm) a measured camber bends the other way, most of all places, or None.

    A wrong figure makes the curve waver on either side of it; it bends most at the figure itself.
    """
    bend = measured(table, length)
    worst = int(np.argmin(bend))
    return float(worst / STATIONS * length) if bend[worst] <= 0.0 else None


def _running(steps: Floats) -> Floats:
    """Running sum along the last axis, from nought."""
    first = np.zeros((*steps.shape[:-1], 1))
    return np.concatenate([first, np.cumsum(steps, axis=-1)], axis=-1)


def even_strain(diameters: Floats) -> Floats:
    """Relative curvature that strains the surface alike where the stick is that thick (mm)."""
    return np.asarray(1 / diameters)


def chord(run: FloatOrArray, depth: FloatOrArray, weights: Floats) -> FloatOrArray:
    """Straight length (mm) between the ends of a camber whose underside is so long.

    The arc is ∫ √(1 + y'²) dx, by the binomial series under the integral.

    Args:
        run: length along the underside (mm).
        depth: at its deepest (mm).
        weights: relative curvature at evenly spaced places, last axis; any scale.
    """
    y, slope = hung(weights)
    square = (slope / y.max(axis=-1, keepdims=True)) ** 2
    places = np.arange(weights.shape[-1])
    simpson = np.where(places % 2, 4.0, 2.0)
    simpson[[0, -1]] = 1.0
    simpson /= 3 * (len(places) - 1)
    means = [np.sum(simpson * square**k, axis=-1) for k in range(1, len(_BINOMIAL) + 1)]
    length: FloatOrArray = run
    # Each round makes the error less by the excess itself, under a hundredth.
    for _ in range(6):
        t = (np.asarray(depth) / length) ** 2
        excess = sum(
            (c * m * t**k for k, (c, m) in enumerate(zip(_BINOMIAL, means, strict=True), 1)), 0.0
        )
        length = run / (1 + excess)
    return length


def hung(weights: Floats) -> tuple[Floats, Floats]:
    """Depth and slope for unit length, its deepest as the weights give it.

    The curvature is straight between places, so slope and depth are exact on it.
    """
    h = 1.0 / (weights.shape[-1] - 1)
    a, b = weights[..., :-1], weights[..., 1:]
    slope = _running(h * (a + b) / 2)
    rise = h * slope[..., :-1] + h * h * (2 * a + b) / 6
    y = _running(rise)
    u = np.linspace(0.0, 1.0, weights.shape[-1])
    tilt = y[..., -1:]
    return tilt * u - y, tilt - slope
