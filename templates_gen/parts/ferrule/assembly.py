"""The ferrule in the whole bow: its frame in the frog's, its volume, its pieces."""

from __future__ import annotations

from templates_gen.mechanics import ALONG, FROG, Frame, Portion, VolumeAt
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.material.params import Material

MOVES_WITH = FROG


def frame(p: Pattern) -> Frame:
    """Return its frame: its own z runs along the bow from the shoulder, its x across."""
    s = p.derive(FerruleDims).params
    return Frame((_front(p) - s.length, 0.0, s.plate_thickness), (0.0, 1.0, 0.0), ALONG)


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of plate and bent arch, the arch as long as its neutral line."""
    d = p.derive(FerruleDims)
    s = d.params
    across = d.arch_length * s.arch_thickness + s.outer_width * s.plate_thickness
    return VolumeAt(across * s.length, _front(p) - s.length / 2)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the ferrule and the spread wedge under its hair."""
    wedge = VolumeAt(p.derive(FerruleDims).wedge_volume, volume.x)
    return (
        Portion("ferrule", volume, p[Material].mounts),
        Portion("wedge", wedge, "soft wood"),
    )


def _front(p: Pattern) -> FloatOrArray:
    return p[Frog].length_bottom
