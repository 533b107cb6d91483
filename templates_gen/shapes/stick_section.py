"""Cross-section of the stick ahead of its handle: its outline, and its area and second moment.

Frame: the axis at (0, 0), z away from the hair.
"""

from __future__ import annotations

import math
from enum import StrEnum

from templates_gen.geometry import Path, Pen, Point, circle
from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.mechanics import sections
from templates_gen.mechanics.sections import Section, half_disc, rounded_octagon
from templates_gen.shapes.octagon import CORNERS, FACET, d_section, octagon


class SectionKind(StrEnum):
    """What the stick is across, ahead of its handle."""

    ROUND = "round"
    OCTAGON = "octagon"
    D_SECTION = "d-section"


def across(kind: SectionKind, thick: float) -> Path:
    """The outline, hair side down.

    Args:
        kind: which of the three.
        thick: diameter, or across the flats (mm).
    """
    if kind is SectionKind.ROUND:
        return circle((0.0, 0.0), thick / 2)
    return octagon(thick) if kind is SectionKind.OCTAGON else d_section(thick)


def disc_radius(thick: float, roundness: float) -> float:
    """Radius (mm) of the disc that cuts the corners off: over them at first, at last the flats."""
    return thick / 2 * (CORNERS + (1.0 - CORNERS) * roundness)


def between(kind: SectionKind, thick: float, roundness: float) -> Path:
    """The outline where the handle's octagon runs out.

    A disc about the middle cuts the corners off; of a D-section, those of the upper half.

    Args:
        kind: what it runs out to.
        thick: across the flats (mm).
        roundness: 0 where the handle ends, 1 where the blend does.
    """
    if kind is SectionKind.OCTAGON or roundness <= 0.0:
        return octagon(thick)
    if roundness >= 1.0:
        return across(kind, thick)
    half, whole = thick / 2, FACET * thick / 2
    cut = math.sqrt(disc_radius(thick, roundness) ** 2 - half**2)
    low = kind is SectionKind.D_SECTION

    def place(eighth: int, along: float) -> Point:
        """On a facet, the lowest the first, so far to the left from its middle."""
        angle = (eighth - 2) * math.pi / 4
        c, s = math.cos(angle), math.sin(angle)
        return (half * c - along * s, half * s + along * c)

    pen = Pen(place(0, -(whole if low else cut)))
    for eighth in range(8):
        # Of a D the corners from the right upright's lower to the left one's stay.
        sharp = low and eighth in (0, 1, 6, 7)
        pen.line_to(*place(eighth, whole if sharp else cut))
        if not sharp:
            pen.arc_to(place(eighth + 1, -cut), (0.0, 0.0), left=True)
    return pen.close()


def wood(kind: SectionKind, thick: FloatOrArray, roundness: FloatOrArray) -> Section:
    """Area and second moment where the handle's octagon runs out; the datum is the axis.

    Args:
        kind: what it runs out to.
        thick: across the flats (mm).
        roundness: 0 where the handle ends, 1 where the blend does.
    """
    if kind is SectionKind.OCTAGON:
        return sections.octagon(thick)
    if kind is SectionKind.ROUND:
        return rounded_octagon(thick, roundness)
    handle, ahead = sections.octagon(thick), flat_below(thick)
    return Section(
        handle.area + (ahead.area - handle.area) * roundness,
        handle.inertia + (ahead.inertia - handle.inertia) * roundness,
        handle.centroid + (ahead.centroid - handle.centroid) * roundness,
    )


def flat_below(across_flats: FloatOrArray) -> Section:
    """A round top on the octagon's lower half; the datum is the axis.

    Source: a half disc on half an octagon, whose first moment is that of a rectangle between the
    upright facets and of the trapezoid below them.
    """
    whole, side = sections.octagon(across_flats), FACET * across_flats / 2
    low = across_flats / 2 - side
    moment = across_flats * side**2 / 2 + (across_flats / 2 + side) * low * side
    moment = moment + low**2 * (across_flats + 4 * side) / 6
    area = whole.area / 2
    depth = moment / area
    lower = Section(area, whole.inertia / 2 - area * depth**2, -depth)
    return lower + half_disc(across_flats / 2)
