"""What follows from the frog's travel on the stick. Frame: the stick's."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.parameters import Dims, Family, FloatOrArray
from templates_gen.parts.button.params import Button
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.head.params import Head
from templates_gen.parts.leather.params import Leather
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes.slack_hair import SlackHair

#: How much the camber rises (mm) between slack and playing tension, per family.
#: Common practice, no source.
_TIGHTENED = {"violin": 8.0, "viola": 9.0, "cello": 10.0, "bass-french": 12.0, "bass-german": 12.0}

#: Least and greatest length (mm) of a whole bow with its button, per family.
#: H. Saint-George, The Bow (3rd ed. 1922), and museum catalogues; basses common practice.
OVERALL = {
    "violin": (726.0, 750.0),
    "viola": (735.0, 750.0),
    "cello": (703.0, 735.0),
    "bass-french": (685.0, 720.0),
    "bass-german": (705.0, 770.0),
}


@dataclass(frozen=True)
class Travel(Dims):
    """The frog's travel, from slack to foremost and rearmost."""

    stick: StickDims
    frog: FrogDims
    hair: Hair
    head: Head
    leather: Leather
    button: Button
    family: Family

    @property
    def eyelet_in_play(self) -> FloatOrArray:
        """Place of the eyelet's axis in play (mm from the butt's shoulder)."""
        return self.frog.seat.heel_in_play + self.frog.seat.eyelet.from_heel

    @property
    def length(self) -> FloatOrArray:
        """The eyelet's travel in its mortise (mm)."""
        return self.stick.eyelet_front - self.stick.eyelet_rear

    @cached_property
    def slackening(self) -> FloatOrArray:
        """How far (mm) the frog goes forward from play until the hair hangs slack.

        The chord under the camber grows as the stick straightens, the hair's line turns, and the
        hair itself stretches by 0.23 %. Common practice, no source.
        """
        cam, length = self.stick.params.camber_depth, self.hair.length
        heights = self.frog.params.clear_height + self.head.height
        heights = heights - self.stick.params.diameter_head + self.stick.params.across_flats_butt
        straightening = 8 * cam**2 / (3 * length) + 4 * cam / length * heights
        return _TIGHTENED[self.family.name] / cam * straightening + 0.0023 * length

    @property
    def slot_behind(self) -> FloatOrArray:
        """How far (mm) the heel, foremost, still covers the slot's rear end."""
        heel = self.stick.eyelet_front - self.frog.seat.eyelet.from_heel
        return self.stick.params.mortise_from_butt - heel

    @property
    def slot_ahead(self) -> FloatOrArray:
        """How far (mm) the thumb projection, rearmost, still covers the slot's front end."""
        tip = self.stick.frog_rear + self.frog.params.length_top
        return tip - self.stick.mortise_front

    @property
    def least_cover(self) -> FloatOrArray:
        """The lesser of the two (mm)."""
        return np.minimum(self.slot_behind, self.slot_ahead)

    # --- the hair over the camber ----------------------------------------------------------------

    def gaps_at(self, step: int) -> Floats:
        """Clear height (mm) under the stick along the slack hair, at every ``step``-th place.

        The straight hair from the ferrule's plate to the head's face, over the cambered underside;
        last axis from ferrule to head.
        """
        camber, chord = self.stick.camber, np.asarray(self.stick.chord)
        depths = camber.depths_every(step)
        u = np.linspace(0.0, 1.0, depths.shape[-1])
        hair = SlackHair.under(
            *(
                np.asarray(v)[..., None]
                for v in (
                    chord,
                    camber.slope_at_ferrule,
                    self.frog.params.clear_height - self.frog.ferrule.params.plate_thickness,
                    self.head.height - self.stick.params.diameter_head,
                    self.hair.length,
                )
            )
        )
        return np.asarray(hair.below(chord[..., None] * u, -depths))

    @cached_property
    def least_gap(self) -> FloatOrArray:
        """The least of them (mm); between the places looked at the gap runs as a parabola."""
        gaps = self.gaps_at(4)
        i = np.clip(np.argmin(gaps, axis=-1), 1, gaps.shape[-1] - 2)[..., None]
        before, here, after = (np.take_along_axis(gaps, i + k, -1)[..., 0] for k in (-1, 0, 1))
        bend = np.maximum(before - 2 * here + after, 1e-12)
        return here - (before - after) ** 2 / (8 * bend)

    @property
    def overall(self) -> FloatOrArray:
        """The bow's length from end to end (mm): the bent stick and the button closed on it."""
        bent = self.stick.run - self.stick.chord
        return self.stick.params.length - bent + self.button.length

    @property
    def length_left(self) -> FloatOrArray:
        """What stick length, hair and head leave unaccounted for (mm)."""
        return self.stick.face_rear - self.frog.params.front_at_play - self.hair.length
