"""The stick under the hair's pull: stiffness, buckling load, clear height, camber left in play.

Frame: places from the ferrule in play to the head, even along the straight edge under the stick.

Not included: creep of the wood, and the flexibility of head and frog.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.bow.dims.travel import Travel
from templates_gen.geometry import Floats
from templates_gen.mechanics.columns import buckling_loads, heights_under_tension
from templates_gen.parameters import Dims, Family, FloatOrArray
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.stick.dims_sections import StickSections
from templates_gen.shapes.camber import CamberKind

#: Of the camber's places, every fifth is used.
_EVERY = 5

#: Least clear height (mm) under the stick in play. Common practice, no source.
CLEAR_IN_PLAY = {"violin": 6.0, "viola": 7.0, "cello": 8.0, "bass-french": 10.0, "bass-german": 10}
#: Least camber (mm) that is left in play, and the most of the buckling load that may be pulled.
LEAST_CAMBER = 3.0
#: The head's face lies along the frog's bottom in play to so many degrees. Common practice, no
#: source; printed and not judged: a stick that straightens most near its tip turns the head more.
PARALLEL = 1.0
MOST_OF_BUCKLING = 0.7


@dataclass(frozen=True)
class Tension(Dims):
    """The stick under the hair's pull."""

    travel: Travel
    sections: StickSections
    hair: Hair
    material: MaterialDims
    family: Family

    @property
    def least_clear(self) -> float:
        """Least clear height (mm) under the stick in play."""
        return CLEAR_IN_PLAY[self.family.name]

    @cached_property
    def places(self) -> Floats:
        """Places along the stick (mm)."""
        start, run = self.travel.frog.params.front_at_play, self.travel.stick.run
        share = self.travel.stick.camber.shares[..., ::_EVERY]
        return np.asarray(start)[..., None] + np.asarray(run)[..., None] * share

    @cached_property
    def thickness(self) -> Floats:
        """The stick's thickness there (mm)."""
        return np.asarray(self.sections.dims.diameter(self.places))

    @cached_property
    def stiffness(self) -> Floats:
        """Modulus times second moment there (N mm²)."""
        inertia = np.asarray(self.sections.at(self.places).inertia)
        stiffness: Floats = np.asarray(self.material.modulus)[..., None] * 1e3 * inertia
        return stiffness

    @cached_property
    def buckling(self) -> FloatOrArray:
        """The pull (N) at which the straight stick buckles."""
        return buckling_loads(self.stiffness, np.asarray(self.travel.stick.run))

    @property
    def by_tension(self) -> bool:
        """Whether the stick is bent by the tension law."""
        return self.travel.stick.params.camber is CamberKind.TENSION

    @property
    def straight_at(self) -> FloatOrArray:
        """The pull (N) at which a stick bent by the tension law is straight."""
        return self.material.modulus * 1e3 * self.travel.stick.pulled.pull_per_modulus

    @cached_property
    def unstrung(self) -> Floats:
        """Height of the axis above the slack hair, straight from ferrule to head (mm)."""
        return self.travel.gaps_at(_EVERY) + self.thickness / 2

    def gaps(self, pull: FloatOrArray) -> Floats:
        """Clear height (mm) under the stick along the hair, drawn with so many newtons."""
        chord = np.asarray(self.travel.stick.chord)
        drawn = heights_under_tension(self.stiffness, self.unstrung, chord, np.asarray(pull))
        return drawn - self.thickness / 2

    @cached_property
    def in_play(self) -> Floats:
        """Clear height (mm) under the stick in play."""
        return self.gaps(self.hair.tension_n)

    def face_to_frog(self, pull: FloatOrArray) -> FloatOrArray:
        """How much (degrees) the head's face rises more, forward, than the frog's bottom.

        Less than 0 where it dips toward the hair. Slack, the face lies along the hair; both turn
        with the stick's ends, for the frog hangs on the handle.
        """
        slack = self._leans(self.unstrung)
        drawn = self._leans(self.gaps(pull) + self.thickness / 2)
        return np.degrees(drawn[1] - slack[1] - drawn[0])

    def _leans(self, heights: Floats) -> tuple[FloatOrArray, FloatOrArray]:
        """How much (radians) the axis rises, forward, at the ferrule and at the head."""
        step = np.asarray(self.travel.stick.chord)[..., None] / (heights.shape[-1] - 1)
        slopes = np.arctan(np.gradient(heights, axis=-1, edge_order=2) / step)
        return slopes[..., 0], slopes[..., -1]

    @property
    def clear_in_play(self) -> FloatOrArray:
        """The least of it (mm)."""
        return least(self.in_play)

    @property
    def camber_in_play(self) -> FloatOrArray:
        """The camber left in play (mm)."""
        return camber_left(self.in_play)


def least(gaps: Floats) -> FloatOrArray:
    """The least clear height (mm)."""
    return gaps.min(axis=-1)


def camber_left(gaps: Floats) -> FloatOrArray:
    """How deep the underside lies below the straight edge from ferrule to head (mm)."""
    u = np.linspace(0.0, 1.0, gaps.shape[-1])
    edge = gaps[..., :1] + (gaps[..., -1:] - gaps[..., :1]) * u
    return (edge - gaps).max(axis=-1)
