"""Properties of cross-sections: area, centroid, second moment about the horizontal axis."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from templates_gen.geometry import FloatOrArray

#: Half the angle that one side of an octagon subtends at its centre.
_CORNER = math.pi / 8


@dataclass(frozen=True)
class Section:
    """Properties of a cross-section; sections can be added and subtracted.

    Args:
        area: mm².
        inertia: second moment of area about the horizontal axis through the centroid (mm⁴).
        centroid: height of the centroid above the datum (mm).
    """

    area: FloatOrArray
    inertia: FloatOrArray
    centroid: FloatOrArray = 0.0

    def lifted(self, by: FloatOrArray) -> Section:
        """Raise the section above the datum (mm)."""
        return Section(self.area, self.inertia, self.centroid + by)

    def __add__(self, other: Section) -> Section:
        """Add two sections.

        Source: the parallel axis theorem (Steiner), any handbook of mechanics.
        """
        area = self.area + other.area
        centroid = (self.area * self.centroid + other.area * other.centroid) / area
        inertia = sum(
            each.inertia + each.area * (each.centroid - centroid) ** 2 for each in (self, other)
        )
        return Section(area, inertia, centroid)

    def __sub__(self, hole: Section) -> Section:
        """Subtract a hole."""
        return self + Section(-hole.area, -hole.inertia, hole.centroid)


def circle(diameter: FloatOrArray) -> Section:
    """Calculate the properties of a circle; the datum is its centre.

    Args:
        diameter: mm.

    Source: any handbook of mechanics.
    """
    return Section(math.pi / 4 * diameter**2, math.pi / 64 * diameter**4)


def octagon(across_flats: FloatOrArray) -> Section:
    """Calculate the properties of a regular octagon; the datum is its centre.

    Args:
        across_flats: mm.

    Source: eight triangles about the centre; the second moment is the same about every axis.
    """
    r = across_flats / 2
    w = r * math.tan(_CORNER)
    return Section(8 * r * w, 4 * (w * r**3 / 2 + w**3 * r / 6))


def rounded_octagon(across_flats: FloatOrArray, roundness: FloatOrArray) -> Section:
    """Calculate the properties of an octagon whose corners a circle trims; the datum is its centre.

    Args:
        across_flats: mm.
        roundness: 0 for an octagon, 1 for a circle.

    Source: the intersection of octagon and disc: eight triangles on the flats and eight sectors.
    """
    r = np.asarray(across_flats, float) / 2
    disc = r / math.cos(_CORNER) * (1 - roundness) + r * roundness
    flat = np.arccos(np.clip(r / disc, -1.0, 1.0))
    w, arc = r * np.tan(flat), math.pi / 4 - 2 * flat
    area = 8 * (r * w + disc**2 * arc / 2)
    return Section(area, 4 * (w * r**3 / 2 + w**3 * r / 6 + disc**4 * arc / 4))


def rectangle(width: FloatOrArray, height: FloatOrArray) -> Section:
    """Calculate the properties of a rectangle; the datum is its lower edge.

    Args:
        width, height: mm.

    Source: any handbook of mechanics.
    """
    return Section(width * height, width * height**3 / 12, height / 2)


def half_disc(radius: FloatOrArray) -> Section:
    """Calculate the properties of a half disc, flat down; the datum is the flat.

    Args:
        radius: mm.

    Source: any handbook of mechanics.
    """
    inertia = (math.pi / 8 - 8 / (9 * math.pi)) * radius**4
    return Section(math.pi / 2 * radius**2, inertia, 4 * radius / (3 * math.pi))


def d_section(width: FloatOrArray, height: FloatOrArray) -> Section:
    """Calculate the properties of a rectangle with a half disc on top; the datum is its base.

    Args:
        width: mm.
        height: mm, no less than half the width.

    Source: a half disc on a rectangle.
    """
    sides = height - width / 2
    return half_disc(width / 2).lifted(sides) + rectangle(width, sides)
