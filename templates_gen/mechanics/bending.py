"""How far a stick gives under a load at rest."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from templates_gen.geometry.arrays import Floats
from templates_gen.mechanics.beam import Beam, matrix


def supported(b: Beam, loads: Mapping[float, float], on: tuple[float, float]) -> Floats:
    """How far each node sinks while it rests on two supports (mm).

    Args:
        b: the beam.
        loads: by place (mm), each the end of a piece: downward (N).
        on: the two supports (mm), each the end of a piece.
    """
    return _deflection(b, loads, [2 * b.node(x) for x in on])


def _deflection(b: Beam, loads: Mapping[float, float], held: Iterable[int]) -> Floats:
    force = np.zeros(2 * len(b.nodes))
    for x, load in loads.items():
        force[2 * b.node(x)] += load
    return solved(matrix(b, b.stiffness, 2), force, held)[::2]


def solved(stiffness: Floats, force: Floats, held: Iterable[int]) -> Floats:
    """Heights and slopes of all nodes where some of them are held at nought."""
    free = np.setdiff1d(np.arange(len(force)), list(held))
    moved = np.zeros_like(force)
    moved[free] = np.linalg.solve(stiffness[np.ix_(free, free)], force[free])
    return moved
