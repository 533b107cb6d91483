"""A column under the hair's pull, by finite elements: a second model to compare with."""

import numpy as np

from templates_gen.mechanics.beam import _WEIGHTS, _places, at_gauss_points, curves, matrix
from templates_gen.mechanics.bending import solved


def buckling_load(b):
    """Return the pull (N) at which a straight stick, hinged at both ends, buckles.

    Source: Euler's column, for any taper.
    """
    free = np.ix_(*2 * [np.setdiff1d(np.arange(2 * len(b.nodes)), _held(b))])
    root = np.linalg.cholesky(matrix(b, b.stiffness, 2)[free])
    half = np.linalg.solve(root, _thrust(b)[free])
    return float(1 / np.linalg.eigvalsh(np.linalg.solve(root, half.T))[-1])


def under_tension(b, unstrung, tension):
    """Return the height (mm) of each node above the hair line at a tension (N).

    ``unstrung`` gives the height of the axis without tension; its ends are the arms of head and
    frog, and stay.

    Source: EI (y″ − y₀″) = −T y, the moment of the hair's pull about the axis; small slopes.
    """
    stiff = matrix(b, b.stiffness, 2) - tension * _thrust(b)
    force = _vector(b, -tension * at_gauss_points(unstrung, b.gauss_points))
    return unstrung(b.nodes) + solved(stiff, force, _held(b))[::2]


def camber_for(b, tension, arms):
    """Return the unstrung height (mm) of each node that a tension (N) pulls straight.

    Source: y₀″ = T y / EI, with y the straight line from arm to arm.
    """
    run = b.nodes[-1] - b.nodes[0]

    def straight(x):
        return arms[0] + (arms[1] - arms[0]) * (x - b.nodes[0]) / run

    force = _vector(b, -tension * straight(b.gauss_points))
    return straight(b.nodes) - solved(matrix(b, b.stiffness, 2), force, _held(b))[::2]


def _vector(b, along):
    """Integrate a load times each shape's curvature over the beam."""
    weights = along * _WEIGHTS * b.lengths[:, None]
    whole = np.zeros(2 * len(b.nodes))
    np.add.at(whole, _places(b), np.einsum("eg,egi->ei", weights, curves(b, 2)))
    return whole


def _thrust(b):
    """Return the stiffness that one newton of thrust takes away."""
    return matrix(b, np.ones_like(b.stiffness), 1)


def _held(b):
    """Return the rows of the heights of both ends."""
    return 0, 2 * len(b.nodes) - 2
