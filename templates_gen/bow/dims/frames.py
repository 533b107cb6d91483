"""Where each part stands: in the frog, and with the frog on the stick."""

from __future__ import annotations

import math

from templates_gen import registry
from templates_gen.bow.dims.travel import Travel
from templates_gen.mechanics import FROG, Frame
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.underslide.dims import UnderslideDims


def of_group(p: Pattern, group: str) -> dict[str, Frame]:
    """List the frames of the parts that move as one (``FROG``, ``STICK``), in the group's own."""
    return {m.part: m.frame(p) for m in registry.members() if m.moves_with == group}


def group_in_play(p: Pattern, group: str) -> FloatOrArray:
    """Return how far (mm) from the butt's shoulder a group's frame begins in play."""
    return p.derive(UnderslideDims).heel_in_play if group == FROG else 0.0


def positions(p: Pattern) -> dict[str, tuple[float, float]]:
    """Return x and z (mm) of the frog's heel on the stick, at its bottom plane, by pose.

    The frog hangs on the diagonals: where the handle is thinner it lies nearer the axis.
    """
    t = p.derive(Travel)
    play, from_heel = float(t.eyelet_in_play), float(t.frog.seat.eyelet.from_heel)
    taper, axis = float(t.stick.taper), float(t.frog.seat.axis_height)
    places = {
        "rearmost": float(t.stick.eyelet_rear),
        "play": play,
        "foremost": float(t.stick.eyelet_front),
    }
    return {
        name: (x - from_heel, -axis - taper * (x - play) / math.sqrt(2))
        for name, x in places.items()
    }


def frog_at(p: Pattern, pose: str) -> Frame:
    """Return the frog's frame on the stick: ``rearmost``, in ``play`` or ``foremost``."""
    x, z = positions(p)[pose]
    return Frame((x, 0.0, z))
