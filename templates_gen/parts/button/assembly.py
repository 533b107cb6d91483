"""The button in the whole bow: its frame in the stick's, its volume, its pieces."""

from __future__ import annotations

from templates_gen.mechanics import STICK, Frame, Portion, VolumeAt, breaks, gauss
from templates_gen.mechanics.sections import circle, octagon
from templates_gen.parameters import Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.material.params import Material

MOVES_WITH = STICK


def frame(p: Pattern) -> Frame:
    """Return its frame: its own x runs away from the head."""
    return Frame(x=(-1.0, 0.0, 0.0))


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the tapered octagon less its counterbore and the screw's hole."""
    d = p.on_grid().derive(ButtonDims)
    x, each = gauss(breaks(0.0 * d.params.length, d.params.length))
    slices = octagon(d.across_flats(x)).area * each
    grip = VolumeAt.summed(slices, -x)
    d = p.derive(ButtonDims)
    deep, hole = d.params.counterbore_depth, d.hole_depth
    bored = VolumeAt(circle(d.screw.diameter).area * (hole - deep), -(deep + hole) / 2)
    wide = VolumeAt(circle(d.params.counterbore_diameter).area * deep, -deep / 2)
    return grip - bored - wide


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the core, the rings or the shell round it, and the end of the screw in it."""
    d, m = p.derive(ButtonDims), p[Material]
    end = VolumeAt(circle(d.screw.diameter).area * d.hole_depth, -d.hole_depth / 2)
    metal = _metal(d)
    return (
        Portion("button", volume - metal, m.frog_wood),
        Portion("button's metal", metal, m.mounts),
        Portion("screw in the button", end, "steel"),
    )


def _metal(d: ButtonDims) -> VolumeAt:
    s, mean = d.params, d.across_flats(d.params.length / 2)
    around = octagon(mean).area - octagon(mean - 2 * s.ring_sheet).area
    if d.three_piece:
        return VolumeAt(around * 2 * s.ring_width, -s.length / 2)
    cap = octagon(s.across_flats_end).area * s.ring_sheet
    shell = VolumeAt(around * (s.length - s.ring_sheet), -s.length / 2)
    return shell + VolumeAt(cap, s.ring_sheet / 2 - s.length)
