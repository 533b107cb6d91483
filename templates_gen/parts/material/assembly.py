"""The lapping in the whole bow: what it weighs."""

from __future__ import annotations

from templates_gen.mechanics import STICK, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.leather.params import Leather
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.stick.dims import StickDims

MOVES_WITH = STICK


def volume(p: Pattern) -> VolumeAt | None:
    """Return the volume of the lapping ahead of the leather; None where nothing is wound."""
    m, leather = p.derive(MaterialDims), p[Leather]
    if not m.lapping_material:
        return None
    long = m.lapping.length
    at = leather.from_butt + leather.length + long / 2
    return VolumeAt(m.lapping_area(p.derive(StickDims).diameter(at)) * long, at)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the lapping."""
    return (Portion("lapping", volume, p.derive(MaterialDims).lapping_material),)
