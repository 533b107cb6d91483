"""Each part's bulk from its dimensions alone, where no solid has been built.

Near what the solids measure: all but frog and head are prisms and tapers; those two come within a
few parts in a hundred. Frame: the stick's, with the frog in play. Lengths may be arrays.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from templates_gen.bow.dims.head_side import side
from templates_gen.bow.dims.travel import Travel
from templates_gen.mechanics.sections import circle, octagon
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.eyelet.dims import EyeletDims
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.screw.dims import ScrewDims
from templates_gen.parts.underslide.dims import UnderslideDims

#: The head without its stick, told by its area from the side times so much of its width and of
#: the stick's thickness; its middle in parts of that area's. Measured on the starters' solids.
_HEAD_WIDTH, _HEAD_STICK, _HEAD_MIDDLE = 0.367, 0.437, 0.73
#: An arch's opening and a tongue in parts of the rectangle round them: π/4 for a half ellipse.
_ARCH = math.pi / 4

_LOOKS, _WEIGHTS = np.polynomial.legendre.leggauss(24)


@dataclass(frozen=True)
class VolumeAt:
    """How much there is of a part (mm³), and the place of its middle along the stick (mm)."""

    volume: FloatOrArray
    x: FloatOrArray


@dataclass(frozen=True)
class Bulks:
    """Every part's bulk, by the names the solids have; the stick's apart."""

    parts: Mapping[str, VolumeAt]

    @classmethod
    def of(cls, p: Pattern) -> Bulks:
        t, under = p.derive(Travel), p.derive(UnderslideDims)
        d = t.frog
        heel = d.seat.heel_in_play
        parts = {
            "ferrule": VolumeAt(_ferrule(d), heel + d.shoulder + d.ferrule.params.length / 2),
            "slide": VolumeAt(_slide(d), heel + d.shoulder - d.slide.params.length / 2),
            "eyelet": VolumeAt(_eyelet(p.derive(EyeletDims)), t.eyelet_in_play),
            "screw": _screw(p.derive(ScrewDims)),
            "frog": _moved(_frog(d, under), heel),
            "head": _head(p.derive(HeadDims)),
            "button": _button(p.derive(ButtonDims)),
        }
        if d.heel.plated:
            parts["heel"] = VolumeAt(_heel(d), heel + d.heel.params.leg_length / 3)
        if under.lined:
            parts["underslide"] = VolumeAt(_underslide(under), heel + (under.start + under.end) / 2)
        return cls(parts)


def _moved(lump: VolumeAt, by: FloatOrArray) -> VolumeAt:
    return VolumeAt(lump.volume, lump.x + by)


def _ferrule(d: FrogDims) -> FloatOrArray:
    s = d.ferrule.params
    arch = d.ferrule.arch_length * s.arch_thickness
    return (arch + s.outer_width * s.plate_thickness) * s.length


def _slide(d: FrogDims) -> FloatOrArray:
    s = d.slide.params
    face = s.width_front - s.width_taper / 2
    return (face + d.slide.floor(face)) / 2 * s.thickness * s.length


def _heel(d: FrogDims) -> FloatOrArray:
    """The bent plate's section, less what its rounding takes, as wide as the heel."""
    s, t = d.heel.params, d.heel.params.plate_thickness
    outer, inner = np.maximum(s.bottom_radius, t), np.maximum(s.bottom_radius - t, 0.0)
    rounding = (1 - math.pi / 4) * (outer**2 - inner**2)
    volume: FloatOrArray = (t * (s.leg_length + s.rear_leg - t) - rounding) * d.params.width_heel
    return volume


def _underslide(d: UnderslideDims) -> FloatOrArray:
    return d.flat_width((d.start + d.end) / 2) * d.params.thickness * d.length


def _eyelet(d: EyeletDims) -> FloatOrArray:
    s = d.params
    body = (d.body_top - d.body_foot) * s.length * s.width
    bore = circle(d.screw.diameter).area * s.length
    shank = circle(s.shank_diameter).area * (d.body_foot - d.shank_end)
    return body - bore + shank


def _screw(d: ScrewDims) -> VolumeAt:
    shaft = circle(d.params.diameter).area * d.params.thread_end
    tip = circle(d.tip_diameter).area * (d.params.length - d.params.thread_end)
    middle = shaft * d.params.thread_end / 2 + tip * (d.params.length + d.params.thread_end) / 2
    return VolumeAt(shaft + tip, middle / (shaft + tip))


