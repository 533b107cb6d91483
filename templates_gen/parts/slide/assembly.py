"""The slide in the whole bow: its frame in the frog's, its volume, its pieces."""

from __future__ import annotations

from templates_gen.mechanics import FROG, Frame, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.material.params import Material
from templates_gen.parts.slide.dims import SlideDims

MOVES_WITH = FROG


def frame(p: Pattern) -> Frame:
    """Return its frame: its own x runs from the ferrule to the heel."""
    shoulder = p[Frog].length_bottom - p.derive(SlideDims).ferrule.params.length
    return Frame((shoulder, 0.0, 0.0), (-1.0, 0.0, 0.0))


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the tapered dovetail. Source: its width falls evenly from end to end."""
    d = p.derive(SlideDims)
    s = d.params
    front, heel = (w + d.floor(w) for w in (s.width_front, d.width_heel))
    middle = s.length / 3 * (front + 2 * heel) / (front + heel)
    size = (front + heel) / 4 * s.thickness * s.length
    return VolumeAt(size, frame(p).along((middle, 0.0, 0.0)))


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the pearl it is faced with and the slide itself."""
    m = p[Material]
    share = m.pearl_thickness / p.derive(SlideDims).params.thickness
    facing = VolumeAt(share * volume.volume, volume.x)
    return (
        Portion("slide's facing", facing, m.pearl),
        Portion("slide", VolumeAt(volume.volume - facing.volume, volume.x), "ebony"),
    )
