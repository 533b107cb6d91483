"""The eyelet in the whole bow. Frame: the frog's."""

from __future__ import annotations

from templates_gen.mechanics import FROG, Portion, VolumeAt
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import Pattern
from templates_gen.parts.eyelet.dims import EyeletDims

MOVES_WITH = FROG


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the bored body on its shank."""
    d = p.derive(EyeletDims)
    s = d.params
    body = (d.body_top - d.body_foot) * s.width - circle(d.bore).area
    shank = circle(s.shank_diameter).area * (d.body_foot - d.shank_end)
    return VolumeAt(body * s.length + shank, s.from_heel)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the eyelet."""
    return (Portion("eyelet", volume, "brass"),)
