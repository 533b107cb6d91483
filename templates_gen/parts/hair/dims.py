"""Derived dimensions of the hair."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.hair.params import Hair

#: Diameter of one hair (mm) and the share of a packed ribbon that is hair: common practice.
HAIR_DIAMETER = 0.2
PACKING = 0.75


@dataclass(frozen=True)
class HairDims(Dims):
    """Derived dimensions of the hair."""

    params: Hair

    @cached_property
    def ribbon_width(self) -> FloatOrArray:
        """Width of the ribbon at the frog (mm)."""
        return self.params.ribbon_width_frog

    @cached_property
    def thickness(self) -> FloatOrArray:
        """Thickness of the ribbon at the frog (mm).

        Source: hairs of 0.2 mm packed to three quarters; common practice, no source.
        """
        area = self.params.count * math.pi / 4 * HAIR_DIAMETER**2
        return area / PACKING / self.ribbon_width

    @cached_property
    def knot(self) -> FloatOrArray:
        """Diameter of the tied knot (mm).

        Source: hairs packed to three quarters, and the binding; common practice, no source.
        """
        return HAIR_DIAMETER * np.sqrt(self.params.count / PACKING) + 0.5
