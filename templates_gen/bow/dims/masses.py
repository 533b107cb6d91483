"""What the bow weighs, piece by piece, and where it balances. Frame: the stick's.

Lengths may be arrays, one for each of many bows.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from templates_gen.bow.dims.head_plates import facings
from templates_gen.bow.dims.stick_sections import StickSections
from templates_gen.bow.dims.travel import Travel
from templates_gen.bow.dims.volumes import Bulks, VolumeAt
from templates_gen.mechanics.materials import materials
from templates_gen.mechanics.sections import circle, octagon
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.frog.params import EyeKind
from templates_gen.parts.hair.dims import HAIR_DIAMETER
from templates_gen.parts.material.dims import MaterialDims

#: Plugs and wedge are of a soft light wood (kg/m³). Common practice, no source.
SOFT_WOOD = 600.0
#: Width (mm) of the metal ring round an eye. Common practice, no source.
EYE_RING = 0.6
#: The screw reaches so far into the button, in parts of its length, as its solid is bored.
IN_BUTTON = 0.6


@dataclass(frozen=True)
class Usual:
    """What is usual: mass (g), and balance ahead of the ferrule's front in play (mm)."""

    mass: tuple[float, float]
    balance: tuple[float, float]


#: H. Saint-George, The Bow, ch. VII, for the masses of violin, viola and cello, widened by two or
#: three grams; Encyclopaedia Britannica, 11th ed., Bow, for the balance of violin and cello, ± 12;
#: all else common practice, no source.
BANDS = {
    "violin": Usual((55.0, 65.0), (178.0, 202.0)),
    "viola": Usual((64.0, 75.0), (168.0, 198.0)),
    "cello": Usual((74.0, 90.0), (163.0, 190.0)),
    "bass-french": Usual((125.0, 145.0), (135.0, 180.0)),
    "bass-german": Usual((125.0, 145.0), (135.0, 185.0)),
}


@dataclass(frozen=True)
class Piece:
    """One piece of the bow.

    Args:
        name: what the maker calls it.
        mass: g.
        x: place of its middle from the butt's shoulder (mm).
        material: what it is made of.
    """

    name: str
    mass: FloatOrArray
    x: FloatOrArray
    material: str


@dataclass(frozen=True)
class Masses:
    """Every piece, from the dimensions alone."""

    pieces: tuple[Piece, ...]

    @classmethod
    def of(cls, p: Pattern) -> Masses:
        return cls(pieces(p, p.derive(Bulks).parts))

    @property
    def total(self) -> FloatOrArray:
        """What the bow weighs (g)."""
        return total(self.pieces)

    @property
    def balance(self) -> FloatOrArray:
        """Where it balances (mm from the butt's shoulder)."""
        return balance(self.pieces)


def total(pieces: tuple[Piece, ...]) -> FloatOrArray:
    """What pieces weigh together (g)."""
    return sum((piece.mass for piece in pieces), 0.0)


def balance(pieces: tuple[Piece, ...]) -> FloatOrArray:
    """Σ m x / Σ m (mm)."""
    return sum((piece.mass * piece.x for piece in pieces), 0.0) / total(pieces)


def pieces(p: Pattern, bulk: Mapping[str, VolumeAt]) -> tuple[Piece, ...]:
    """Every piece of the bow.

    Args:
        p: the pattern.
        bulk: how much there is of each part that has a solid, but for the stick.
    """
    return (*_stick(p), *_head(p, bulk["head"]), *_frog(p, bulk), *_button(p, bulk), *_soft(p))


def _stick(p: Pattern) -> tuple[Piece, ...]:
    sections, m = p.derive(StickSections), p.derive(MaterialDims)
    volume, x = sections.bulk
    nipple, long = sections.nipple, p.derive(Travel).stick.params.nipple_length
    whole = volume + nipple
    middle = (volume * x - nipple * long / 2) / whole
    return (Piece("stick", whole * m.stick_density * 1e-6, middle, m.params.stick_wood),)


def _head(p: Pattern, lump: VolumeAt) -> tuple[Piece, ...]:
    """Head, plate and liner; the head's solid has all three in one."""
    m, (plate, liner) = p.derive(MaterialDims), facings(p)
    wood = lump.volume - plate.volume - liner.volume
    middle = (lump.volume * lump.x - plate.volume * plate.x - liner.volume * liner.x) / wood
    metal = "bone" if p.values["head.plate_kind"] == "bone" else str(m.params.mounts)
    return (
        Piece("head", wood * m.stick_density * 1e-6, middle, m.params.stick_wood),
        _piece("tip plate", plate, metal),
        _piece("liner", liner, "ebony"),
    )


def _frog(p: Pattern, bulk: Mapping[str, VolumeAt]) -> tuple[Piece, ...]:
    m = p.derive(MaterialDims)
    d, metal = p.derive(Travel).frog, str(m.params.mounts)
    found = [
        Piece("frog", bulk["frog"].volume * m.frog_density * 1e-6, bulk["frog"].x, _frog_wood(m)),
        _piece("ferrule", bulk["ferrule"], metal),
        *_slide(m, bulk["slide"], d.slide.params.thickness),
        _piece("eyelet", bulk["eyelet"], "brass"),
        _piece("screw", bulk["screw"], "steel"),
    ]
    for part in ("heel", "underslide"):
        if part in bulk:
            found.append(_piece("heel plate" if part == "heel" else part, bulk[part], metal))
    if d.has_eye:
        found += _eyes(p, d.seat.heel_in_play + d.eye[0])
    return tuple(found)


