"""What follows from the head.

Frame: origin at the rear edge of the plate's face, x forward in the flat rear part of the face, z
toward the stick, y on the mid-plane 0. The stick's top line rises forward in this frame.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import FloatOrArray, Pattern
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

#: Where the face leaves its flat rear part, in parts of its length.
FLAT_PART = 0.36

#: How far the two facets beside the ridge fall back by the cheeks (mm): as far on a wide head as on
#: a narrow one, so that they do not cut into the walls of a bass head's mortise.
FACETS_FALL = 5.0

#: The cheeks stay near upright this far above the mortise (mm).
CHEEK_ABOVE = 2.0


@dataclass(frozen=True)
class HeadDims:
    """Derived dimensions of the head."""

    params: Head
    stick: Stick
    bow: StickDims
    hair: HairDims
    tip: Hair
    ferrule: FerruleDims
    frog: FrogDims
    bass: bool
    drawn: Pattern

    @classmethod
    def of(cls, p: Pattern) -> HeadDims:
        return cls(
            p[Head],
            p[Stick],
            p.derive(StickDims),
            p.derive(HairDims),
            p[Hair],
            p.derive(FerruleDims),
            p.derive(FrogDims),
            p.family.bass,
            p.drawn,
        )

    # --- the side --------------------------------------------------------------------------------

    @cached_property
    def neck_height(self) -> FloatOrArray:
        """From the face to the underside of the stick at the face's rear edge (mm), h_h."""
        return self.params.height - self.stick.diameter_head

    @cached_property
    def rise(self) -> FloatOrArray:
        """Angle (radians) by which the stick's line rises forward over the face.

        The camber's slope at the head and the slope of the hair's line to the chord of the stick's
        underside; for an even camber the first is 4 c / L. Source: geometry of a shallow arc.
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
        """Length (mm) of the back's straight line, from the face to its rounding.

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
        """The ridge's construction from the crown to the nose, where none was measured."""
        s = self.params
        return Biarc(*self.crown, self.rise, *self.nose, -np.radians(s.ridge_deg), s.ridge_ratio)

    @cached_property
    def ridge(self) -> Arcs:
        """The ridge from the crown to the nose: two arcs, or as measured.

        Measured points have no tolerance: whatever else is off, the head is filed to the line that
        is drawn through them.
        """
        if not self.params.ridge_points:
            return self.two_arcs.arcs
        d = self.drawn.derive(HeadDims)
        return arcs_through_table(self.params.ridge_points, d.crown, d.nose, d.rise)

    @cached_property
    def block_depth(self) -> FloatOrArray:
        """From the stick's top line to the deepest of the face (mm), square to that line.

        The face is not square to the stick: its depth is greatest where it rises as the line does.
        """
        s = self.params
        x = np.minimum(self.flat + self.face_radius * np.sin(self.rise), s.face_length)
        z = self.face_radius - np.sqrt(self.face_radius**2 - np.maximum(x - self.flat, 0.0) ** 2)
        return x * np.sin(self.rise) + (s.height - z) * np.cos(self.rise)

    @cached_property
    def block_rear(self) -> FloatOrArray:
        """How far the face's rear edge stands behind its place on the stick's top (mm)."""
        return self.params.height * np.sin(self.rise)

    # --- across ----------------------------------------------------------------------------------

    def half_width(self, x: FloatOrArray) -> FloatOrArray:
        """Half the face's width (mm) over its straight rear part."""
        s = self.params
        return (s.width + (s.face_width_front - s.width) * x / s.face_width_front_at) / 2

    @cached_property
    def cheek_lean(self) -> FloatOrArray:
        """How much (mm per mm of height) a cheek leans in, from the face past the mortise."""
        return np.tan(np.radians(self.params.cheek_lean_deg))

    @cached_property
    def cheek_top(self) -> FloatOrArray:
        """Height (mm) from which the cheeks lean on steeper, to the stick's sides."""
        return self.params.mortise_depth + CHEEK_ABOVE

    @cached_property
    def upper_lean(self) -> FloatOrArray:
        """How much (mm per mm of height) a cheek leans in above that height."""
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
        # The centre stands square to the side, inward; the chord's middle fixes how far.
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
        """x (mm) of the mortise's front wall at its full depth: it is undercut."""
        tilt = np.tan(np.radians(self.params.mortise_undercut_deg))
        return self.mortise_front + self.params.mortise_depth * tilt

    @cached_property
    def mortise_foot_width(self) -> FloatOrArray:
        """Width (mm) of the mortise's front wall at its full depth, its sides carried on."""
        s = self.params
        grows = (s.mortise_width_front - s.mortise_width) / s.mortise_length
        return s.mortise_width + grows * (self.mortise_foot - s.mortise_from_rear)

    @cached_property
    def to_back(self) -> FloatOrArray:
        """Wood (mm) between the mortise's rear wall and the back of the head.

        Its line counts as carried on below the face: never more than there is.
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
        """How far (mm per mm across) a facet beside the ridge falls, both back and down."""
        return FACETS_FALL / (self.params.width / 2)

    def cheek_from_ridge(self, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
        """How far (mm) a cheek stands from the edge of the ridge, across."""
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
