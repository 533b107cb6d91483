"""Cantilever and column by the package's finite elements, to compare with its faster formulas."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from scipy.linalg import eigh

from templates_gen.mechanics.beam import (
    Beam,
    Floats,
    Profile,
    assemble_matrix,
    at_gauss_points,
    element_shape_functions,
)
from templates_gen.mechanics.bending import solve_supported


def assemble_vector(b: Beam, along: Floats, order: int) -> Floats:
    """Assemble the vector of ∫ q N⁽ᵏ⁾ᵢ dx over the beam.

    Args:
        b: the beam.
        along: the quantity q at the Gauss points.
        order: derivative k of the shape functions N.
    """
    _, weights = np.polynomial.legendre.leggauss(b.gauss_points.shape[1])
    each = along * weights / 2 * b.lengths[:, None]
    elements = np.einsum("eg,egi->ei", each, element_shape_functions(b, order))
    whole = np.zeros(2 * len(b.nodes))
    # The degrees of freedom of an element: deflection and slope at its start and at its end.
    np.add.at(whole, 2 * np.arange(len(elements))[:, None] + np.arange(4), elements)
    return whole


def clamped_deflection(b: Beam, loads: Mapping[float, float]) -> Floats:
    """Calculate the deflection (mm) of each node of a beam clamped at its start.

    Args:
        b: the beam.
        loads: downward loads (N) by position (mm), each at a node.
    """
    force = np.zeros(2 * len(b.nodes))
    for x, load in loads.items():
        force[2 * b.node(x)] += load
    return solve_supported(assemble_matrix(b, b.stiffness, 2), force, (0, 1))[::2]


def buckling_load(b: Beam) -> float:
    """Calculate the buckling load (N) of a straight stick hinged at the hair's ends.

    Args:
        b: the stick between the hair's ends.

    Source: Euler's column, here of any taper.
    """
    free = np.ix_(*2 * [np.setdiff1d(np.arange(2 * len(b.nodes)), _held(b))])
    stiffness = assemble_matrix(b, b.stiffness, 2)[free]
    return float(1 / eigh(_geometric_stiffness(b)[free], stiffness, eigvals_only=True)[-1])


def height_under_tension(b: Beam, unstrung: Profile, tension: float) -> Floats:
    """Calculate the height (mm) of each node above the hair line under tension.

    Args:
        b: the stick between the hair's ends.
        unstrung: height of the stick's axis above the hair line without tension (mm); at the
            ends, the heights of frog and head, it does not change.
        tension: hair tension (N), below the buckling load.

    Source: EI (y″ − y₀″) = −T y, the moment of the tension about the axis; small slopes.
    """
    stiffness = assemble_matrix(b, b.stiffness, 2) - tension * _geometric_stiffness(b)
    force = assemble_vector(b, -tension * at_gauss_points(unstrung, b.gauss_points), 2)
    return unstrung(b.nodes) + solve_supported(stiffness, force, _held(b))[::2]


def camber_for_tension(b: Beam, tension: float, arms: tuple[float, float]) -> Floats:
    """Calculate the unstrung height (mm) of each node of a stick that a tension pulls straight.

    Args:
        b: the stick between the hair's ends.
        tension: hair tension at which the stick is straight (N).
        arms: heights of the axis above the hair line at the ends (mm).

    Source: y₀″ = T y / EI, with y the straight line from arm to arm.
    """
    run = b.nodes[-1] - b.nodes[0]

    def straight(x: Floats) -> Floats:
        line: Floats = arms[0] + (arms[1] - arms[0]) * (x - b.nodes[0]) / run
        return line

    force = assemble_vector(b, -tension * straight(b.gauss_points), 2)
    bend = solve_supported(assemble_matrix(b, b.stiffness, 2), force, _held(b))
    return straight(b.nodes) - bend[::2]


def _geometric_stiffness(b: Beam) -> Floats:
    """Assemble the reduction of the stiffness per newton of axial compression."""
    return assemble_matrix(b, np.ones_like(b.stiffness), 1)


def _held(b: Beam) -> tuple[int, int]:
    """List the degrees of freedom held at the hinges: the deflections of both ends."""
    return 0, 2 * len(b.nodes) - 2
