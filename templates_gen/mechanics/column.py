"""The stick under the hair's pull: a column whose ends are drawn together off its axis."""

from __future__ import annotations

import numpy as np

from templates_gen.mechanics.beam import (
    Beam,
    Floats,
    Profile,
    assemble_matrix,
    assemble_vector,
    at_gauss_points,
)
from templates_gen.mechanics.bending import solve_supported


def buckling_load(b: Beam) -> float:
    """The pull at which a straight stick would give way sideways to it, however small the arm (N).

    Args:
        b: the stick between the hair's ends, which are hinges.

    Source: Euler's column, here of any taper.
    """
    free = np.ix_(*2 * [np.setdiff1d(np.arange(2 * len(b.nodes)), _held(b))])
    root = np.linalg.cholesky(assemble_matrix(b, b.stiffness, 2)[free])
    half = np.linalg.solve(root, _thrust(b)[free])
    return float(1 / np.linalg.eigvalsh(np.linalg.solve(root, half.T))[-1])


def height_under_tension(b: Beam, unstrung: Profile, tension: float) -> Floats:
    """The height of each node above the hair line when the hair is drawn (mm).

    Args:
        b: the stick between the hair's ends.
        unstrung: height of the stick's axis above the hair line without tension (mm); at the
            ends these are the arms of head and frog, and stay.
        tension: of the hair (N), below the buckling load.

    Source: EI (y″ − y₀″) = −T y, the moment of the hair's pull about the axis; small slopes.
    """
    stiff = assemble_matrix(b, b.stiffness, 2) - tension * _thrust(b)
    moved = solve_supported(
        stiff, assemble_vector(b, -tension * at_gauss_points(unstrung, b.gauss_points), 2), _held(b)
    )
    return unstrung(b.nodes) + moved[::2]


def camber_for_tension(b: Beam, tension: float, arms: tuple[float, float]) -> Floats:
    """The unstrung height of each node above the hair line that a tension pulls straight (mm).

    Args:
        b: the stick between the hair's ends.
        tension: at which the stick shall be straight (N).
        arms: height of the axis above the hair line at either end (mm).

    Source: y₀″ = T y / EI, with y the straight line from arm to arm.
    """
    run = b.nodes[-1] - b.nodes[0]

    def straight(x: Floats) -> Floats:
        line: Floats = arms[0] + (arms[1] - arms[0]) * (x - b.nodes[0]) / run
        return line

    force = assemble_vector(b, -tension * straight(b.gauss_points), 2)
    moved = solve_supported(assemble_matrix(b, b.stiffness, 2), force, _held(b))
    return straight(b.nodes) - moved[::2]


def _thrust(b: Beam) -> Floats:
    """What one newton of thrust takes from the stiffness."""
    return assemble_matrix(b, np.ones_like(b.stiffness), 1)


def _held(b: Beam) -> tuple[int, int]:
    """The heights of both ends."""
    return 0, 2 * len(b.nodes) - 2
