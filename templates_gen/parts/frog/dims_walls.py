"""Least ebony round the pockets of the frog. Frame of ``dims``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.arch_depth import depth_in_arch
from templates_gen.shapes.recess import Recess


@dataclass(frozen=True)
class FrogWalls(Dims):
    """Walls of ebony."""

    frog: FrogDims

    # --- the outside -----------------------------------------------------------------------------

    @cached_property
    def edge_thickness(self) -> FloatOrArray:
        """Least thickness (mm) of the top edges, bounded by the flank or the block."""
        d, seat = self.frog, self.frog.seat
        heel, tip = (
            np.minimum(d.params.width_top / 2, d.half_width(x))
            - seat.land_at(x) / 2
            - seat.trench_height(x)
            for x in (0.0, d.params.length_top)
        )
        return np.minimum(heel, tip)

    @cached_property
    def thumb_straight(self) -> FloatOrArray:
        """Length along the bow (mm) of the straight line under the thumb projection.

        The rounding of the tip shortens it by the length of its tangent.
        """
        s, throat = self.frog.params, self.frog.throat
        slope = np.radians(s.thumb_slope_deg)
        rounding = s.thumb_tip_thickness / 2 * np.tan(np.pi / 4 - slope / 2)
        return throat.tip - rounding * np.cos(slope) - throat.joins_thumb[0]

    @cached_property
    def seat_over_plate(self) -> FloatOrArray:
        """Least ebony (mm) between the heel plate's upper edge and the floor of the seat.

        Measured vertically over the outer and inner corners of the edge.
        """
        d, h = self.frog, self.frog.heel
        lean, up = np.radians(h.params.lean_deg), h.params.rear_leg
        outer, inner = (
            d.trench_floor(h.corner + up * np.sin(lean) + deep * np.cos(lean))
            - (up * np.cos(lean) - deep * np.sin(lean))
            for deep in (0.0, h.sheet)
        )
        return np.minimum(outer, inner)

    # --- hair mortise and channel ----------------------------------------------------------------

    @cached_property
    def mortise_to_heel(self) -> FloatOrArray:
        """Least ebony (mm) between the hair mortise and the heel, or the plate let into it.

        The heel comes nearest at the top of the mortise, where it leans, or at the channel's floor,
        where its foot is rounded.
        """
        d, h, sheet = self.frog, self.frog.heel, self.frog.heel.sheet
        start, lean = d.params.hair_mortise_from_heel, np.radians(h.params.lean_deg)
        at_top = (start - h.rear_face(d.mortise_top)) * np.cos(lean) - sheet
        centre = h.params.bottom_radius
        down = np.maximum(centre - d.slide.params.thickness, 0.0)
        across = np.sqrt(np.maximum((centre - sheet) ** 2 - down**2, 0.0))
        at_floor = start - (centre - across)
        return np.minimum(at_top, at_floor)

    @cached_property
    def beside_mortise(self) -> FloatOrArray:
        """Least ebony (mm) between the hair mortise and the block's side or its hollow."""
        d = self.frog
        half, start = d.params.hair_mortise_width / 2, d.params.hair_mortise_from_heel
        block = np.minimum(d.half_width(start), d.half_width(d.mortise_front)) - half
        return np.minimum(block / np.hypot(1.0, self._widens), d.wall_to_flank)

    @property
    def _widens(self) -> FloatOrArray:
        """Growth of half the block's width per millimetre toward the ferrule."""
        d = self.frog
        return (d.half_width(d.shoulder) - d.half_width(0.0)) / d.shoulder

    @cached_property
    def beside_dovetail(self) -> FloatOrArray:
        """Least ebony (mm) between the channel's floor and the flank.

        The flank is the block's side, its hollow, and at the shoulder the ferrule's own D.
        """
        d, up = self.frog, self.frog.slide.params.thickness
        rear, front = (d.slide.floor(d.channel_width(x)) / 2 for x in (d.channel_rear, d.shoulder))
        level_rear, level_front = (
            d.half_width(d.channel_rear) - rear,
            d.half_width(d.shoulder) - front,
        )
        block = np.minimum(level_rear, level_front) / np.hypot(1.0, self._widens)
        f, widest = d.flank, np.maximum(rear, front)
        below = np.maximum(f.waist_height - up, 0.0)
        hollow = np.hypot(f.waist + f.radius - widest, below) - f.radius
        s = d.ferrule.params
        level = np.maximum(up - s.plate_thickness, 0.0)
        shape = (s.arch_kind, s.outer_width, d.ferrule.arch_height, s.arch_thickness)
        in_d = depth_in_arch(*shape, s.arch_corner_radius, front, level)
        return np.minimum(np.minimum(block, hollow), in_d)

    # --- the eye ---------------------------------------------------------------------------------

    @cached_property
    def recess(self) -> Recess:
        """Extent of the eye's recess."""
        d = self.frog
        r, t = d.params.eye_diameter / 2, d.params.eye_thickness
        return Recess(*d.eye, r, t, d.flank, d.throat)

    @cached_property
    def eye_to_mortise(self) -> FloatOrArray:
        """Least ebony (mm) between the eye's recess and the hair mortise."""
        d, s = self.frog, self.frog.params
        r, (x, _), (y, z) = s.eye_diameter / 2, d.eye, d.eye_floor
        half, (sine, cosine) = s.hair_mortise_width / 2, (np.sin(d.eye_lean), np.cos(d.eye_lean))
        # The mortise's upper corner, along the recess's floor and inward from it.
        dy, dz = half - y, d.mortise_top - z
        along, inward = cosine * dz - sine * dy, -(cosine * dy + sine * dz)
        least = np.hypot(np.maximum(inward, 0.0), np.maximum(np.abs(along) - r, 0.0))
        # The floor's rims over the mortise's side wall and roof.
        for way in (-r, r):
            rim_y, rim_z = y - way * sine, z + way * cosine
            beside, over = np.maximum(rim_y - half, 0.0), np.maximum(rim_z - d.mortise_top, 0.0)
            least = np.minimum(least, np.hypot(beside, over))
        apart = np.maximum(s.hair_mortise_from_heel - x - r, x - r - d.mortise_front)
        return np.hypot(least, np.maximum(apart, 0.0))
