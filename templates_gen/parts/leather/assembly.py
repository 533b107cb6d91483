"""The thumb leather in the whole bow: what it weighs."""

from __future__ import annotations

import math

from templates_gen.mechanics import STICK, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.leather.params import Leather
from templates_gen.parts.stick.dims import StickDims

MOVES_WITH = STICK


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the leather, wound once round the stick."""
    s = p[Leather]
    at = s.from_butt + s.length / 2
    around = p.derive(StickDims).girth(at) + math.pi * s.thickness
    return VolumeAt(around * s.thickness * s.length, at)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the leather."""
    return (Portion("leather", volume, "leather"),)
