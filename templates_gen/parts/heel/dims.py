"""Derived dimensions of the heel plate.

Frame of the flat plate: x = 0 at the front edge of the bottom leg, toward the heel and on up the
rear leg; y = 0 on the mid-plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.heel.params import Heel, HeelKind
from templates_gen.parts.slide.dims import SlideDims
from templates_gen.shapes.bend import bend_length


@dataclass(frozen=True)
class HeelDims(Dims):
    """Derived dimensions of the heel plate."""

    params: Heel
    frog: Frog
    ferrule: FerruleDims
    slide: SlideDims

    @property
    def plated(self) -> bool:
        """Whether there is a plate at all."""
        return self.params.kind is not HeelKind.NONE

    @cached_property
    def leg_zone(self) -> FloatOrArray:
        """Length (mm) of the frog's bottom behind ferrule and slide, for the bottom leg."""
        return self.frog.length_bottom - self.ferrule.params.length - self.slide.params.length

    @cached_property
    def bend_turn_deg(self) -> FloatOrArray:
        """Angle through which the plate is bent (degrees)."""
        return 90.0 + self.params.lean_deg

    @cached_property
    def bend_inner_radius(self) -> FloatOrArray:
        """Inner radius (mm) of the bend; its outer face is the heel's rounding."""
        return self.params.bottom_radius - self.params.plate_thickness

    @cached_property
    def setback(self) -> FloatOrArray:
        """Setback (mm): the length that the rounding takes from each leg."""
        return self.params.bottom_radius * np.tan(np.radians(self.bend_turn_deg) / 2)

    @cached_property
    def corner(self) -> FloatOrArray:
        """x (mm) of the sharp corner that the rounding removes; x = 0 is the rearmost point."""
        return self.params.bottom_radius - self.setback

    def rear_face(self, z: FloatOrArray) -> FloatOrArray:
        """Return x (mm) of the rear face at a height (mm) above the rounding."""
        return self.corner + z * np.tan(np.radians(self.params.lean_deg))

    @property
    def sheet(self) -> FloatOrArray:
        """Thickness (mm) of the plate let into the ebony, 0 without a plate."""
        return self.params.plate_thickness if self.plated else 0.0 * self.params.plate_thickness

    @cached_property
    def bottom_straight(self) -> FloatOrArray:
        """Straight part of the bottom leg (mm)."""
        return self.params.leg_length - self.params.bottom_radius

    @cached_property
    def rear_straight(self) -> FloatOrArray:
        """Straight part of the rear leg (mm)."""
        return self.params.rear_leg - self.setback

    @cached_property
    def bend(self) -> FloatOrArray:
        """Bend allowance (mm). Source: DIN 6935, see ``shapes.bend``."""
        return bend_length(self.bend_turn_deg, self.bend_inner_radius, self.params.plate_thickness)

    @cached_property
    def flat_length(self) -> FloatOrArray:
        """Length (mm) of the plate laid flat, finished."""
        return self.bottom_straight + self.bend + self.rear_straight

    @cached_property
    def bend_line(self) -> FloatOrArray:
        """Middle of the bend (mm) from the bottom leg's front edge."""
        return self.bottom_straight + self.bend / 2

    @cached_property
    def bend_ends(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Where the bend begins and ends (mm) from the bottom leg's front edge."""
        return self.bottom_straight, self.bottom_straight + self.bend

    @cached_property
    def width_front(self) -> FloatOrArray:
        """Width (mm) of the frog at the front edge of the bottom leg; the taper is even."""
        f = self.frog
        shoulder = f.length_bottom - self.ferrule.params.length
        slope = (self.ferrule.params.outer_width - f.width_heel) / shoulder
        return f.width_heel + slope * self.params.leg_length

    @cached_property
    def pin_heights(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Heights (mm) of the two pins, along the rear leg."""
        high = self.params.rear_leg - self.params.pin_from_edge
        return (np.minimum(high, self.setback + self.params.pin_from_edge), high)

    @cached_property
    def pins_apart(self) -> FloatOrArray:
        """Distance (mm) between the pins, along the rear leg; negative where only one fits."""
        return self.rear_straight - 2 * self.params.pin_from_edge

    @cached_property
    def pin_to_mortise(self) -> FloatOrArray:
        """Ebony (mm) between a pin's end and the hair mortise's rear wall.

        The pin is driven square to the leaning plate; the upper edge of its end comes nearest.
        """
        s, lean = self.params, np.radians(self.params.lean_deg)
        up = np.maximum(*self.pin_heights) + s.pin_diameter / 2
        deep = s.plate_thickness + s.pin_length
        end = self.corner + up * np.sin(lean) + deep * np.cos(lean)
        return self.frog.hair_mortise_from_heel - end
