"""Derived dimensions of the frog.

Frame: x = 0 at the heel's rearmost point, toward the head; z = 0 on the bottom plane (underside of
slide, heel leg and ferrule plate), toward the stick; y = 0 on the mid-plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.eyelet.dims import EyeletDims
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.params import EyeKind, Frog
from templates_gen.parts.hair.dims import HairDims
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.slide.dims import SlideDims
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.flank import Flank
from templates_gen.shapes.throat import Throat

#: The tongue ends this far behind the ferrule's front (mm), so that it stays hidden.
TONGUE_SHORT = 0.3

#: The flank's hollow runs out at least this far behind the shoulder (mm).
RUN_OUT = 2.0


@dataclass(frozen=True)
class FrogDims(Dims):
    """Derived dimensions of the frog."""

    params: Frog
    hair: HairDims
    ferrule: FerruleDims
    slide: SlideDims
    heel: HeelDims
    seat: UnderslideDims
    eyelet: EyeletDims

    # --- the side --------------------------------------------------------------------------------

    @cached_property
    def shoulder(self) -> FloatOrArray:
        """x (mm) of the shoulder, against which the ferrule butts."""
        return self.params.length_bottom - self.ferrule.params.length

    @cached_property
    def throat(self) -> Throat:
        """Construction of the throat."""
        s = self.params
        return Throat(
            shoulder=self.shoulder,
            ferrule=self.ferrule.params.height,
            depth=s.throat_depth,
            height=s.throat_centre_height,
            straight=s.throat_straight,
            tip=s.length_top,
            tip_height=s.clear_height - s.thumb_tip_thickness,
            slope_deg=s.thumb_slope_deg,
        )

    @cached_property
    def tongue_front(self) -> FloatOrArray:
        """x (mm) of the tongue's front end."""
        return self.params.length_bottom - TONGUE_SHORT

    @cached_property
    def tongue_bottom(self) -> FloatOrArray:
        """Height (mm) of the step under the tongue."""
        return self.ferrule.rebate_step

    @cached_property
    def tongue_top(self) -> FloatOrArray:
        """Height (mm) of the tongue's top: the arch's inside less half the fit."""
        f = self.ferrule.params
        return f.height - f.arch_thickness - f.tongue_fit / 2

    @cached_property
    def heel_lean(self) -> FloatOrArray:
        """x (mm) of the heel at the height of the edges: its forward lean there."""
        return self.heel.rear_face(self.params.overall_height)

    def trench_floor(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) of the ebony under the seat at x (mm)."""
        return self.seat.land_height(x) - self.seat.lining

    # --- the flank -------------------------------------------------------------------------------

    def half_width(self, x: FloatOrArray) -> FloatOrArray:
        """Return half the frog's width (mm) at the bottom, at x (mm); the taper is even."""
        heel, shoulder = self.params.width_heel / 2, self.ferrule.params.outer_width / 2
        return heel + (shoulder - heel) * x / self.shoulder

    @cached_property
    def flank(self) -> Flank:
        """Construction of the hollow."""
        s = self.params
        return Flank(
            s.width_heel / 2, s.width_waist / 2, s.width_top / 2, s.flank_band, s.overall_height
        )

    @cached_property
    def run_out(self) -> FloatOrArray:
        """x (mm) where the hollow begins to run out toward the shoulder."""
        depth = self.ferrule.half_width - self.flank.half_width(self.ferrule.params.height)
        return self.shoulder - RUN_OUT - np.maximum(depth, 0.0)

    # --- the hair mortise and the slide's channel ------------------------------------------------

    @cached_property
    def mortise_front(self) -> FloatOrArray:
        """x (mm) of the hair mortise's front wall."""
        return self.params.hair_mortise_from_heel + self.params.hair_mortise_length

    @cached_property
    def mortise_top(self) -> FloatOrArray:
        """Height (mm) of the hair mortise's roof above the bottom plane."""
        return self.slide.params.thickness + self.params.hair_mortise_depth

    def lip_height(self, x: FloatOrArray) -> FloatOrArray:
        """Return the height (mm) of the lip ahead of the mortise: its rounding, then the ramp.

        The rounding is tangent to the mortise's wall and to the ramp up to the tongue's step.
        """
        floor, ahead, r = (
            self.slide.params.thickness,
            x - self.mortise_front,
            self.params.lip_radius,
        )
        slope = (self.tongue_bottom - floor) / (self.shoulder - self.mortise_front)
        steep = np.hypot(1.0, slope)
        round_ = floor + r * (slope + steep) - np.sqrt(np.maximum(r**2 - (ahead - r) ** 2, 0.0))
        return np.where(ahead < r * (1 + slope / steep), round_, floor + slope * ahead)

    @cached_property
    def channel_rear(self) -> FloatOrArray:
        """x (mm) of the slide channel's closed end."""
        return self.shoulder - self.slide.params.length

    def channel_width(self, x: FloatOrArray) -> FloatOrArray:
        """Return the width (mm) of the channel at the bottom plane, at x (mm)."""
        s = self.slide.params
        wide = s.width_front + s.channel_fit
        return wide - s.width_taper * (self.shoulder - x) / s.length

    @cached_property
    def mortise_to_throat(self) -> FloatOrArray:
        """Least ebony (mm) between the hair mortise and the throat."""
        low, x = self.slide.params.thickness, self.mortise_front
        level = np.clip(self.throat.low, low, self.mortise_top)
        gaps = [self.throat.gap(x, z) for z in (low, level, self.mortise_top)]
        return np.minimum(np.minimum(gaps[0], gaps[1]), gaps[2])

    @cached_property
    def wall_to_flank(self) -> FloatOrArray:
        """Least ebony (mm) between the hair mortise and the hollowed flank."""
        f = self.flank
        level = np.clip(f.waist_height, self.slide.params.thickness, self.mortise_top)
        across = f.waist + f.radius - self.params.hair_mortise_width / 2
        return np.hypot(across, f.waist_height - level) - f.radius

    @cached_property
    def plug_length(self) -> FloatOrArray:
        """Length (mm) of the plug: the hair passes between it and the front wall."""
        layer = self.hair.thickness * self.hair.ribbon_width / self.params.hair_mortise_width
        return self.params.hair_mortise_length - layer

    @cached_property
    def plug_height(self) -> FloatOrArray:
        """Height (mm) of the plug: the knot lies above it."""
        return self.params.hair_mortise_depth - self.hair.knot

    # --- the eyelet's shank ----------------------------------------------------------------------

    @cached_property
    def shank_end(self) -> FloatOrArray:
        """Height (mm) at which the eyelet's shank ends in the ebony."""
        return self.eyelet.shank_end

    @cached_property
    def shank_to_mortise(self) -> FloatOrArray:
        """Ebony (mm) between shank and hair mortise; less 1 mm for a wall along the bow."""
        e = self.seat.eyelet
        ahead = e.from_heel - e.shank_diameter / 2 - self.mortise_front
        behind = self.params.hair_mortise_from_heel - e.from_heel - e.shank_diameter / 2
        over = self.shank_end - self.mortise_top
        return np.maximum(over, np.maximum(ahead, behind) - 1.0)

    @cached_property
    def shank_to_throat(self) -> FloatOrArray:
        """Ebony (mm) between shank and throat."""
        e = self.seat.eyelet
        edge, top = e.from_heel + e.shank_diameter / 2, self.trench_floor(e.from_heel)
        z = np.clip(self.throat.low, self.shank_end, top)
        return self.throat.gap(edge, z)

    # --- the eye ---------------------------------------------------------------------------------

    @property
    def has_eye(self) -> bool:
        """Whether the flanks carry an eye."""
        return self.params.eye_kind is not EyeKind.NONE

    @cached_property
    def eye(self) -> tuple[FloatOrArray, FloatOrArray]:
        """x and z (mm) of the eye's centre: between heel and throat, at half the height."""
        s = self.params
        height = (s.clear_height - self.seat.lining) / 2
        return (self.throat.deepest / 2 + s.eye_forward, height + s.eye_up)

    @cached_property
    def eye_lean(self) -> FloatOrArray:
        """Upward lean (radians) of the eye, which is square to the flank."""
        return self.flank.lean(self.eye[1])

    @cached_property
    def eye_rim(self) -> FloatOrArray:
        """Height (mm) of the lowest point of the eye's rim, on the hollow."""
        f, half = self.flank, np.arcsin(self.params.eye_diameter / 2 / self.flank.radius)
        return f.waist_height - f.radius * np.sin(self.eye_lean + half)

    @cached_property
    def eye_floor(self) -> tuple[FloatOrArray, FloatOrArray]:
        """y and z (mm) of the middle of the recess's floor."""
        y, z, t = self.flank.half_width(self.eye[1]), self.eye[1], self.params.eye_thickness
        return (y - t * np.cos(self.eye_lean), z - t * np.sin(self.eye_lean))
