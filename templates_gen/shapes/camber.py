"""The stick's camber: depth of its underside below the straight edge from ferrule to head.

A uniform camber has constant curvature. Even strain has y'' proportional to 1/d, with d the
diameter of the stick. The tension camber has y'' = T y / (E I), with y the height of the axis above
the hair line: the hair's tension T pulls this stick straight. Source: beam with small slopes,
M = E I y'' (any handbook of mechanics).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from templates_gen.geometry import FloatOrArray, Floats

#: Number of equal intervals along the hair at whose ends the camber is calculated.
STATIONS = 200
UNIT_STATIONS = np.linspace(0.0, 1.0, STATIONS + 1)


class CamberKind(StrEnum):
    """Distribution of curvature along the stick."""

    UNIFORM = "uniform"
    EVEN_STRAIN = "even-strain"
    TENSION = "tension"
    STATIONS = "stations"


#: This many intervals are about 25 mm; a change of curvature is then scaled to exactly 25 mm.
_SPACING = 8
#: Coefficients of √(1 + t) − 1 in powers of t: within a micrometre at the deepest camber allowed.
_BINOMIAL = (1 / 2, -1 / 8, 1 / 16, -5 / 128, 7 / 256, -21 / 1024)


@dataclass(frozen=True)
class Camber:
    """A camber defined by its curvature.

    Args:
        length: straight distance between ferrule and head (mm).
        depth: greatest depth (mm).
        weights: relative curvature of the underside at equally spaced stations, on the last axis.
        bend: the part of that curvature the wood is bent by, in the same scale; all if None.
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
        """Make a camber from the length along the underside.

        Args:
            run: length along the underside, ferrule to head (mm).
            depth, weights, bend: as above.
        """
        return cls(chord(run, depth, weights), depth, weights, bend)

    @cached_property
    def _shape(self) -> tuple[Floats, Floats]:
        """Depth and slope for unit length, not yet scaled to the depth."""
        return integrate_curvature(self.weights)

    @property
    def _bent(self) -> Floats:
        return self.weights if self.bend is None else self.bend

    @cached_property
    def depths(self) -> Floats:
        """Depth below the straight edge at the stations (mm), on the last axis."""
        y, _ = self._shape
        return y * self._scale

    def depths_every(self, step: int) -> Floats:
        """Calculate the depth (mm) at every ``step``-th station, enough for a smooth minimum."""
        y, _ = self._shape
        return y[..., ::step] * self._scale

    @cached_property
    def slopes(self) -> Floats:
        """Slope of the depth at the stations (mm per mm)."""
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
        """Greatest relative change of the wood's curvature between stations 25 mm apart."""
        step = 25.0 / np.asarray(self.length) * (self.weights.shape[-1] - 1)
        w = self._bent
        first, last = w[..., :-_SPACING], w[..., _SPACING:]
        change = np.abs(last - first) / np.maximum(np.abs(last), 1e-12)
        return change.max(axis=-1) * step / _SPACING

    @cached_property
    def shares(self) -> Floats:
        """Share of the underside's length before each station, on the last axis."""
        rate = np.sqrt(1.0 + self.slopes**2)
        along = _cumulative((rate[..., :-1] + rate[..., 1:]) / 2)
        return along / along[..., -1:]

    @cached_property
    def slope_at_ferrule(self) -> FloatOrArray:
        """Downward slope (mm per mm) at the ferrule."""
        _, slope = self._shape
        return slope[..., 0] * self._scale[..., 0] / np.asarray(self.length)

    @cached_property
    def slope_at_head(self) -> FloatOrArray:
        """Upward slope (mm per mm) at the head."""
        return self.slope_near_head(1)

    def slope_near_head(self, back: int) -> FloatOrArray:
        """Calculate the upward slope (mm per mm) at the ``back``-th station from the end.

        Does not compute the slopes of all stations, which are many for many tolerance corners.
        """
        _, slope = self._shape
        return -slope[..., -back] * self._scale[..., 0] / np.asarray(self.length)

    @cached_property
    def deepest(self) -> FloatOrArray:
        """Position of the greatest depth from the ferrule, as a fraction of the length."""
        y, slope = self._shape
        i = np.clip(np.argmax(y, axis=-1), 1, y.shape[-1] - 2)
        u = np.linspace(0.0, 1.0, y.shape[-1])
        before, after = (
            np.take_along_axis(slope, np.expand_dims(j, -1), -1)[..., 0] for j in (i - 1, i + 1)
        )
        return u[i - 1] + (u[i + 1] - u[i - 1]) * before / (before - after)

    def at(self, along: float) -> tuple[float, float]:
        """Interpolate depth (mm) and slope at a distance from the ferrule (mm); numbers only.

        A cubic Hermite polynomial between stations.
        """
        n = self.depths.shape[-1] - 1
        t = float(along) / float(np.asarray(self.length)) * n
        i = min(max(int(t), 0), n - 1)
        s, h = t - i, float(np.asarray(self.length)) / n
        y0, y1 = self.depths[i : i + 2].tolist()
        m0, m1 = (m * h for m in self.slopes[i : i + 2].tolist())
        a, b = 2 * y0 - 2 * y1 + m0 + m1, -3 * y0 + 3 * y1 - 2 * m0 - m1
        return ((a * s + b) * s + m0) * s + y0, ((3 * a * s + 2 * b) * s + m0) / h


