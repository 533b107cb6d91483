"""The tassel in the whole bow: its frame on the stick, its volume, its pieces."""

from __future__ import annotations

from templates_gen.parts.tassel.dims import TasselDims

from templates_gen.mechanics.assembly import ALONG, STICK, Frame, Portion, VolumeAt
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import Pattern

MOVES_WITH = STICK


def frame(p: Pattern) -> Frame:
    """Its own z runs along the stick, toward the head."""
    d = p.derive(TasselDims)
    return Frame((d.front - d.params.thickness, 0.0, 0.0), (0.0, 1.0, 0.0), ALONG)


def volume(p: Pattern) -> VolumeAt:
    """Volume of the disc less its hole."""
    d = p.derive(TasselDims)
    s = d.params
    area = circle(s.diameter).area - circle(s.hole).area
    return VolumeAt(area * s.thickness, d.front - s.thickness / 2)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the disc."""
    return (Portion("tassel", volume, "leather"),)
