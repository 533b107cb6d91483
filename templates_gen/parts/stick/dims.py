"""Derived dimensions of the stick.

Frame: x = 0 at the butt's shoulder, toward the head; z = 0 on the handle's axis, away from the
hair; y to the player's left as one looks from the button to the head.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.ferrule.params import Ferrule
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.head.params import Head
from templates_gen.parts.stick.params import Stick
from templates_gen.shapes import graduation, octagon
from templates_gen.shapes.camber import (
    STATIONS,
    UNIT_STATIONS,
    Camber,
    CamberKind,
    chord,
    curvature_from_depths,
    even_strain,
)
from templates_gen.shapes.camber_tension import PulledStraight
from templates_gen.shapes.graduation import GraduationKind
from templates_gen.shapes.stick_section import SectionKind, blend_section

#: Length of stick (mm), along the underside, that is drawn and built with the head; the solid of
#: the stick ends there, equally thick.
WITH_HEAD = 60.0

#: Least oversize (mm) of the sawn stick, and the oversize at each stage of planing.
#: Common practice, no source.
SAWN, PLANED = 2.0, {"octagon": 1.0, "+0.4": 0.4, "+0.2": 0.2, "finished": 0.0}

#: The bend is measured over this many points of the camber to either side: about 12 mm.
APART = 4

#: Stages at which the handle's facets are final, because the frog is already fitted to them. Common
#: practice, no source.
HANDLE_DONE = ("+0.4", "+0.2", "finished")


@dataclass(frozen=True)
class StickDims(Dims):
    """Derived dimensions of the stick."""

    params: Stick
    eyelet: Eyelet
    frog: Frog
    head: Head
    ferrule: Ferrule
    hair: Hair

    @property
    def taper(self) -> FloatOrArray:
        """Change of the handle's width per millimetre; negative where it thins toward the head."""
        s = self.params
        return (s.across_flats_handle_end - s.across_flats_butt) / s.handle_length

    def across_flats(self, x: FloatOrArray) -> FloatOrArray:
        """Return the handle's width across flats (mm) at x (mm); the taper is even."""
        return self.params.across_flats_butt + self.taper * x

    @property
    def mortise_front(self) -> FloatOrArray:
        """Front end of the stick mortise (mm)."""
        return self.params.mortise_from_butt + self.params.mortise_length

    @property
    def over_mortise(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Least and greatest width across flats (mm) over the mortise, at its ends."""
        rear = self.across_flats(self.params.mortise_from_butt)
        front = self.across_flats(self.mortise_front)
        return np.minimum(rear, front), np.maximum(rear, front)

    @property
    def eyelet_rear(self) -> FloatOrArray:
        """Rearmost position of the eyelet's axis (mm)."""
        return self.params.mortise_from_butt + self.eyelet.length / 2

    @property
    def eyelet_front(self) -> FloatOrArray:
        """Foremost position of the eyelet's axis (mm)."""
        return self.mortise_front - self.eyelet.length / 2

    @property
    def frog_front(self) -> FloatOrArray:
        """Foremost position of the thumb projection's tip over the frog's travel (mm)."""
        return self.eyelet_front - self.eyelet.from_heel + self.frog.length_top

    @property
    def frog_rear(self) -> FloatOrArray:
        """Rearmost position of the frog's heel over its travel (mm)."""
        return self.eyelet_rear - self.eyelet.from_heel

    @property
    def least_across_flats(self) -> FloatOrArray:
        """Least width across flats (mm) under the frog, at its foremost position."""
        return self.across_flats(self.frog_front)

    @property
    def least_facet(self) -> FloatOrArray:
        """Least facet (mm) under the frog."""
        return octagon.facet(self.least_across_flats)

    # --- ahead of the handle ---------------------------------------------------------------------

    @property
    def face_rear(self) -> FloatOrArray:
        """Position of the face's rear edge (mm), where the graduation ends."""
        return self.params.length - self.head.face_length

    def diameter(self, x: FloatOrArray) -> FloatOrArray:
        """Return the handle's width across flats, or the diameter ahead of it (mm), at x (mm)."""
        return _thickness(self.params, x, *self._marks)

    @property
    def blend_end(self) -> FloatOrArray:
        """End of the blend (mm), where the octagon has run out; at most the end of the solid."""
        s = self.params
        return np.minimum(s.handle_length + s.blend_length, self.face_rear - WITH_HEAD)

    def roundness(self, x: FloatOrArray) -> FloatOrArray:
        """Return how far the octagon has run out at x (mm): 0 on the handle, 1 past the blend."""
        start = self.params.handle_length
        return np.clip((x - start) / (self.blend_end - start), 0.0, 1.0)

    @property
    def stages(self) -> dict[str, float]:
        """Oversize (mm) of the stick at each stage, thickest first.

        Common practice, no source; the oversize for bending is a parameter.
        """
        bent = float(self.params.bent_oversize)
        found = {"sawn": max(SAWN, bent), "bent": bent, **PLANED}
        return dict(sorted(found.items(), key=lambda stage: -stage[1]))

    def at_stage(self, stage: str, x: FloatOrArray) -> FloatOrArray:
        """Return the thickness (mm) at x at a stage of planing.

        The handle, its front end included, is final while the stick ahead is still oversize.
        """
        over = self.stages[stage]
        on_handle = 0.0 if stage in HANDLE_DONE else over
        left = np.where(np.less_equal(x, self.params.handle_length), on_handle, over)
        return self.diameter(x) + left

    def girth(self, x: FloatOrArray) -> FloatOrArray:
        """Return the girth (mm) of the stick at x: eight facets on the handle."""
        s = self.params
        wide = self.diameter(x)
        octagonal = 8 * octagon.FACET * wide
        round_ = math.pi * wide
        ahead = {
            SectionKind.ROUND: round_,
            SectionKind.OCTAGON: octagonal,
            SectionKind.D_SECTION: (octagonal + round_) / 2,
        }[s.section]
        return np.where(np.less(x, s.handle_length), octagonal, ahead)

    @property
    def _marks(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray, FloatOrArray, FloatOrArray]:
        """Inputs of the graduation: two positions and three diameters (mm)."""
        s = self.params
        return (
            s.handle_length,
            self.face_rear,
            s.across_flats_butt,
            s.across_flats_handle_end,
            s.diameter_head,
        )

    # --- the camber ------------------------------------------------------------------------------

    @property
    def run(self) -> FloatOrArray:
        """Length (mm) along the stick over which it is cambered: ferrule in play to face's rear."""
        return self.face_rear - self.frog.front_at_play

    @property
    def chord(self) -> FloatOrArray:
        """Chord (mm) of the bent stick: the length of the straight edge.

        The underside keeps its length: on the inner side of a bend hot wood is compressed far
        more easily than it is stretched on the outer side. From memory: common practice, no source.
        """
        return self.camber.length

    @cached_property
    def camber(self) -> Camber:
        """Camber of the underside of the bent stick, without hair."""
        s = self.params
        if s.camber is CamberKind.UNIFORM:
            # This bend does not depend on the thickness: one row serves every bow.
            return Camber.along(self.run, s.camber_depth, np.ones(STATIONS + 1))
        if s.camber is CamberKind.STATIONS and s.camber_points:
            # Ends of the straight edge: first of an even arc, then of the measured curve.
            reach = chord(self.run, s.camber_depth, np.ones(STATIONS + 1))
            reach = chord(self.run, s.camber_depth, curvature_from_depths(s.camber_points, reach))
            return Camber.along(
                self.run, s.camber_depth, curvature_from_depths(s.camber_points, reach)
            )
        if s.camber is CamberKind.TENSION:
            return self.pulled.camber
        return Camber.along(self.run, s.camber_depth, even_strain(self._across(UNIT_STATIONS)[0]))

    @cached_property
    def pulled(self) -> PulledStraight:
        """Camber by the tension law, with the tension that straightens it."""
        s, frog, head = self.params, self.frog, self.head
        return PulledStraight(
            self.run,
            s.camber_depth,
            self._across,
            frog.clear_height - self.ferrule.plate_thickness,
            head.height - s.diameter_head,
            self.hair.length,
        )

    @cached_property
    def bent_to(self) -> FloatOrArray:
        """Least radius (mm) of the middle line on the form, by circles through three points.

        The points are about 12 mm apart, which smooths a change of taper as the wood does. The
        middle line was straight; on the form it is over-bent below the line between its ends.
        """
        middle = self.camber.depths - self._thick(UNIT_STATIONS)[1] / 2
        sag = middle[..., : -2 * APART] + middle[..., 2 * APART :] - 2 * middle[..., APART:-APART]
        bend = self.params.over_bend * np.abs(sag).max(axis=-1)
        return (self.chord * APART / STATIONS) ** 2 / bend

    def _thick(self, shares: Floats) -> tuple[Floats, Floats]:
        """Return x (mm) and thickness (mm) at fractions of the way from ferrule to head."""
        start, run = (np.asarray(v)[..., None] for v in (self.frog.front_at_play, self.run))
        places = start + run * shares
        marks = (np.asarray(m)[..., None] for m in self._marks)
        return places, np.asarray(_thickness(self.params, places, *marks))

    def _across(self, shares: Floats) -> tuple[Floats, Floats]:
        """Return thickness (mm) and second moment (mm⁴) at fractions of the camber's length."""
        s = self.params
        long, blend = (np.asarray(v)[..., None] for v in (s.handle_length, s.blend_length))
        places, thick = self._thick(shares)
        run_out = np.clip((places - long) / blend, 0.0, 1.0)
        return thick, np.asarray(blend_section(s.section, thick, run_out).inertia)


def _thickness(
    s: Stick,
    x: FloatOrArray,
    handle: FloatOrArray,
    face: FloatOrArray,
    butt: FloatOrArray,
    end: FloatOrArray,
    head: FloatOrArray,
) -> FloatOrArray:
    """Return the thickness (mm) at x: an even taper on the handle, the chosen law ahead of it."""
    beyond = np.clip(x, handle, face)
    # The reader rejects a file that chooses stations and gives none.
    if s.graduation is GraduationKind.STATIONS and s.stations:
        ahead = graduation.interpolated_diameter(beyond, s.stations)
    else:
        law = (
            graduation.linear_diameter
            if s.graduation is GraduationKind.LINEAR
            else graduation.published_diameter
        )
        ahead = law(beyond, face, handle, end, head)
    return np.where(np.less(x, handle), butt + (end - butt) / handle * x, ahead)
