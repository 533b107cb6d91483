"""What follows from the frog.

Frame: x = 0 at the heel's rearmost place, toward the head; z = 0 on the bottom plane (underside of
slide, heel leg and ferrule plate), toward the stick; y = 0 on the mid-plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.slide.dims import SlideDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.throat import Throat

#: The tongue ends this far behind the ferrule's front (mm), so that it is never seen.
TONGUE_SHORT = 0.3


@dataclass(frozen=True)
class FrogDims:
    """Derived dimensions of the frog."""

    stated: Frog
    stick: StickDims
    ferrule: FerruleDims
    slide: SlideDims
    heel: HeelDims
    seat: UnderslideDims

    @classmethod
    def of(cls, p: Pattern) -> FrogDims:
        return cls(
            p[Frog],
            p.derive(StickDims),
            p.derive(FerruleDims),
            p.derive(SlideDims),
            p.derive(HeelDims),
            p.derive(UnderslideDims),
        )

    @cached_property
    def shoulder(self) -> Num:
        """x (mm) of the shoulder on which the ferrule butts."""
        return self.stated.length_bottom - self.ferrule.stated.length

    @cached_property
    def throat(self) -> Throat:
        """The throat's construction."""
        s = self.stated
        return Throat(
            shoulder=self.shoulder,
            ferrule=self.ferrule.stated.height,
            depth=s.throat_depth,
            height=s.throat_centre_height,
            straight=s.throat_straight,
            tip=s.length_top,
            tip_height=s.clear_height - s.thumb_tip_thickness,
            slope_deg=s.thumb_slope_deg,
        )

    @cached_property
    def tongue_front(self) -> Num:
        """x (mm) of the tongue's front end."""
        return self.stated.length_bottom - TONGUE_SHORT

    @cached_property
    def tongue_bottom(self) -> Num:
        """Height (mm) of the step under the tongue."""
        return self.ferrule.rebate_step

    @cached_property
    def tongue_top(self) -> Num:
        """Height (mm) of the tongue's top: the arch's inside less half the fit."""
        f = self.ferrule.stated
        return f.height - f.arch_thickness - f.tongue_fit / 2

    @cached_property
    def heel_lean(self) -> Num:
        """How far (mm) the heel leans forward at the height of the edges."""
        return self.stated.overall_height * np.tan(np.radians(self.heel.stated.lean_deg))

    @cached_property
    def trench_floor(self) -> Num:
        """Height (mm) of the ebony under the seat's land."""
        return self.seat.land_height - self.seat.lining

    @cached_property
    def mortise_front(self) -> Num:
        """x (mm) of the hair mortise's front wall."""
        return self.stated.hair_mortise_from_heel + self.stated.hair_mortise_length

    @cached_property
    def mortise_top(self) -> Num:
        """Height (mm) of the hair mortise's far end above the bottom plane."""
        return self.slide.stated.thickness + self.stated.hair_mortise_depth

    @cached_property
    def mortise_to_throat(self) -> Num:
        """Least ebony (mm) between the hair mortise and the throat."""
        top = self.throat.gap(self.mortise_front, self.mortise_top)
        foot = self.throat.gap(self.mortise_front, self.slide.stated.thickness)
        level = np.clip(self.throat.low, self.slide.stated.thickness, self.mortise_top)
        return np.minimum(np.minimum(top, foot), self.throat.gap(self.mortise_front, level))

    def half_width(self, x: Num) -> Num:
        """Half the frog's width (mm) at the bottom, x from the heel: it tapers evenly."""
        heel, shoulder = self.stated.width_heel / 2, self.ferrule.stated.outer_width / 2
        return heel + (shoulder - heel) * x / self.shoulder
