"""Bending frequencies of a stick or bow."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.mechanics.beam import Beam, assemble_matrix, shape_functions

#: Shift (Hz) of the eigenvalue problem: frequencies near it, a stick's lowest, are most accurate.
_SHIFT = 50.0
#: From N/(mm g) to 1/s².
_PER_SECOND = 1e6


@dataclass(frozen=True)
class Body:
    """A rigid body fixed to the stick: head, frog, button.

    Args:
        x: position of its mass centre along the stick (mm).
        mass: g.
        moment_of_inertia: about its mass centre (g mm²).
    """

    x: float
    mass: float
    moment_of_inertia: float = 0.0


def free_frequencies(b: Beam, count: int = 3, bodies: Sequence[Body] = ()) -> Floats:
    """Calculate the lowest bending frequencies (Hz) of a beam free at both ends.

    Args:
        b: the beam.
        count: number of frequencies.
        bodies: what is fixed to it.
    """
    # The first two frequencies, of rigid translation and rotation, are 0.
    return _frequencies(b, bodies, 0)[2 : 2 + count]


def clamped_frequencies(b: Beam, count: int = 3, bodies: Sequence[Body] = ()) -> Floats:
    """Calculate the lowest bending frequencies (Hz) of a beam clamped at its start.

    Args:
        b: the beam.
        count: number of frequencies.
        bodies: what is fixed to it.
    """
    return _frequencies(b, bodies, 2)[:count]


def _frequencies(b: Beam, bodies: Sequence[Body], held: int) -> Floats:
    """Calculate all frequencies (Hz), rising, with the first ``held`` degrees of freedom held.

    Solved for the greatest eigenvalues of mass over stiffness: as the smallest of stiffness over
    mass, the lowest frequencies would be lost in the rounding error of the highest.
    """
    from scipy.linalg import eigh

    shift = (2 * math.pi * _SHIFT) ** 2 / _PER_SECOND
    mass = assemble_matrix(b, b.mass, 0)
    for body in bodies:
        _add_body(b, body, mass)
    stiff = assemble_matrix(b, b.stiffness, 2) + shift * mass
    ratios = eigh(mass[held:, held:], stiff[held:, held:], eigvals_only=True)[::-1]
    squares = np.maximum(1 / np.maximum(ratios, 1e-300) - shift, 0.0)
    frequencies: Floats = np.sqrt(squares * _PER_SECOND) / (2 * math.pi)
    return frequencies


def _add_body(b: Beam, body: Body, mass: Floats) -> None:
    """Add a body to the mass matrix; it moves and turns with the element it is on.

    Beyond an end of the beam it is on a rigid arm from the end node, so that the result does not
    depend on the length of the last element.
    """
    x = float(np.clip(body.x, b.nodes[0], b.nodes[-1]))
    arm = body.x - x
    element = int(np.clip(np.searchsorted(b.nodes, x) - 1, 0, len(b.nodes) - 2))
    h = b.lengths[element : element + 1]
    s = (x - b.nodes[element : element + 1]) / h
    slope = shape_functions(s, h, 1)
    height = shape_functions(s, h, 0) + arm * slope
    at = slice(2 * element, 2 * element + 4)
    mass[at, at] += body.mass * np.outer(height, height) + body.moment_of_inertia * np.outer(
        slope, slope
    )
