"""The frog in the whole bow. Frame: the frog's, in which its group moves."""

from __future__ import annotations

from templates_gen.mechanics import FROG, Portion, VolumeAt
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_volume import ebony
from templates_gen.parts.frog.params import EyeKind
from templates_gen.parts.material.params import Material

#: Width (mm) of the metal ring round an eye. Common practice, no source.
EYE_RING = 0.6

MOVES_WITH = FROG
volume = ebony


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the frog's wood, the plug that holds the hair, and the eyes."""
    d = p.derive(FrogDims)
    s, m, heel = d.params, p[Material], d.seat.heel_in_play
    knot = heel + s.hair_mortise_from_heel + s.hair_mortise_length / 2
    plug = VolumeAt(d.plug_length * d.plug_height * s.hair_mortise_width, knot)
    found = [
        Portion("frog", volume, m.frog_wood),
        Portion("plug in the frog", plug, "soft wood"),
    ]
    if d.has_eye:
        at, ring = heel + d.eye[0], EYE_RING if s.eye_kind is EyeKind.RINGED else 0.0
        whole, inner = (
            VolumeAt(2 * circle(s.eye_diameter - 2 * w).area * s.eye_thickness, at)
            for w in (0.0, ring)
        )
        found.append(Portion("eyes", inner, m.pearl))
        if ring:
            size = whole.volume - inner.volume
            found.append(Portion("eyes' rings", VolumeAt(size, at), m.mounts))
    return tuple(found)
