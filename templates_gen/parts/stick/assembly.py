"""The stick in the whole bow. Frame: the stick's, x = 0 at the butt's shoulder."""

from __future__ import annotations

from templates_gen.mechanics import STICK, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.material.params import Material
from templates_gen.parts.stick.dims_sections import StickSections

MOVES_WITH = STICK


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the stick's solid, which ends where the head's begins."""
    return p.derive(StickSections).solid


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the stick up to the head's face, with the length that the head's solid carries."""
    sections = p.derive(StickSections)
    whole = VolumeAt(*sections.bulk) + sections.nipple_at
    return (Portion("stick", whole, p[Material].stick_wood),)
