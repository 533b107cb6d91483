"""The heel plate in the whole bow. Frame: the frog's."""

from __future__ import annotations

import numpy as np

from templates_gen.mechanics import FROG, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.material.params import Material

MOVES_WITH = FROG


def volume(p: Pattern) -> VolumeAt | None:
    """Return the volume of the bent plate, as wide as the heel; None where there is none.

    Source: two straight legs and a sector of a ring; areas and centroids by any handbook.
    """
    d = p.derive(HeelDims)
    if not d.plated:
        return None
    s, t, lean = d.params, d.params.plate_thickness, np.radians(d.params.lean_deg)
    turn, outer, inner = np.radians(d.bend_turn_deg), s.bottom_radius, d.bend_inner_radius
    reach = 2 / 3 * (outer**3 - inner**3) / (outer**2 - inner**2) * np.sin(turn / 2) / (turn / 2)
    up = (d.setback + s.rear_leg) / 2
    legs = VolumeAt(d.bottom_straight * t, (outer + s.leg_length) / 2)
    legs += VolumeAt(d.rear_straight * t, d.corner + up * np.sin(lean) + t / 2 * np.cos(lean))
    bend = VolumeAt(turn / 2 * (outer**2 - inner**2), outer - reach * np.sin(turn / 2))
    side = legs + bend
    return VolumeAt(side.volume * d.frog.width_heel, side.x)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the plate."""
    return (Portion("heel plate", volume, p[Material].mounts),)
