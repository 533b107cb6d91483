"""Derived dimensions of the slide.

Frame: x = 0 at its ferrule end, toward the heel; y = 0 on the mid-plane; z = 0 on the bottom plane,
toward the stick.
"""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.slide.params import Slide
from templates_gen.shapes import dovetail


@dataclass(frozen=True)
class SlideDims(Dims):
    """Derived dimensions of slide and channel."""

    params: Slide
    ferrule: FerruleDims

    @property
    def width_heel(self) -> FloatOrArray:
        """Width (mm) at the bottom plane, heel end."""
        return self.params.width_front - self.params.width_taper

    def floor(self, face: FloatOrArray) -> FloatOrArray:
        """Return the width (mm) at the channel's floor for a width at the bottom plane (mm)."""
        return dovetail.floor_width(face, self.params.thickness, self.params.dovetail_deg)
