"""The underslide in the whole bow. Frame: the frog's."""

from __future__ import annotations

import math

from templates_gen.mechanics import FROG, Portion, VolumeAt, breaks, gauss
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import Pattern
from templates_gen.parts.material.params import Material
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.seat import CORNER

MOVES_WITH = FROG


def volume(p: Pattern) -> VolumeAt | None:
    """Return the volume of the bent lining less the shank's hole; None where the seat is bare."""
    if not p.derive(UnderslideDims).lined:
        return None
    d = p.on_grid().derive(UnderslideDims)
    x, each = gauss(breaks(d.start, d.end))
    # Land and two wings, sharp in their bends.
    wide = d.land_at(x) + 2 * math.sqrt(2) * d.stop_at(x) + 2 * CORNER * d.lining
    slices = wide * d.lining * each
    bent = VolumeAt.summed(slices, x)
    d = p.derive(UnderslideDims)
    return bent - VolumeAt(circle(d.shank_hole).area * d.lining, d.eyelet.from_heel)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the lining."""
    return (Portion("underslide", volume, p[Material].mounts),)
