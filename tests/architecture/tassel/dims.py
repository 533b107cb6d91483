"""What follows from the tassel. Frame: x = y = 0 in the middle of the disc, z its thickness."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from templates_gen.parts.tassel.params import Tassel

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.hair.dims import HairDims


@dataclass(frozen=True)
class TasselDims(Dims):
    """Derived dimensions of the tassel."""

    params: Tassel
    hair: HairDims
    button: ButtonDims

    @cached_property
    def front(self) -> FloatOrArray:
        """Place of the disc's front face on the stick (mm), behind the button."""
        return -(self.button.params.length + self.params.gap)

    @cached_property
    def rim(self) -> FloatOrArray:
        """Leather between hole and edge (mm)."""
        return (self.params.diameter - self.params.hole) / 2
