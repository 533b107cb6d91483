"""What follows from the stick.

Frame: x = 0 at the butt's shoulder, toward the head; z = 0 on the handle's axis, away from the
hair; y to the player's left as one looks from the button to the head.
"""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.stick.params import Stick
from templates_gen.shapes import octagon


@dataclass(frozen=True)
class StickDims:
    """Derived dimensions of the stick."""

    stated: Stick
    eyelet: Eyelet
    frog: Frog

    @classmethod
    def of(cls, p: Pattern) -> StickDims:
        return cls(p[Stick], p[Eyelet], p[Frog])

    @property
    def taper(self) -> Num:
        """Change of the handle across flats per millimetre; less than 0 where it thins forward."""
        s = self.stated
        return (s.across_flats_handle_end - s.across_flats_butt) / s.handle_length

    def across_flats(self, x: Num) -> Num:
        """Handle across flats (mm) at a place from the butt's shoulder (mm): it tapers evenly."""
        return self.stated.across_flats_butt + self.taper * x

    @property
    def mortise_front(self) -> Num:
        """Front end of the stick mortise (mm)."""
        return self.stated.mortise_from_butt + self.stated.mortise_length

    @property
    def eyelet_rear(self) -> Num:
        """Rearmost place of the eyelet's axis (mm)."""
        return self.stated.mortise_from_butt + self.eyelet.length / 2

    @property
    def eyelet_front(self) -> Num:
        """Foremost place of the eyelet's axis (mm)."""
        return self.mortise_front - self.eyelet.length / 2

    @property
    def frog_front(self) -> Num:
        """Foremost place of the thumb projection's tip over the frog's travel (mm)."""
        return self.eyelet_front - self.eyelet.from_heel + self.frog.length_top

    @property
    def frog_rear(self) -> Num:
        """Rearmost place of the frog's heel over its travel (mm)."""
        return self.eyelet_rear - self.eyelet.from_heel

    @property
    def least_across_flats(self) -> Num:
        """Smallest across flats (mm) the frog ever lies on, at its foremost place."""
        return self.across_flats(self.frog_front)

    @property
    def least_facet(self) -> Num:
        """Smallest facet (mm) the frog ever lies on."""
        return octagon.facet(self.least_across_flats)
