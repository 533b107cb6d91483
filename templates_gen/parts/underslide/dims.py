"""What follows from the seat and its lining.

Frame of the flat lining: x = 0 at the heel's plane, toward the head; y = 0 on the mid-plane.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.heel.params import Heel
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.params import Underslide, UnderslideKind
from templates_gen.shapes.bend import bend_length
from templates_gen.shapes.seat import CORNER

#: Ebony left between the lining's edge and the flank (mm), and the shank's play in the lining.
EDGE_LEFT = 0.6
SHANK_PLAY = 0.3


@dataclass(frozen=True)
class UnderslideDims:
    """Derived dimensions of the seat and its lining."""

    stated: Underslide
    frog: Frog
    heel: Heel
    eyelet: Eyelet
    stick: StickDims

    @classmethod
    def of(cls, p: Pattern) -> UnderslideDims:
        return cls(p[Underslide], p[Frog], p[Heel], p[Eyelet], p.derive(StickDims))

    @property
    def lined(self) -> bool:
        """Whether there is a lining at all."""
        return self.stated.kind is UnderslideKind.LINED

    @property
    def lining(self) -> Num:
        """Thickness of the lining (mm), 0 where there is none."""
        return self.stated.thickness if self.lined else 0.0 * self.stated.thickness

    @cached_property
    def land(self) -> Num:
        """Width (mm) of the seat's land: less than the least facet, so the diagonals carry."""
        return self.stick.least_facet - self.frog.land_relief

    @cached_property
    def land_drop(self) -> Num:
        """How far (mm) the land stands below the facet of a stick that lies on the diagonals."""
        return self.frog.land_relief / 2

    @cached_property
    def land_height(self) -> Num:
        """Height (mm) of the land above the bottom plane."""
        return self.frog.clear_height - self.land_drop

    @cached_property
    def trench_height(self) -> Num:
        """From the land up to the edges (mm)."""
        return self.frog.overall_height - self.land_height

    @cached_property
    def edge_thickness(self) -> Num:
        """Thickness (mm) of the edges at their tops."""
        return (self.frog.width_top - self.land) / 2 - self.trench_height

    @cached_property
    def stop(self) -> Num:
        """Height (mm) above the land at which the lining ends, its ebony still thick enough."""
        half = (self.frog.width_top - self.land) / 2
        return half - self.lining * math.sqrt(0.5) - EDGE_LEFT

    @cached_property
    def length(self) -> Num:
        """Length (mm) of the lining: from the heel's rounding to where the thumb's tip rounds."""
        return self.frog.length_top - self.heel.top_radius - self.frog.thumb_tip_thickness / 2

    @cached_property
    def bend_setback(self) -> Num:
        """What a bend takes of each straight part (mm), on its inner face."""
        return CORNER * self.stated.bend_radius

    @cached_property
    def bend(self) -> Num:
        """Sheet taken up by one bend of 45° (mm). Source: DIN 6935, see ``shapes.bend``."""
        return bend_length(45.0, self.stated.bend_radius, self.stated.thickness)

    @cached_property
    def land_straight(self) -> Num:
        """Straight part of the land (mm)."""
        return self.land - 2 * self.bend_setback

    @cached_property
    def wing_straight(self) -> Num:
        """Straight part of each wing (mm)."""
        return self.stop * math.sqrt(2) - self.bend_setback

    @cached_property
    def bend_line(self) -> Num:
        """Middle of each bend (mm) from the mid-plane, laid flat."""
        return self.land_straight / 2 + self.bend / 2

    @cached_property
    def flat_width(self) -> Num:
        """Width (mm) of the lining laid flat, finished."""
        return self.land_straight + 2 * self.bend + 2 * self.wing_straight

    @cached_property
    def shank_hole(self) -> Num:
        """Diameter (mm) of the hole through which the eyelet's shank passes."""
        return self.eyelet.shank_diameter + SHANK_PLAY