def curvature_from_depths(table: Sequence[tuple[float, float]], length: FloatOrArray) -> Floats:
    """Calculate the relative curvature of the cubic spline through measured depths.

    The depth is 0 at both ends; the curvature is constant in the first and last spans.

    Args:
        table: distance from the ferrule and depth below the straight edge (mm), distances rising.
        length: straight distance between ferrule and head (mm).
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


def reversed_bend(table: Sequence[tuple[float, float]], length: float) -> float | None:
    """Find where (mm) a measured camber is curved the other way most, or None.

    A wrong depth makes the curve oscillate on both sides; the reversed curvature is greatest at it.
    """
    bend = curvature_from_depths(table, length)
    worst = int(np.argmin(bend))
    return float(worst / STATIONS * length) if bend[worst] <= 0.0 else None


def _cumulative(steps: Floats) -> Floats:
    """Calculate the cumulative sum along the last axis, starting with 0."""
    first = np.zeros((*steps.shape[:-1], 1))
    return np.concatenate([first, np.cumsum(steps, axis=-1)], axis=-1)


def even_strain(diameters: Floats) -> Floats:
    """Calculate the relative curvature that strains the surface evenly, from diameters (mm)."""
    return np.asarray(1 / diameters)


def chord(run: FloatOrArray, depth: FloatOrArray, weights: Floats) -> FloatOrArray:
    """Calculate the straight distance (mm) between the ends of a camber from its arc length.

    The arc length is ∫ √(1 + y'²) dx, integrated term by term by the binomial series.

    Args:
        run: length along the underside (mm).
        depth: greatest depth (mm).
        weights: relative curvature at equally spaced stations, on the last axis.
    """
    y, slope = integrate_curvature(weights)
    square = (slope / y.max(axis=-1, keepdims=True)) ** 2
    places = np.arange(weights.shape[-1])
    simpson = np.where(places % 2, 4.0, 2.0)
    simpson[[0, -1]] = 1.0
    simpson /= 3 * (len(places) - 1)
    means = [np.sum(simpson * square**k, axis=-1) for k in range(1, len(_BINOMIAL) + 1)]
    length: FloatOrArray = run
    # Each iteration reduces the error by the excess itself, less than a hundredth.
    for _ in range(6):
        t = (np.asarray(depth) / length) ** 2
        excess = sum(
            (c * m * t**k for k, (c, m) in enumerate(zip(_BINOMIAL, means, strict=True), 1)), 0.0
        )
        length = run / (1 + excess)
    return length


def integrate_curvature(
    weights: Floats,
) -> tuple[Floats, Floats]:
    """Integrate curvature twice to depth and slope for unit length, with depth 0 at both ends.

    The curvature is linear between stations, so both integrals are exact.

    Args:
        weights: relative curvature at equally spaced stations, on the last axis.
    """
    h = 1.0 / (weights.shape[-1] - 1)
    a, b = weights[..., :-1], weights[..., 1:]
    slope = _cumulative(h * (a + b) / 2)
    rise = h * slope[..., :-1] + h * h * (2 * a + b) / 6
    y = _cumulative(rise)
    u = np.linspace(0.0, 1.0, weights.shape[-1])
    tilt = y[..., -1:]
    return tilt * u - y, tilt - slope
