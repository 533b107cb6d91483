"""A tapered beam in short pieces, each bent to a cubic: what all the answers are worked out on.

Source: Euler–Bernoulli beam, Hermite cubic elements; any book on finite elements.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from templates_gen.geometry.arrays import Floats

#: Something along the beam: of places (mm), what it is there.
Profile = Callable[[Floats], Floats]

#: Where each piece is looked at (share of its length), and what each look counts for. Four of
#: them weigh a uniform piece exactly.
_LOOKS, _COUNTS = np.polynomial.legendre.leggauss(4)
_S = (_LOOKS + 1) / 2
_WEIGHTS = _COUNTS / 2


@dataclass(frozen=True)
class Beam:
    """A beam along x.

    Args:
        nodes: ends of its pieces, rising (mm).
        stiffness: modulus times second moment, four looks into each piece (N mm²).
        mass: mass of each mm of length, likewise (g/mm).
    """

    nodes: Floats
    stiffness: Floats
    mass: Floats

    @property
    def lengths(self) -> Floats:
        """Length of each piece (mm)."""
        return np.diff(self.nodes)

    @property
    def gauss_points(self) -> Floats:
        """Where each piece is looked at: a row for each (mm)."""
        return self.nodes[:-1, None] + self.lengths[:, None] * _S

    def node(self, x: float) -> int:
        """The node at a place.

        Args:
            x: mm.

        Raises:
            ValueError: no piece ends there.
        """
        found = int(np.argmin(abs(self.nodes - x)))
        if abs(self.nodes[found] - x) > 1e-6:
            raise ValueError(f"no piece of the beam ends at {x:g} mm")
        return found

    def total(self) -> tuple[float, float]:
        """Its mass (g) and where that balances (mm)."""
        parts = self.mass * _WEIGHTS * self.lengths[:, None]
        mass = float(parts.sum())
        return mass, float((parts * self.gauss_points).sum()) / mass

    def moment_of_inertia(self) -> float:
        """Its moment of inertia about its own balance (g mm²)."""
        parts = self.mass * _WEIGHTS * self.lengths[:, None]
        return float((parts * (self.gauss_points - self.total()[1]) ** 2).sum())


def beam(breaks: Iterable[float], stiffness: Profile, mass: Profile, elements: int = 80) -> Beam:
    """A beam of pieces of nearly one length, none across a break.

    Args:
        breaks: both ends, and every place where something begins, ends, rests or hangs (mm).
        stiffness: modulus times second moment along it (N mm²).
        mass: mass of each mm along it (g/mm).
        elements: how many pieces, at the least.
    """
    stops = np.unique(np.asarray(list(breaks), float))
    longest = (stops[-1] - stops[0]) / elements
    nodes = [stops[:1]]
    for start, end in pairwise(stops):
        count = max(1, int(np.ceil((end - start) / longest - 1e-9)))
        nodes.append(np.linspace(start, end, count + 1)[1:])
    ends = np.concatenate(nodes)
    gauss_points = ends[:-1, None] + np.diff(ends)[:, None] * _S
    return Beam(ends, at_gauss_points(stiffness, gauss_points), at_gauss_points(mass, gauss_points))


def at_gauss_points(profile: Profile, gauss_points: Floats) -> Floats:
    """What a profile is at each look into each piece."""
    flat = np.asarray(profile(gauss_points.ravel()), float)
    return np.broadcast_to(flat, (gauss_points.size,)).reshape(gauss_points.shape)


def curves(b: Beam, order: int) -> Floats:
    """The four shapes of each piece or their derivatives at its looks: (piece, look, shape).

    A shape is one unit of height or slope at one end of the piece and nothing else.

    Args:
        b: the beam.
        order: 0 the shape, 1 its slope, 2 its curvature.
    """
    h = b.lengths[:, None, None]
    s = _S[None, :, None]
    return shapes(s, h, order)


def shapes(s: Floats, h: Floats, order: int) -> Floats:
    """The four shapes of a piece, or derivatives, at a share of its length; the last axis."""
    table = (
        (
            1 - 3 * s**2 + 2 * s**3,
            h * (s - 2 * s**2 + s**3),
            3 * s**2 - 2 * s**3,
            h * (s**3 - s**2),
        ),
        ((6 * s**2 - 6 * s) / h, 1 - 4 * s + 3 * s**2, (6 * s - 6 * s**2) / h, 3 * s**2 - 2 * s),
        ((12 * s - 6) / h**2, (6 * s - 4) / h, (6 - 12 * s) / h**2, (6 * s - 2) / h),
    )[order]
    return np.concatenate(np.broadcast_arrays(*table), axis=-1)


def matrix(b: Beam, along: Floats, order: int) -> Floats:
    """The sum over the beam of something times two shapes' derivatives, as a matrix.

    Args:
        b: the beam.
        along: the something, at the looks.
        order: of the derivatives: 2 with the stiffness, 0 with the mass, 1 for a thrust.
    """
    shape = curves(b, order)
    weights = along * _WEIGHTS * b.lengths[:, None]
    pieces = np.einsum("eg,egi,egj->eij", weights, shape, shape)
    size = 2 * len(b.nodes)
    whole = np.zeros((size, size))
    at = _places(b)
    np.add.at(whole, (at[:, :, None], at[:, None, :]), pieces)
    return whole


def _places(b: Beam) -> NDArray[np.intp]:
    """Which rows of the whole each piece's four shapes are: height, slope, height, slope."""
    first = 2 * np.arange(len(b.nodes) - 1)
    return first[:, None] + np.arange(4)
