"""Derived dimensions of the seat and its lining.

Frame: the frog's. x = 0 at the heel's plane, toward the head; y = 0 on the mid-plane; z = 0 on the
bottom plane, toward the stick. The axis of the stick is parallel to that plane; its facets taper,
and the seat with them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.params import Underslide, UnderslideKind
from templates_gen.shapes import octagon
from templates_gen.shapes.bend import bend_length
from templates_gen.shapes.seat import CORNER

#: Ebony between the edge of the lining and the flank (mm), and play of the shank in the lining.
EDGE_LEFT = 0.6
SHANK_PLAY = 0.3


@dataclass(frozen=True)
class UnderslideDims(Dims):
    """Derived dimensions of the seat and its lining."""

    params: Underslide
    frog: Frog
    heel: HeelDims
    eyelet: Eyelet
    stick: StickDims

    @property
    def lined(self) -> bool:
        """Whether there is a lining at all."""
        return self.params.kind is UnderslideKind.LINED

    @property
    def lining(self) -> FloatOrArray:
        """Thickness of the lining (mm), 0 where there is none."""
        return self.params.thickness if self.lined else 0.0 * self.params.thickness

    # --- the handle over the frog ----------------------------------------------------------------

    @cached_property
    def heel_in_play(self) -> FloatOrArray:
        """Position of the heel on the stick in play (mm from the butt's shoulder)."""
        return self.frog.front_at_play - self.frog.length_bottom

    def across_flats(self, x: FloatOrArray) -> FloatOrArray:
        """Return the handle's width across flats (mm) in play, x from the heel (mm)."""
        return self.stick.across_flats(self.heel_in_play + x)

    @cached_property
    def axis_height(self) -> FloatOrArray:
        """Height (mm) of the screw's axis: half the handle above its facet, at the eyelet."""
        return self.frog.clear_height + self.across_flats(self.eyelet.from_heel) / 2

    def facet_height(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) of the handle's bottom facet at x."""
        return self.axis_height - self.across_flats(x) / 2

    # --- the seat --------------------------------------------------------------------------------

    def land_at(self, x: FloatOrArray) -> FloatOrArray:
        """Return the width (mm) of the seat's land at x: less than any facet that comes there."""
        foremost = self.stick.eyelet_front - self.eyelet.from_heel
        return octagon.facet(self.stick.across_flats(foremost + x)) - self.frog.land_relief

    @cached_property
    def land(self) -> FloatOrArray:
        """Width (mm) of the land at the frog's front, where it is least."""
        return self.land_at(self.frog.length_top)

    @cached_property
    def land_drop(self) -> FloatOrArray:
        """Gap (mm) between the land and the facet of a stick that rests on the diagonal facets."""
        x = self.frog.length_top
        return (octagon.facet(self.across_flats(x)) - self.land_at(x)) / 2

    def land_height(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) of the land at x."""
        return self.facet_height(x) - self.land_drop

    def trench_height(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) from the land up to the edges at x."""
        return self.frog.overall_height - self.land_height(x)

    def stop_at(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) above the land at which the lining ends.

        The ebony is still thick enough there, and the lining never projects above the edges.
        """
        half = (self.frog.width_top - self.land_at(x)) / 2
        return np.minimum(half - self.lining * math.sqrt(0.5) - EDGE_LEFT, self.trench_height(x))

    @cached_property
    def stop(self) -> FloatOrArray:
        """Height (mm) of the lining above the land, at the heel."""
        return self.stop_at(0.0)

    @cached_property
    def least_stop(self) -> FloatOrArray:
        """Least height (mm) of the lining above the land, at one of its ends."""
        return np.minimum(self.stop_at(self.start), self.stop_at(self.end))

    # --- the lining ------------------------------------------------------------------------------

    @cached_property
    def start(self) -> FloatOrArray:
        """x (mm) of the lining's rear end, ahead of the heel's rounding and lean."""
        return self.heel.params.top_radius + self.heel.rear_face(self.frog.overall_height)

    @cached_property
    def end(self) -> FloatOrArray:
        """x (mm) of the lining's front end, behind the rounding of the thumb's tip."""
        return self.frog.length_top - self.frog.thumb_tip_thickness / 2

    @cached_property
    def length(self) -> FloatOrArray:
        """Length (mm) of the lining."""
        return self.end - self.start

    @cached_property
    def bend_setback(self) -> FloatOrArray:
        """Setback (mm) of a bend on each straight part, on the inner face."""
        return CORNER * self.params.bend_radius

    @cached_property
    def bend(self) -> FloatOrArray:
        """Bend allowance (mm) of one bend of 45°. Source: DIN 6935, see ``shapes.bend``."""
        return bend_length(45.0, self.params.bend_radius, self.params.thickness)

    def bend_line(self, x: FloatOrArray) -> FloatOrArray:
        """Return the distance (mm) of each bend's middle from the mid-plane, laid flat."""
        return (self.land_at(x) + self.bend) / 2 - self.bend_setback

    def flat_width(self, x: FloatOrArray) -> FloatOrArray:
        """Width (mm) of the lining laid flat, finished."""
        wing = self.stop_at(x) * math.sqrt(2) - self.bend_setback
        return 2 * (self.bend_line(x) + self.bend / 2 + wing)

    @cached_property
    def shank_hole(self) -> FloatOrArray:
        """Diameter (mm) of the hole through which the eyelet's shank passes."""
        return self.eyelet.shank_diameter + SHANK_PLAY
