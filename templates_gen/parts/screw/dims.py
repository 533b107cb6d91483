"""Derived dimensions of the screw. Frame: the stick's."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import StickDims

#: Play (mm) of the plain tip in the front bore.
TIP_PLAY = 0.1


@dataclass(frozen=True)
class ScrewDims(Dims):
    """Derived dimensions of the screw."""

    params: Screw
    stick: StickDims

    @property
    def tip_in_bearing(self) -> FloatOrArray:
        """Length (mm) of the plain tip in the front bore."""
        return self.params.length - self.stick.mortise_front

    @property
    def tip_diameter(self) -> FloatOrArray:
        """Diameter of the plain tip (mm)."""
        return self.stick.params.front_bore - TIP_PLAY
