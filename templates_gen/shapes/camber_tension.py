"""The camber that the hair's tension pulls straight, from y'' = T y / (E I).

y is the height of the straight stick's axis above the hair line: it falls from the frog's height to
the head's. Lengths may be arrays; stations along the stick are on the last axis.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import FloatOrArray, Floats
from templates_gen.shapes.camber import STATIONS, UNIT_STATIONS, Camber, integrate_curvature
from templates_gen.shapes.slack_hair import SlackHair

#: Maps fractions of the way from ferrule to head to thickness (mm) and second moment (mm⁴).
SectionAt = Callable[[Floats], tuple[Floats, Floats]]
#: The height at the frog and the stations along the stick depend on the camber, and the camber on
#: them: so many iterations converge.
_ITERATIONS = 4


@dataclass(frozen=True)
class PulledStraight:
    """A stick whose axis the hair's tension pulls straight.

    Args:
        run: length of the underside from ferrule to head (mm).
        depth: greatest depth of the underside's camber (mm).
        section_at: the stick's cross-section.
        frog, head: distance from the underside to the hair at frog and head (mm).
        hair: playing length of the hair (mm).
    """

    run: FloatOrArray
    depth: FloatOrArray
    section_at: SectionAt
    frog: FloatOrArray
    head: FloatOrArray
    hair: FloatOrArray

    @property
    def camber(self) -> Camber:
        """The camber of its underside."""
        return self._solved[0]

    @property
    def pull_per_modulus(self) -> FloatOrArray:
        """Tension (N) that pulls it straight for a modulus of 1 N/mm²."""
        return self._solved[1] / np.asarray(self.camber.length) ** 2

    @cached_property
    def _solved(self) -> tuple[Camber, FloatOrArray]:
        camber = Camber.along(self.run, self.depth, np.ones_like(UNIT_STATIONS))
        factor: FloatOrArray = 0.0
        for _ in range(_ITERATIONS):
            thick, inertia = self.section_at(camber.shares)
            curvature = self._heights(camber, thick) / inertia
            sag = _sag(thick)
            factor = self._factor(curvature, sag)
            bend = np.asarray(factor)[..., None] * curvature
            camber = Camber.along(self.run, self.depth, bend + _curvature(sag), bend)
        return camber, factor

    def _heights(self, camber: Camber, thick: Floats) -> Floats:
        """Calculate the height of the straight axis above the hair line (mm)."""
        chord = camber.length
        hair = SlackHair.under(chord, camber.slope_at_ferrule, self.frog, self.head, self.hair)
        ends = hair.below(0.0, 0.0), hair.below(chord, 0.0)
        rear, front = (
            np.asarray(gap)[..., None] + thick[..., [at]] / 2
            for gap, at in zip(ends, (0, -1), strict=True)
        )
        return rear + (front - rear) * UNIT_STATIONS

    def _factor(self, curvature: Floats, sag: Floats) -> FloatOrArray:
        """Find the factor of the curvature that gives the underside its greatest depth."""
        y, _ = integrate_curvature(curvature)
        room = np.asarray(self.depth)[..., None] - sag
        return (room[..., 1:-1] / y[..., 1:-1]).min(axis=-1)


def _sag(thick: Floats) -> Floats:
    """Calculate the depth (mm) of the underside of a straight stick whose taper is not linear."""
    ends = thick[..., :1] + (thick[..., -1:] - thick[..., :1]) * UNIT_STATIONS
    return (thick - ends) / 2


def _curvature(sag: Floats) -> Floats:
    """Calculate the curvature of a sag (mm), for unit length."""
    bend = np.zeros_like(sag)
    bend[..., 1:-1] = (2 * sag[..., 1:-1] - sag[..., :-2] - sag[..., 2:]) * STATIONS**2
    bend[..., 0], bend[..., -1] = bend[..., 1], bend[..., -2]
    return bend
