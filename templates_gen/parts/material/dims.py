"""What follows from the materials: densities, the stick's modulus, the lapping's weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.mechanics.materials import Band, materials
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parameters.families import bands
from templates_gen.parts.material.params import (
    GAUGES,
    FrogWood,
    Lapping,
    LappingKind,
    Material,
    StickWood,
)

#: What each kind of lapping is made of.
LAPPINGS = {
    LappingKind.THREAD: "silk",
    LappingKind.SUBSTITUTE: "whalebone substitute",
    LappingKind.SILVER: "sterling silver",
}

#: Plugs and wedge are of a soft light wood (kg/m³). Common practice, no source.
SOFT_WOOD = 600.0

#: What a table says of a wood's density and modulus may be off by so much of it. Common practice,
#: no source.
TABLE_DENSITY, TABLE_MODULUS = 0.10, 0.22


@dataclass(frozen=True)
class MaterialDims:
    """Figures of the materials stated."""

    params: Material
    lapping: Lapping

    @classmethod
    def of(cls, p: Pattern) -> MaterialDims:
        return cls(p[Material], p[Lapping])

    @property
    def measured(self) -> bool:
        """Whether the stick's wood has been weighed and tapped."""
        return self.params.stick_wood is StickWood.MEASURED

    @property
    def stick_density(self) -> FloatOrArray:
        """Density of the stick's wood (kg/m³)."""
        if self.measured:
            return self.params.stick_density
        return materials()[self.params.stick_wood].density.usual

    @property
    def modulus(self) -> FloatOrArray:
        """Modulus of elasticity of the stick's wood along the grain (GPa)."""
        if self.measured:
            return self.params.stick_modulus
        return self.table_modulus.usual

    @property
    def table_modulus(self) -> Band:
        """What the table says of the modulus of the wood named (GPa)."""
        band = materials()[self.params.stick_wood].modulus
        assert band is not None, "every wood of a stick has a modulus"
        return band

    @property
    def frog_density(self) -> FloatOrArray:
        """Density of the frog's wood (kg/m³)."""
        if self.params.frog_wood is FrogWood.MEASURED:
            return self.params.frog_density
        return materials()[self.params.frog_wood].density.usual

    @cached_property
    def lapping_material(self) -> str:
        """What the lapping is made of, as in the table of materials; "" for none."""
        return LAPPINGS.get(self.lapping.kind, "")

    @property
    def usual_gauge(self) -> Band | None:
        """What the kind of lapping is usually wound of (mm); None where nothing is wound."""
        return GAUGES.get(self.lapping.kind)

    def density(self, material: str) -> FloatOrArray:
        """Density (kg/m³) of a material of the table, of the stick's wood or of the frog's."""
        if isinstance(material, StickWood):
            return self.stick_density
        if isinstance(material, FrogWood):
            return self.frog_density
        return SOFT_WOOD if material == "soft wood" else materials()[material].density.usual

    def lapping_area(self, diameter: FloatOrArray) -> FloatOrArray:
        """Area across the bow (mm²) of the lapping round a stick so thick.

        Wire and thread lie turn by turn, a strip covers the stick edge to edge.

        Source: a turn's length is that of the circle through its middle.
        """
        gauge = self.lapping.gauge
        filled = 1.0 if self.lapping.kind is LappingKind.SUBSTITUTE else math.pi / 4
        return filled * math.pi * (diameter + gauge) * gauge

    def lapping_per_mm(self, diameter: FloatOrArray) -> FloatOrArray:
        """What the lapping weighs on each millimetre of a stick so thick (g/mm)."""
        if not self.lapping_material:
            return 0.0 * diameter
        return self.density(self.lapping_material) * 1e-6 * self.lapping_area(diameter)


def found_out(p: Pattern) -> tuple[bool, bool]:
    """Whether density and modulus of the stick's wood were measured, each for itself.

    A starter states both figures as its family's usual ones, and where only one was found the
    other may be stated with a table's ±. So a figure counts as measured where it differs from the
    usual one or is stated with a ± of its own that is less than a table's.
    """
    if not p.derive(MaterialDims).measured:
        return False, False
    density, modulus = (
        _surer_than_a_table(p, key, share)
        for key, share in (
            ("material.stick_density", TABLE_DENSITY),
            ("material.stick_modulus", TABLE_MODULUS),
        )
    )
    return density, modulus


def _surer_than_a_table(p: Pattern, key: str, share: float) -> bool:
    value = float(np.max(p.values[key]))
    if key in p.tolerances:
        return p.tolerance(key) < 0.99 * share * value
    return value != bands(p.family.name)[key].figure
