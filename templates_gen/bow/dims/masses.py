"""Mass and balance of the bow, piece by piece. Frame: the stick's.

Lengths may be arrays, one for each of many bows.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from templates_gen import registry
from templates_gen.bow.dims.volumes import VolumeAt, Volumes
from templates_gen.parameters import Dims, FloatOrArray, Pattern
from templates_gen.parts.material.dims import MaterialDims


@dataclass(frozen=True)
class Usual:
    """The usual range of mass (g), and of the balance ahead of the ferrule's front in play (mm)."""

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
        x: its centre from the butt's shoulder (mm).
        material: what it is made of.
    """

    name: str
    mass: FloatOrArray
    x: FloatOrArray
    material: str


@dataclass(frozen=True)
class Masses(Dims):
    """Every piece of the bow, from the dimensions alone."""

    pieces: tuple[Piece, ...]

    @classmethod
    def of(cls, p: Pattern) -> Masses:
        return cls(pieces(p, p.derive(Volumes).parts))

    @property
    def total(self) -> FloatOrArray:
        """Mass of the bow (g)."""
        return total(self.pieces)

    @property
    def balance(self) -> FloatOrArray:
        """Centre of mass (mm from the butt's shoulder)."""
        return balance(self.pieces)


def total(pieces: tuple[Piece, ...]) -> FloatOrArray:
    """Return the mass of all pieces (g)."""
    return sum((piece.mass for piece in pieces), 0.0)


def balance(pieces: tuple[Piece, ...]) -> FloatOrArray:
    """Return the centre of mass Σ m x / Σ m (mm)."""
    return sum((piece.mass * piece.x for piece in pieces), 0.0) / total(pieces)


def pieces(p: Pattern, volumes: Mapping[str, VolumeAt]) -> tuple[Piece, ...]:
    """List every piece of the bow, part by part.

    Args:
        p: the pattern.
        volumes: the volume of every part it has, x from the butt's shoulder.
    """
    m = p.derive(MaterialDims)
    return tuple(
        Piece(q.name, q.volume.volume * m.density(q.material) * 1e-6, q.volume.x, str(q.material))
        for member in registry.members()
        if member.part in volumes
        for q in member.portions(p, volumes[member.part])
    )
