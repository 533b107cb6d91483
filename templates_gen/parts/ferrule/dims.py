"""What follows from the ferrule.

Frame: x = 0 on the mid-plane, y = 0 on the top face of the plate, y up toward the stick.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.ferrule.params import Ferrule
from templates_gen.parts.hair.dims import HairDims
from templates_gen.shapes.arch import ArchKind, developed_length


@dataclass(frozen=True)
class FerruleDims:
    """Derived dimensions of the ferrule."""

    stated: Ferrule
    hair: HairDims
    bass: bool

    @classmethod
    def of(cls, p: Pattern) -> FerruleDims:
        return cls(p[Ferrule], p.derive(HairDims), p.family.bass)

    @cached_property
    def arch_height(self) -> Num:
        """Outside height of the arch above the plate (mm)."""
        return self.stated.height - self.stated.plate_thickness

    @cached_property
    def inside_width(self) -> Num:
        """Clear width between the arch's feet (mm)."""
        s = self.stated
        if s.arch_kind is ArchKind.SEGMENT:
            return self._within_segment(0.0)
        return s.outer_width - 2 * s.arch_thickness

    def _within_segment(self, level: Num) -> Num:
        """Clear width (mm) of a segment at a height above the plate; its feet lean inward."""
        s = self.stated
        half, rise = (s.outer_width - s.arch_thickness) / 2, self.arch_height - s.arch_thickness / 2
        radius = (half**2 + rise**2) / (2 * rise)
        inner, centre = radius - s.arch_thickness / 2, rise - radius
        return 2 * np.sqrt(np.maximum(0.0, inner**2 - (level - centre) ** 2))

    @cached_property
    def half_width(self) -> Num:
        """Half the outside width (mm): the most a half circle or segment may rise."""
        return self.stated.outer_width / 2

    @cached_property
    def arch_length(self) -> Num:
        """Length of the arch's neutral line, foot to foot (mm)."""
        s = self.stated
        return developed_length(
            s.arch_kind, s.outer_width, self.arch_height, s.arch_thickness, s.arch_corner_radius
        )

    @cached_property
    def rebate_step(self) -> Num:
        """Height of the step under the frog's tongue above the bottom plane (mm)."""
        s = self.stated
        return s.plate_thickness + self.hair.thickness + s.wedge_thickness

    @cached_property
    def tongue_height(self) -> Num:
        """Height left for the frog's tongue (mm), 0.1 clear under the arch."""
        return self.stated.height - self.stated.arch_thickness - 0.1 - self.rebate_step

    @cached_property
    def ribbon_room(self) -> Num:
        """Clear width at the top of the hair (mm), where the arch has begun to lean in."""
        s = self.stated
        half, rise = self.inside_width / 2, self.arch_height - s.arch_thickness
        level = self.hair.thickness
        if s.arch_kind is ArchKind.HALF_ELLIPSE:
            return 2 * half * np.sqrt(np.maximum(0.0, 1 - (level / rise) ** 2))
        if s.arch_kind is ArchKind.SEGMENT:
            return self._within_segment(level)
        corner = (
            half
            if s.arch_kind is ArchKind.HALF_CIRCLE
            else (s.arch_corner_radius - s.arch_thickness)
        )
        over = np.clip(level - (rise - corner), 0.0, corner)
        return 2 * (half - corner + np.sqrt(corner**2 - over**2))

    @cached_property
    def wedge_width(self) -> Num:
        """Width of the spread wedge (mm)."""
        return self.hair.ribbon_width - 0.3

    @cached_property
    def wedge_length(self) -> Num:
        """Length of the spread wedge along the bow (mm)."""
        return self.stated.length - 1.0

    @cached_property
    def wedge_thin(self) -> Num:
        """Thickness of the spread wedge at its rear end (mm)."""
        return self.stated.wedge_thickness - self.stated.wedge_taper

    @cached_property
    def wedge_volume(self) -> Num:
        """Volume of the spread wedge (mm³), its rounded edge not taken off."""
        mean = (self.stated.wedge_thickness + self.wedge_thin) / 2
        return self.wedge_length * self.wedge_width * mean

    @cached_property
    def least_plate(self) -> Num:
        """A plate thinner than this bows under the hair (mm)."""
        return self.inside_width / 17