def _slide(m: MaterialDims, lump: VolumeAt, thickness: FloatOrArray) -> tuple[Piece, ...]:
    faced = m.params.pearl_thickness / thickness * lump.volume
    return (
        _piece("slide's facing", VolumeAt(faced, lump.x), m.params.pearl),
        _piece("slide", VolumeAt(lump.volume - faced, lump.x), "ebony"),
    )


def _eyes(p: Pattern, x: FloatOrArray) -> list[Piece]:
    m, s = p.derive(MaterialDims), p.derive(Travel).frog.params
    whole = 2 * circle(s.eye_diameter).area * s.eye_thickness
    if s.eye_kind is EyeKind.PLAIN:
        return [_piece("eyes", VolumeAt(whole, x), m.params.pearl)]
    inner = 2 * circle(s.eye_diameter - 2 * EYE_RING).area * s.eye_thickness
    return [
        _piece("eyes", VolumeAt(inner, x), m.params.pearl),
        _piece("eyes' rings", VolumeAt(whole - inner, x), str(m.params.mounts)),
    ]


def _button(p: Pattern, bulk: Mapping[str, VolumeAt]) -> tuple[Piece, ...]:
    """Rings or shell, the core, and the end of the screw in it."""
    d, m, lump = p.derive(ButtonDims), p.derive(MaterialDims), bulk["button"]
    s = d.params
    mean = (s.across_flats + s.across_flats_end) / 2
    around = octagon(mean).area - octagon(mean - 2 * s.ring_sheet).area
    if d.three_piece:
        metal = VolumeAt(around * 2 * s.ring_width, -s.length / 2)
    else:
        cap = octagon(s.across_flats_end).area * s.ring_sheet
        shell = around * (s.length - s.ring_sheet)
        moment = -shell * s.length / 2 - cap * (s.length - s.ring_sheet / 2)
        metal = VolumeAt(shell + cap, moment / (shell + cap))
    core = lump.volume - metal.volume
    middle = (lump.volume * lump.x - metal.volume * metal.x) / core
    end = circle(d.screw.diameter).area * IN_BUTTON * s.length
    return (
        Piece("button", core * m.frog_density * 1e-6, middle, _frog_wood(m)),
        _piece("button's metal", metal, str(m.params.mounts)),
        _piece("screw in the button", VolumeAt(end, -IN_BUTTON * s.length / 2), "steel"),
    )


def _soft(p: Pattern) -> tuple[Piece, ...]:
    """Hair, plugs, leather and lapping."""
    t, m, lapping = p.derive(Travel), p.derive(MaterialDims), p.derive(MaterialDims).lapping
    stick, d, leather = t.stick, t.frog, t.leather
    heel, s, head = d.seat.heel_in_play, d.params, t.head
    frog_knot = heel + s.hair_mortise_from_heel + s.hair_mortise_length / 2
    head_knot = stick.face_rear + head.mortise_from_rear + head.mortise_length / 2
    long = head_knot - frog_knot + s.hair_mortise_depth + head.mortise_depth
    hairs = t.hair.count * math.pi / 4 * HAIR_DIAMETER**2 * long
    frog_plug = d.plug_length * d.plug_height * s.hair_mortise_width
    hide_at = leather.from_butt + leather.length / 2
    round_stick = stick.girth(hide_at) + math.pi * leather.thickness
    found = [
        _piece("hair", VolumeAt(hairs, (frog_knot + head_knot) / 2), "horse hair"),
        Piece("plug in the frog", frog_plug * SOFT_WOOD * 1e-6, frog_knot, "soft wood"),
        Piece("plug in the head", _head_plug(p) * SOFT_WOOD * 1e-6, head_knot, "soft wood"),
        Piece(
            "wedge",
            d.ferrule.wedge_volume * SOFT_WOOD * 1e-6,
            heel + d.shoulder + d.ferrule.params.length / 2,
            "soft wood",
        ),
        _piece(
            "leather",
            VolumeAt(round_stick * leather.thickness * leather.length, hide_at),
            "leather",
        ),
    ]
    if m.lapping_material:
        at = leather.from_butt + leather.length + lapping.length / 2
        mass = m.lapping_per_mm(stick.diameter(at)) * lapping.length
        found.append(Piece("lapping", mass, at, m.lapping_material))
    return tuple(found)


def _head_plug(p: Pattern) -> FloatOrArray:
    """The plug under the head's plate, the knot above it (mm³)."""
    t = p.derive(Travel)
    h = t.head
    deep = h.mortise_depth - h.plate_thickness - h.liner_thickness - t.frog.hair.knot
    return h.mortise_length * (h.mortise_width + h.mortise_width_front) / 2 * deep


def _piece(name: str, lump: VolumeAt, material: str) -> Piece:
    density = materials()[material].density.usual
    return Piece(name, lump.volume * density * 1e-6, lump.x, str(material))


def _frog_wood(m: MaterialDims) -> str:
    return str(m.params.frog_wood)
