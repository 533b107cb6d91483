"""Derived dimensions of the materials: densities, the stick's modulus, the lapping's weight."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.mechanics.materials import Band, materials
from templates_gen.parameters import Dims, FloatOrArray, Pattern, bands
from templates_gen.parts.material.params import (
    GAUGES,
    FrogWood,
    Lapping,
    LappingKind,
    Material,
    StickWood,
)

#: Material of each kind of lapping.
LAPPINGS = {
    LappingKind.THREAD: "silk",
    LappingKind.SUBSTITUTE: "whalebone substitute",
    LappingKind.SILVER: "sterling silver",
}

#: Plugs and wedge are of a soft light wood (kg/m³). Common practice, no source.
SOFT_WOOD = 600.0

#: Relative uncertainty of a wood's density and modulus in the table. Common practice, no source.
TABLE_DENSITY, TABLE_MODULUS = 0.10, 0.22


@dataclass(frozen=True)
class MaterialDims(Dims):
    """Properties of the chosen materials."""

    params: Material
    lapping: Lapping

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
        """Modulus of the chosen wood in the table (GPa)."""
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
        """Material of the lapping, as named in the table of materials; "" for none."""
        return LAPPINGS.get(self.lapping.kind, "")

    @property
    def usual_gauge(self) -> Band | None:
        """Usual thickness of this kind of lapping (mm); None without lapping."""
        return GAUGES.get(self.lapping.kind)

    def density(self, material: str) -> FloatOrArray:
        """Return the density (kg/m³) of a table material, or of the stick's or frog's wood."""
        if isinstance(material, StickWood):
            return self.stick_density
        if isinstance(material, FrogWood):
            return self.frog_density
        return SOFT_WOOD if material == "soft wood" else materials()[material].density.usual

    def lapping_area(self, diameter: FloatOrArray) -> FloatOrArray:
        """Return the area across the bow (mm²) of the lapping round a stick so thick.

        Wire and thread lie turn by turn; a strip covers the stick edge to edge.

        Source: the length of a turn is the circle through its middle.
        """
        gauge = self.lapping.gauge
        filled = 1.0 if self.lapping.kind is LappingKind.SUBSTITUTE else math.pi / 4
        return filled * math.pi * (diameter + gauge) * gauge


def found_out(p: Pattern) -> tuple[bool, bool]:
    """Tell whether density and modulus of the stick's wood were measured, each by itself.

    A starter gives both values as usual in its family, and where only one was measured the other
    may be given with the uncertainty of a table. So a value counts as measured where it differs
    from the usual one, or is given with a ± less than a table's.
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
