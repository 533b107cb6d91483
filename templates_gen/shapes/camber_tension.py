"""The camber that the hair's pull makes straight, by y'' = T y / (E I).

y is the height of the stick's axis above the hair line when the stick is straight: it falls from
the frog's height to the head's. Lengths may be arrays; places along the stick are the last axis.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray, Floats
from templates_gen.shapes.camber import EVENLY, STATIONS, Camber, hung
from templates_gen.shapes.slack_hair import SlackHair

#: Gives thickness (mm) and second moment (mm⁴) at shares of the way from ferrule to head.
Across = Callable[[Floats], tuple[Floats, Floats]]
#: The height at the frog and the places along the stick change a little with the camber, and the
#: camber with them: after so many rounds none does.
_ROUNDS = 4


@dataclass(frozen=True)
class PulledStraight:
    """A stick whose axis a pull makes straight.

    Args:
        run: length of the underside from ferrule to head (mm).
        depth: of the underside's camber at its deepest (mm).
        across: the stick's section.
        frog, head: from the underside to the hair at frog and head (mm).
        hair: its playing length (mm).
    """

    run: FloatOrArray
    depth: FloatOrArray
    across: Across
    frog: FloatOrArray
    head: FloatOrArray
    hair: FloatOrArray

    @property
    def camber(self) -> Camber:
        """The camber of its underside."""
        return self._solved[0]

    @property
    def pull_per_modulus(self) -> FloatOrArray:
        """The pull (N) that makes it straight for a modulus of 1 N/mm²."""
        return self._solved[1] / np.asarray(self.camber.length) ** 2

    @cached_property
    def _solved(self) -> tuple[Camber, FloatOrArray]:
        camber = Camber.along(self.run, self.depth, np.ones_like(EVENLY))
        factor: FloatOrArray = 0.0
        for _ in range(_ROUNDS):
            thick, inertia = self.across(camber.shares)
            softness = self._heights(camber, thick) / inertia
            sag = _sag(thick)
            factor = self._factor(softness, sag)
            bend = np.asarray(factor)[..., None] * softness
            camber = Camber.along(self.run, self.depth, bend + _curvature(sag), bend)
        return camber, factor

    def _heights(self, camber: Camber, thick: Floats) -> Floats:
        """Height of the straight axis above the hair line (mm)."""
        chord = camber.length
        hair = SlackHair.under(chord, camber.at_ferrule, self.frog, self.head, self.hair)
        ends = hair.below(0.0, 0.0), hair.below(chord, 0.0)
        rear, front = (
            np.asarray(gap)[..., None] + thick[..., [at]] / 2
            for gap, at in zip(ends, (0, -1), strict=True)
        )
        heights: Floats = rear + (front - rear) * EVENLY
        return heights

    def _factor(self, softness: Floats, sag: Floats) -> FloatOrArray:
        """From softness to bend, so that the underside is as deep as stated at its deepest."""
        y, _ = hung(softness)
        room = np.asarray(self.depth)[..., None] - sag
        factor: FloatOrArray = (room[..., 1:-1] / y[..., 1:-1]).min(axis=-1)
        return factor


def _sag(thick: Floats) -> Floats:
    """Depth (mm) of the underside where the axis is straight: the taper is not."""
    ends = thick[..., :1] + (thick[..., -1:] - thick[..., :1]) * EVENLY
    sag: Floats = (thick - ends) / 2
    return sag


def _curvature(sag: Floats) -> Floats:
    """Its curvature, for unit length (mm)."""
    bend = np.zeros_like(sag)
    bend[..., 1:-1] = (2 * sag[..., 1:-1] - sag[..., :-2] - sag[..., 2:]) * STATIONS**2
    bend[..., 0], bend[..., -1] = bend[..., 1], bend[..., -2]
    return bend
