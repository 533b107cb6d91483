"""At which tones a stick or a bow rings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from templates_gen.geometry.arrays import Floats
from templates_gen.mechanics.beam import Beam, matrix, shapes

#: A stick's lowest tone is near this (Hz); the sum is put so that tones near it come out best.
_NEAR = 50.0
#: From N/(mm g) to 1/s².
_PER_SECOND = 1e6


@dataclass(frozen=True)
class Body:
    """Something stiff that is fixed to the stick: head, frog, button.

    Args:
        x: where its mass centre is, along the stick (mm).
        mass: g.
        turning: its own moment of inertia about its mass centre (g mm²).
    """

    x: float
    mass: float
    moment_of_inertia: float = 0.0


def free_tones(b: Beam, count: int = 3, bodies: Sequence[Body] = ()) -> Floats:
    """The lowest bending tones of a beam that hangs free (Hz).

    Args:
        b: the beam.
        count: how many tones.
        bodies: what is fixed to it.
    """
    # A free beam may rise and may turn without bending: two tones of nought.
    return _tones(b, bodies, 0)[2 : 2 + count]


def clamped_tones(b: Beam, count: int = 3, bodies: Sequence[Body] = ()) -> Floats:
    """The lowest bending tones of a beam held fast at its beginning (Hz).

    Args:
        b: the beam.
        count: how many tones.
        bodies: what is fixed to it.
    """
    return _tones(b, bodies, 2)[:count]


def _tones(b: Beam, bodies: Sequence[Body], held: int) -> Floats:
    """All tones, rising; the first so many heights and slopes are held.

    Worked out as the greatest values of mass over stiffness, for the lowest tones are among the
    smallest values the other way round, and drown in what the highest leave of rounding.
    """
    shift = (2 * math.pi * _NEAR) ** 2 / _PER_SECOND
    mass = matrix(b, b.mass, 0)
    for body in bodies:
        _fix(b, body, mass)
    stiff = matrix(b, b.stiffness, 2) + shift * mass
    root = np.linalg.cholesky(stiff[held:, held:])
    half = np.linalg.solve(root, mass[held:, held:])
    ratios = np.linalg.eigvalsh(np.linalg.solve(root, half.T))[::-1]
    squares = np.maximum(1 / np.maximum(ratios, 1e-300) - shift, 0.0)
    return np.sqrt(squares * _PER_SECOND) / (2 * math.pi)


def _fix(b: Beam, body: Body, mass: Floats) -> None:
    """Add a body to the mass of the piece it is on; it moves and turns with that piece.

    Beyond either end of the beam it hangs on a rigid arm from the end node: that does not depend
    on how long the last piece is.
    """
    x = float(np.clip(body.x, b.nodes[0], b.nodes[-1]))
    arm = body.x - x
    piece = int(np.clip(np.searchsorted(b.nodes, x) - 1, 0, len(b.nodes) - 2))
    h = b.lengths[piece : piece + 1]
    s = (x - b.nodes[piece : piece + 1]) / h
    slope = shapes(s, h, 1)
    height = shapes(s, h, 0) + arm * slope
    at = slice(2 * piece, 2 * piece + 4)
    mass[at, at] += body.mass * np.outer(height, height) + body.moment_of_inertia * np.outer(
        slope, slope
    )
