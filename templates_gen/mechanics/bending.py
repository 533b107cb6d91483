"""Static deflection of a stick under point loads."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.mechanics.beam import Beam, assemble_matrix


def supported_deflection(b: Beam, loads: Mapping[float, float], on: tuple[float, float]) -> Floats:
    """Calculate the deflection (mm) of each node of a beam on two supports.

    Args:
        b: the beam.
        loads: downward loads (N) by position (mm), each at a node.
        on: positions of the supports (mm), each at a node.
    """
    force = np.zeros(2 * len(b.nodes))
    for x, load in loads.items():
        force[2 * b.node(x)] += load
    held = [2 * b.node(x) for x in on]
    return solve_supported(assemble_matrix(b, b.stiffness, 2), force, held)[::2]


def solve_supported(stiffness: Floats, force: Floats, held: Iterable[int]) -> Floats:
    """Solve for deflections and slopes of all nodes, some of which are held at 0.

    Args:
        stiffness: stiffness matrix.
        force: load vector.
        held: indices held at 0.
    """
    free = np.setdiff1d(np.arange(len(force)), list(held))
    solution = np.zeros_like(force)
    solution[free] = np.linalg.solve(stiffness[np.ix_(free, free)], force[free])
    return solution
