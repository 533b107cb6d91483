"""Finite elements of a tapered Euler–Bernoulli beam.

Source: Hermite cubic elements; any book on finite elements.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from templates_gen.geometry import Floats

#: A quantity along the beam as a function of position (mm).
Profile = Callable[[Floats], Floats]

#: Gauss points of an element (fractions of its length) and their weights. Four integrate the mass
#: matrix of a uniform element exactly.
_ROOTS, _ROOT_WEIGHTS = np.polynomial.legendre.leggauss(4)
_S = (_ROOTS + 1) / 2
_WEIGHTS = _ROOT_WEIGHTS / 2


@dataclass(frozen=True)
class Beam:
    """A beam along x.

    Args:
        nodes: ends of its elements, rising (mm).
        stiffness: bending stiffness EI at the Gauss points of each element (N mm²).
        mass: mass per length at the same points (g/mm).
    """

    nodes: Floats
    stiffness: Floats
    mass: Floats

    @property
    def lengths(self) -> Floats:
        """Length of each element (mm)."""
        return np.diff(self.nodes)

    @property
    def gauss_points(self) -> Floats:
        """Positions of the Gauss points (mm), one row per element."""
        return self.nodes[:-1, None] + self.lengths[:, None] * _S

    def node(self, x: float) -> int:
        """Find the node at a position.

        Args:
            x: mm.

        Raises:
            ValueError: there is no node.
        """
        found = int(np.argmin(abs(self.nodes - x)))
        if abs(self.nodes[found] - x) > 1e-6:
            raise ValueError(f"the beam has no node at {x:g} mm")
        return found

    @property
    def _masses(self) -> Floats:
        """Mass represented by each Gauss point (g)."""
        return self.mass * _WEIGHTS * self.lengths[:, None]

    def total(self) -> tuple[float, float]:
        """Calculate the mass (g) and the position of its centre (mm)."""
        mass = float(self._masses.sum())
        return mass, float((self._masses * self.gauss_points).sum()) / mass

    def moment_of_inertia(self) -> float:
        """Calculate the moment of inertia about its mass centre (g mm²)."""
        return float((self._masses * (self.gauss_points - self.total()[1]) ** 2).sum())


def beam(breaks: Iterable[float], stiffness: Profile, mass: Profile, elements: int = 80) -> Beam:
    """Divide a beam into elements of nearly equal length.

    Args:
        breaks: positions (mm) where a node is needed: both ends, supports, loads and jumps.
        stiffness: bending stiffness EI along the beam (N mm²).
        mass: mass per length (g/mm).
        elements: least number of elements.
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
    """Evaluate a profile at the Gauss points."""
    flat = np.asarray(profile(gauss_points.ravel()), float)
    return np.broadcast_to(flat, (gauss_points.size,)).reshape(gauss_points.shape)


def element_shape_functions(b: Beam, order: int) -> Floats:
    """Evaluate shape functions, or derivatives, at the Gauss points: (element, point, function).

    Args:
        b: the beam.
        order: 0 for the function, 1 for its slope, 2 for its curvature.
    """
    h = b.lengths[:, None, None]
    s = _S[None, :, None]
    return shape_functions(s, h, order)


def shape_functions(s: Floats, h: Floats, order: int) -> Floats:
    """Evaluate the four Hermite shape functions of an element, or derivatives, on the last axis.

    Each is 1 for deflection or slope at one end and 0 for the other three.

    Args:
        s: fraction of the length.
        h: length of the element (mm).
        order: 0 for the function, 1 for its slope, 2 for its curvature.
    """
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


def assemble_matrix(b: Beam, along: Floats, order: int) -> Floats:
    """Assemble the matrix of ∫ q N⁽ᵏ⁾ᵢ N⁽ᵏ⁾ⱼ dx over the beam.

    Args:
        b: the beam.
        along: the quantity q at the Gauss points.
        order: derivative k of the shape functions N: 2 for stiffness, 0 for mass, 1 for axial load.
    """
    shape = element_shape_functions(b, order)
    weights = along * _WEIGHTS * b.lengths[:, None]
    elements = np.einsum("eg,egi,egj->eij", weights, shape, shape)
    size = 2 * len(b.nodes)
    whole = np.zeros((size, size))
    dofs = _degrees_of_freedom(b)
    np.add.at(whole, (dofs[:, :, None], dofs[:, None, :]), elements)
    return whole


def _degrees_of_freedom(b: Beam) -> NDArray[np.intp]:
    """List the degrees of freedom of each element: deflection, slope, deflection, slope."""
    first = 2 * np.arange(len(b.nodes) - 1)
    return first[:, None] + np.arange(4)