def _button(d: ButtonDims) -> VolumeAt:
    s = d.params
    grip = octagon((s.across_flats + s.across_flats_end) / 2).area * s.length
    counterbore = circle(s.counterbore_diameter).area * s.counterbore_depth
    hole = circle(d.screw.diameter).area * (0.6 * s.length - s.counterbore_depth)
    volume = grip - counterbore - hole
    return VolumeAt(volume, -(grip * s.length / 2 - hole * 0.3 * s.length) / volume)


def _head(d: HeadDims) -> VolumeAt:
    area, middle = side(d)
    wide = _HEAD_WIDTH * d.params.width + _HEAD_STICK * d.stick.diameter_head
    return VolumeAt(area * wide, d.bow.face_rear + _HEAD_MIDDLE * middle)


def _frog(d: FrogDims, under: UnderslideDims) -> VolumeAt:
    """Level slices between flanks, heel and throat, less the pockets, and the tongue."""
    s = d.params
    top = np.asarray(s.overall_height, float)[..., None]
    z = top / 2 * (1 + _LOOKS)
    deep = top / 2 * _WEIGHTS
    front = _front(d, z)
    wide = 2 * _half_width(d, z)
    trench = np.asarray(d.seat.land)[..., None] + 2 * (z - np.asarray(s.clear_height)[..., None])
    wide = np.where(z > np.asarray(s.clear_height)[..., None], np.maximum(wide - trench, 0.0), wide)
    block = (deep * wide * front).sum(axis=-1)
    moment = (deep * wide * front**2 / 2).sum(axis=-1)
    for size, x in _pockets(d, under):
        block, moment = block - size, moment - size * x
    return VolumeAt(block, moment / block)


def _pockets(d: FrogDims, under: UnderslideDims) -> list[tuple[FloatOrArray, FloatOrArray]]:
    """What is cut out, less than nothing for the tongue: volume (mm³) and middle (mm)."""
    s, f = d.params, d.ferrule.params
    e = d.seat.eyelet
    shank = circle(e.shank_diameter).area * e.shank_length
    tongue = _ARCH * d.ferrule.inside_width * (d.tongue_top - d.tongue_bottom)
    hair = s.hair_mortise_length * s.hair_mortise_width * s.hair_mortise_depth
    cut = [
        (_slide(d), d.shoulder - d.slide.params.length / 2),
        (hair, s.hair_mortise_from_heel + s.hair_mortise_length / 2),
        (shank, e.from_heel),
        (-tongue * f.length, d.shoulder + f.length / 2),
    ]
    if d.heel.plated:
        cut.append((_heel(d), d.heel.params.leg_length / 3))
    if under.lined:
        cut.append((_underslide(under), (under.start + under.end) / 2))
    if d.has_eye:
        cut.append((2 * circle(s.eye_diameter).area * s.eye_thickness, d.eye[0]))
    return cut


def _half_width(d: FrogDims, z: FloatOrArray) -> FloatOrArray:
    """Half the width at a height: straight in the band, hollow above it."""
    band = np.asarray(d.params.flank_band)[..., None]
    flank = d.flank
    waist, radius, level = (
        np.asarray(v)[..., None] for v in (flank.waist, flank.radius, flank.waist_height)
    )
    hollow = waist + radius - np.sqrt(np.maximum(radius**2 - (z - level) ** 2, 0.0))
    straight = np.asarray((d.half_width(0.0) + d.half_width(d.shoulder)) / 2)[..., None]
    return np.where(z < band, straight, hollow)


def _front(d: FrogDims, z: FloatOrArray) -> FloatOrArray:
    """How far forward the ebony reaches at a height: shoulder, throat, thumb's line, tip."""
    t = d.throat
    low, high, deepest, lower, upper = (
        np.asarray(v)[..., None] for v in (t.low, t.high, t.deepest, t.lower_radius, t.upper_radius)
    )
    joins_x, joins_z = (np.asarray(v)[..., None] for v in t.joins_thumb)
    shoulder, ferrule, tip, tip_height = (
        np.asarray(v)[..., None] for v in (t.shoulder, t.ferrule, t.tip, t.tip_height)
    )
    rise = np.where(z < low, low - z, np.maximum(z - high, 0.0))
    radius = np.where(z < low, lower, upper)
    arc = deepest + radius - np.sqrt(np.maximum(radius**2 - rise**2, 0.0))
    share = np.clip((z - joins_z) / np.maximum(tip_height - joins_z, 1e-9), 0.0, 1.0)
    thumb = joins_x + (tip - joins_x) * share
    return np.where(z < ferrule, shoulder, np.where(z < joins_z, arc, thumb))
