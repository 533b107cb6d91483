"""Walls of ebony to be measured between the frog's own faces. Frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.wall import Place, Wall

#: A place stands at least so far (mm) from its face's edges.
_OFF = 0.1


def walls(p: Pattern) -> tuple[Wall, ...]:
    """Every wall that can be told by its faces; one whose face lies in doubt is left out."""
    d = p.derive(FrogDims)
    shank = (_shank(d)[1], 0.0, float(d.shank_end) + 0.5)
    front, side, roof = _mortise(d)
    found = [
        Wall("frog.mortise_to_throat", front, _throat(d)),
        Wall("frog.shank_to_throat", shank, _throat(d)),
        Wall("frog.mortise_to_seat", roof, ((roof[0], 0.0, float(d.trench_floor(roof[0]))),)),
        Wall("frog.shank_to_mortise", shank, (roof, front)),
    ]
    if d.has_eye:
        y, z = d.eye_floor
        eye = (float(d.eye[0]), float(y), float(z))
        found.append(Wall("frog.eye_to_mortise", eye, (side, roof)))
    flank = _flank(d)
    if flank:
        found.append(Wall("frog.mortise_to_flank", side, (flank,)))
        found.append(Wall("frog.dovetail_wall", _channel(d), (flank, *_block_side(d))))
    return tuple(found)


def _shank(d: FrogDims) -> tuple[float, float]:
    at, r = float(d.seat.eyelet.from_heel), float(d.seat.eyelet.shank_diameter) / 2
    return at - r, at + r


def _mortise(d: FrogDims) -> tuple[Place, Place, Place]:
    """On the hair mortise's front wall, on its left side, and on its roof clear of the shank."""
    rear, front = float(d.stated.hair_mortise_from_heel), float(d.mortise_front)
    floor, top = float(d.slide.stated.thickness), float(d.mortise_top)
    half = float(d.stated.hair_mortise_width) / 2
    low, high = _shank(d)
    x = rear + _OFF if not low - _OFF < rear + _OFF < high + _OFF else front - _OFF
    above_lip = (floor + 2 * float(d.stated.lip_radius) + top) / 2
    return (front, 0.0, above_lip), ((rear + front) / 2, half, (floor + top) / 2), (x, 0.0, top)


def _throat(d: FrogDims) -> tuple[Place, ...]:
    """A tenth of a radian along each of the throat's arcs from the deepest place."""
    t = d.throat
    arcs = (
        (float(t.lower_radius), float(t.low), 1.0),
        (float(t.upper_radius), float(t.high), -1.0),
    )
    return tuple(
        (float(t.deepest) + r * (1 - math.cos(0.1)), 0.0, z - way * r * math.sin(0.1))
        for r, z, way in arcs
    )


def _flank(d: FrogDims) -> Place | None:
    """Low on the left flank's hollow abreast of the mortise, beside the eye or below it."""
    rear, front = float(d.stated.hair_mortise_from_heel), float(d.mortise_front)
    limit = float(min(d.run_out, d.throat.deepest)) - _OFF
    r, (at, up) = float(d.stated.eye_diameter) / 2, (float(v) for v in d.eye)
    for x in ((rear + front) / 2, front, rear):
        z = _foot(d, x) + 3 * _OFF
        if x < limit and (not d.has_eye or abs(x - at) > r + _OFF or z < up - r - _OFF):
            return (x, float(d.flank.half_width(z)), z)
    return None


def _foot(d: FrogDims, x: float) -> float:
    """Height at which the hollow begins across at x; 0 where it leaves the block no side."""
    half, lowest = float(d.half_width(x)), float(d.flank.half_width(0.0))
    return 0.0 if half >= lowest else float(d.flank.meets(half))


def _across_channel(d: FrogDims) -> float:
    """Where the channel is looked at: in the middle of its length."""
    return (float(d.channel_rear) + float(d.shoulder)) / 2


def _channel(d: FrogDims) -> Place:
    """On the channel's left side, half way up."""
    x = _across_channel(d)
    wide = d.channel_width(x)
    return (x, float(wide + d.slide.floor(wide)) / 4, float(d.slide.stated.thickness) / 2)


def _block_side(d: FrogDims) -> tuple[Place, ...]:
    """On the block's left side below the hollow, if there is enough of it."""
    x = _across_channel(d)
    foot = _foot(d, x)
    return ((x, float(d.half_width(x)), foot / 2),) if foot > 2 * _OFF else ()
