"""Derived dimensions of the head.

Frame: origin at the rear edge of the plate's face, x forward in the flat rear part of the face, z
toward the stick, y on the mid-plane 0. The stick's top line rises forward in this frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, Family, FloatOrArray, Pattern
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.hair.dims import HairDims
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.head.params import Head
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.params import Stick
from templates_gen.shapes import facets
from templates_gen.shapes.arcs import Arcs
from templates_gen.shapes.arcs_through import arcs_through_table
from templates_gen.shapes.bent_sheet import BentSheet
from templates_gen.shapes.biarc import Biarc
from templates_gen.shapes.camber import STATIONS

#: Where the flat rear part of the face ends, as a fraction of its length.
FLAT_PART = 0.36

#: Fall (mm) of the two facets beside the ridge, down to the cheeks: the same on a wide and a narrow
#: head, so that they do not cut into the mortise walls of a bass head.
FACETS_FALL = 5.0

#: The cheeks stay nearly upright up to this height above the mortise (mm).
CHEEK_ABOVE = 2.0


@dataclass(frozen=True)
class HeadDims(Dims):
    """Derived dimensions of the head."""

    params: Head
    stick: Stick
    bow: StickDims
    hair: HairDims
    tip: Hair
    ferrule: FerruleDims
    frog: FrogDims
    family: Family
    drawn: Pattern

    # --- the side --------------------------------------------------------------------------------

    @cached_property
    def neck_height(self) -> FloatOrArray:
        """Height (mm) from the face to the underside of the stick at the face's rear edge, h_h."""
        return self.params.height - self.stick.diameter_head

    @cached_property
    def rise(self) -> FloatOrArray:
        """Angle (radians) at which the stick rises forward over the face.

        It is the slope of the camber at the head plus the slope of the hair line to the chord of
        the underside; for an even camber the first is 4 c / L. Source: geometry of a shallow arc.
        """
        hair_line = (
            self.neck_height - self.frog.params.clear_height + self.ferrule.params.plate_thickness
        ) / self.tip.length
        return np.arctan(self.bow.camber.slope_at_head) + np.arctan(hair_line)

    @cached_property
    def camber_radius(self) -> FloatOrArray:
        """Radius (mm) of the stick's underside just behind the head."""
        camber = self.bow.camber
        step = self.bow.chord / STATIONS
        return step / (camber.slope_near_head(1) - camber.slope_near_head(2))

    @cached_property
    def back_straight(self) -> FloatOrArray:
        """Length (mm) of the straight back of the head, from the face to its rounding.

        The rounding's centre stands its radius behind the back's line and below the underside,
        whose curve is centred high above the hair's far side.
        """
        back, r, rise = np.radians(self.params.back_deg), self.params.back_radius, self.rise
        under = self.camber_radius
        top = under - self.stick.diameter_head * np.cos(rise)
        ux = top * np.sin(rise) - r * np.sin(back)
        uz = r * np.cos(back) - self.params.height - top * np.cos(rise)
        half = ux * np.cos(back) + uz * np.sin(back)
        return -half - np.sqrt(half**2 - (ux**2 + uz**2 - (under + r) ** 2))

    @cached_property
    def flat(self) -> FloatOrArray:
        """x (mm) where the face begins to rise."""
        return FLAT_PART * self.params.face_length

    @cached_property
    def face_radius(self) -> FloatOrArray:
        """Radius (mm) of the face's rise to the nose."""
        s = self.params
        return ((s.face_length - self.flat) ** 2 + s.nose_rise**2) / (2 * s.nose_rise)

    @cached_property
    def crown(self) -> tuple[FloatOrArray, FloatOrArray]:
        """x and z (mm) of the crown, where the ridge leaves the stick's top line."""
        s = self.params
        x = s.ridge_points[0][0] if s.ridge_points else s.crown_fraction * s.face_length
        return x, s.height + x * np.tan(self.rise)

    @cached_property
    def nose(self) -> tuple[FloatOrArray, FloatOrArray]:
        """x and z (mm) of the nose's upper corner, where the ridge ends."""
        s = self.params
        return s.face_length, s.nose_rise + s.nose_thickness

    @cached_property
    def two_arcs(self) -> Biarc:
        """Construction of the ridge from the crown to the nose, where none was measured."""
        s = self.params
        return Biarc(*self.crown, self.rise, *self.nose, -np.radians(s.ridge_deg), s.ridge_ratio)

    @cached_property
    def ridge(self) -> Arcs:
        """The ridge from the crown to the nose: two arcs, or as measured.

        Measured points have no tolerance: the head is filed to the line drawn through them,
        whatever else varies.
        """
        if not self.params.ridge_points:
            return self.two_arcs.arcs
        d = self.drawn.derive(HeadDims)
        return arcs_through_table(self.params.ridge_points, d.crown, d.nose, d.rise)

    @cached_property
    def block_depth(self) -> FloatOrArray:
        """Greatest depth (mm) of the face below the stick's top line, square to that line.

        The face is not parallel to the stick: the depth is greatest where both slopes are equal.
        """
        s = self.params
        x = np.minimum(self.flat + self.face_radius * np.sin(self.rise), s.face_length)
        z = self.face_radius - np.sqrt(self.face_radius**2 - np.maximum(x - self.flat, 0.0) ** 2)
        return x * np.sin(self.rise) + (s.height - z) * np.cos(self.rise)

    @cached_property
    def block_rear(self) -> FloatOrArray:
        """Distance (mm) of the face's rear edge behind the point of the stick square above it."""
        return self.params.height * np.sin(self.rise)

    # --- across ----------------------------------------------------------------------------------

    def half_width(self, x: FloatOrArray) -> FloatOrArray:
        """Return half the face's width (mm) at x, on its straight rear part."""
        s = self.params
        return (s.width + (s.face_width_front - s.width) * x / s.face_width_front_at) / 2

    @cached_property
    def cheek_lean(self) -> FloatOrArray:
        """Inward lean of a cheek (mm per mm of height), from the face past the mortise."""
        return np.tan(np.radians(self.params.cheek_lean_deg))

    @cached_property
    def cheek_top(self) -> FloatOrArray:
        """Height (mm) above which the cheeks lean in more, up to the sides of the stick."""
        return self.params.mortise_depth + CHEEK_ABOVE

    @cached_property
    def upper_lean(self) -> FloatOrArray:
        """Inward lean of a cheek (mm per mm of height) above that height."""
        wide = self.params.width / 2 - self.cheek_lean * self.cheek_top
        return (wide - self.stick.diameter_head / 2) / (self.neck_height - self.cheek_top)

    @cached_property
    def nose_curve(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Centre x, centre y and radius (mm) of the right-hand curve to the nose.

        Tangent to the straight side at its front end, through the corner of the nose.
        """
        s = self.params
        x, y = s.face_width_front_at, s.face_width_front / 2
        slope = np.arctan2((s.face_width_front - s.width) / 2, s.face_width_front_at)
        dx, dy = s.face_length - x, s.nose_width / 2 - y
        # The centre lies square to the side, inward; the middle of the chord fixes its distance.
        nx, ny = np.sin(slope), -np.cos(slope)
        radius = (dx**2 + dy**2) / (2 * (dx * nx + dy * ny))
        return x + radius * nx, y + radius * ny, radius

    # --- the mortise -----------------------------------------------------------------------------

    @cached_property
    def mortise_front(self) -> FloatOrArray:
        """x (mm) of the mortise's front wall at the face."""
        return self.params.mortise_from_rear + self.params.mortise_length

    @cached_property
    def mortise_foot(self) -> FloatOrArray:
        """x (mm) of the mortise's undercut front wall at full depth."""
        tilt = np.tan(np.radians(self.params.mortise_undercut_deg))
        return self.mortise_front + self.params.mortise_depth * tilt

    @cached_property
    def mortise_foot_width(self) -> FloatOrArray:
        """Width (mm) of the mortise's front wall at full depth, its sides extended."""
        s = self.params
        grows = (s.mortise_width_front - s.mortise_width) / s.mortise_length
        return s.mortise_width + grows * (self.mortise_foot - s.mortise_from_rear)

    @cached_property
    def to_back(self) -> FloatOrArray:
        """Wood (mm) between the mortise's rear wall and the back of the head.

        The line of the back is extended below the face, so this is never more than the real wall.
        """
        s, back = self.params, np.radians(self.params.back_deg)
        face = s.mortise_from_rear * np.sin(back)
        deep = face - s.mortise_depth * np.cos(back)
        return np.minimum(face, deep)

    @cached_property
    def to_ridge(self) -> FloatOrArray:
        """Wood (mm) between the mortise's front upper corner and the ridge."""
        return self.ridge.depth_and_slope(self.mortise_foot, self.params.mortise_depth)[0]

    @cached_property
    def facet_fall(self) -> FloatOrArray:
        """Fall (mm per mm across) of a facet beside the ridge, both back and down."""
        return FACETS_FALL / (self.params.width / 2)

    def cheek_from_ridge(self, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
        """Distance (mm) across from the edge of the ridge to a cheek."""
        return self.half_width(x) - self.cheek_lean * z - self.params.ridge_width / 2

    @cached_property
    def to_facets(self) -> FloatOrArray:
        """Wood (mm) between the mortise's front upper corners and the facets beside the ridge."""
        s = self.params
        across = (self.mortise_foot_width - s.ridge_width) / 2
        corner = self.mortise_foot, across, s.mortise_depth
        return facets.depth(
            self.ridge.depth_and_slope, self.cheek_from_ridge, self.facet_fall, corner
        )

    @cached_property
    def plug_room(self) -> FloatOrArray:
        """Depth (mm) of the mortise in the wood, under plate and liner."""
        s = self.params
        return s.mortise_depth - s.plate_thickness - s.liner_thickness

    @cached_property
    def plug_length(self) -> FloatOrArray:
        """Length (mm) of the plug: the hair passes between it and the rear wall."""
        s = self.params
        layer = self.hair.thickness * self.hair.ribbon_width / s.mortise_width
        return s.mortise_length - layer

    # --- plate and liner laid flat ----------------------------------------------------------------

    @cached_property
    def plate(self) -> BentSheet:
        """The tip plate, bent to the face."""
        s = self.params
        return BentSheet(self.flat, self.face_radius, s.face_length, 0.0, s.plate_thickness)

    @cached_property
    def liner(self) -> BentSheet:
        """The liner, bent to the face under the plate."""
        s, top = self.params, self.params.plate_thickness
        return BentSheet(self.flat, self.face_radius, s.face_length, top, s.liner_thickness)
