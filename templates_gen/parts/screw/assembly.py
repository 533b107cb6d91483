"""The screw in the whole bow. Frame: the stick's."""

from __future__ import annotations

from templates_gen.mechanics import STICK, Portion, VolumeAt
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import Pattern
from templates_gen.parts.screw.dims import ScrewDims

MOVES_WITH = STICK


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the shaft, its thread left smooth, and of the thinner tip."""
    d = p.derive(ScrewDims)
    thread, end = d.params.thread_end, d.params.length
    shaft = VolumeAt(circle(d.params.diameter).area * thread, thread / 2)
    return shaft + VolumeAt(circle(d.tip_diameter).area * (end - thread), (thread + end) / 2)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the screw; its end in the button is listed there."""
    return (Portion("screw", volume, "steel"),)
