"""What follows from the tassel. Frame: x = y = 0 in the middle of the disc."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from templates_gen.parts.tassel.params import Tassel

from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.hair.dims import HairDims


@dataclass(frozen=True)
class TasselDims:
    """Derived dimensions of the tassel."""

    params: Tassel
    hair: HairDims

    @classmethod
    def of(cls, p: Pattern) -> TasselDims:
        return cls(p[Tassel], p.derive(HairDims))

    @cached_property
    def rim(self) -> FloatOrArray:
        """Leather between hole and edge (mm)."""
        return (self.params.diameter - self.params.hole) / 2
