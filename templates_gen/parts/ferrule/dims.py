"""Derived dimensions of the ferrule.

Frame: x = 0 on the mid-plane, y = 0 on the top face of the plate, y up toward the stick.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, Family, FloatOrArray
from templates_gen.parts.ferrule.params import Ferrule
from templates_gen.parts.hair.dims import HairDims
from templates_gen.shapes.arch import ArchKind, developed_length


@dataclass(frozen=True)
class FerruleDims(Dims):
    """Derived dimensions of the ferrule."""

    params: Ferrule
    hair: HairDims
    family: Family

    @cached_property
    def arch_height(self) -> FloatOrArray:
        """Outside height of the arch above the plate (mm)."""
        return self.params.height - self.params.plate_thickness

    @cached_property
    def inside_width(self) -> FloatOrArray:
        """Clear width between the arch's feet (mm)."""
        s = self.params
        if s.arch_kind is ArchKind.SEGMENT:  # its feet lean inward
            return 2 * self.arch_half_width(0.0, s.arch_thickness)
        return s.outer_width - 2 * s.arch_thickness

    def arch_half_width(self, level: FloatOrArray, inset: FloatOrArray) -> FloatOrArray:
        """Return half the arch's width (mm) at a height above the plate; zero above its crown.

        Args:
            level: height above the plate's top (mm).
            inset: how far (mm) the line that is measured lies inside the arch's outer face.
        """
        s = self.params
        half, rise = s.outer_width / 2 - inset, self.arch_height - inset
        if s.arch_kind is ArchKind.HALF_ELLIPSE:
            return half * np.sqrt(np.maximum(0.0, 1 - (level / rise) ** 2))
        if s.arch_kind is ArchKind.SEGMENT:
            # The neutral line is drawn; its feet lean inward.
            a, b = (s.outer_width - s.arch_thickness) / 2, self.arch_height - s.arch_thickness / 2
            radius = (a**2 + b**2) / (2 * b)
            own = radius + s.arch_thickness / 2 - inset
            return np.sqrt(np.maximum(0.0, own**2 - (level - b + radius) ** 2))
        corner = half if s.arch_kind is ArchKind.HALF_CIRCLE else s.arch_corner_radius - inset
        over = np.maximum(level - (rise - corner), 0.0)
        width = half - corner + np.sqrt(np.maximum(corner**2 - over**2, 0.0))
        return np.where(over > corner, 0.0, width)

    @cached_property
    def half_width(self) -> FloatOrArray:
        """Half the outside width (mm), which a half circle rises and a segment may not exceed."""
        return self.params.outer_width / 2

    @cached_property
    def arch_length(self) -> FloatOrArray:
        """Length of the arch's neutral line, foot to foot (mm)."""
        s = self.params
        return developed_length(
            s.arch_kind, s.outer_width, self.arch_height, s.arch_thickness, s.arch_corner_radius
        )

    @cached_property
    def rebate_step(self) -> FloatOrArray:
        """Height of the step under the frog's tongue above the bottom plane (mm)."""
        s = self.params
        return s.plate_thickness + self.hair.thickness + s.wedge_thickness

    @cached_property
    def tongue_height(self) -> FloatOrArray:
        """Height available for the frog's tongue (mm), with 0.1 clearance under the arch."""
        return self.params.height - self.params.arch_thickness - 0.1 - self.rebate_step

    @cached_property
    def ribbon_room(self) -> FloatOrArray:
        """Clear width at the top of the hair (mm), where the arch has begun to lean in."""
        return 2 * self.arch_half_width(self.hair.thickness, self.params.arch_thickness)

    @cached_property
    def wedge_width(self) -> FloatOrArray:
        """Width of the spread wedge (mm)."""
        return self.hair.ribbon_width - 0.3

    @cached_property
    def wedge_length(self) -> FloatOrArray:
        """Length of the spread wedge along the bow (mm)."""
        return self.params.length - 1.0

    @cached_property
    def wedge_thin(self) -> FloatOrArray:
        """Thickness of the spread wedge at its rear end (mm)."""
        return self.params.wedge_thickness - self.params.wedge_taper

    @cached_property
    def wedge_volume(self) -> FloatOrArray:
        """Volume of the spread wedge (mm³), with its rounded edge still square."""
        mean = (self.params.wedge_thickness + self.wedge_thin) / 2
        return self.wedge_length * self.wedge_width * mean

    @cached_property
    def least_plate(self) -> FloatOrArray:
        """Least thickness (mm) at which the plate does not bow under the hair."""
        return self.inside_width / 17
