"""A part in an assembly: its frame, its volume and centre of volume, the materials it is made of.

Lengths may be arrays, one entry for each of many bows.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.geometry import FloatOrArray

Vector = tuple[FloatOrArray, FloatOrArray, FloatOrArray]

ALONG: Vector = (1.0, 0.0, 0.0)
UP: Vector = (0.0, 0.0, 1.0)

#: The two groups of parts that move as one: what travels with the frog, what stays on the stick.
FROG, STICK = "frog", "stick"


@dataclass(frozen=True)
class Frame:
    """A part's position and orientation in another frame.

    Args:
        origin: the part's own origin (mm).
        x, z: directions of the part's own x and z axes, of length 1.
    """

    origin: Vector = (0.0, 0.0, 0.0)
    x: Vector = ALONG
    z: Vector = UP

    def along(self, point: Vector) -> FloatOrArray:
        """Convert a point of the part (mm) to its x in the other frame (mm)."""
        (xx, xy, xz), (zx, zy, zz) = self.x, self.z
        yx = zy * xz - zz * xy  # z × x
        return self.origin[0] + point[0] * xx + point[1] * yx + point[2] * zx


@dataclass(frozen=True)
class VolumeAt:
    """A volume and its centre along the bow; one may be added to another, or taken out of it.

    Args:
        volume: mm³.
        x: centre of volume along the bow (mm).
    """

    volume: FloatOrArray
    x: FloatOrArray

    @classmethod
    def summed(cls, volumes: FloatOrArray, x: FloatOrArray) -> VolumeAt:
        """Add up small volumes (mm³) at their places (mm) along the last two axes."""
        volume = np.sum(volumes, axis=(-2, -1))
        return cls(volume, np.sum(volumes * x, axis=(-2, -1)) / volume)

    def moved(self, by: FloatOrArray) -> VolumeAt:
        """Return the same volume farther along the bow (mm)."""
        return VolumeAt(self.volume, self.x + by)

    def __add__(self, other: VolumeAt) -> VolumeAt:
        volume = self.volume + other.volume
        return VolumeAt(volume, (self.volume * self.x + other.volume * other.x) / volume)

    def __sub__(self, hole: VolumeAt) -> VolumeAt:
        return self + VolumeAt(-hole.volume, hole.x)


@dataclass(frozen=True)
class Portion:
    """What a part has of one material.

    Args:
        name: what the maker calls it: ``tip plate``.
        volume: its volume and centre, x from the butt's shoulder.
        material: as in ``materials.csv``, or the wood the maker states for stick or frog.
    """

    name: str
    volume: VolumeAt
    material: str
