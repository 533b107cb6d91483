"""Cross-section of the stick ahead of the handle: outline, area and second moment.

Frame: the axis at (0, 0), z away from the hair.
"""

from __future__ import annotations

import math
from enum import StrEnum

from templates_gen.geometry import FloatOrArray, Path, Pen, Point, circle
from templates_gen.mechanics import Section, sections
from templates_gen.mechanics.sections import half_disc, rounded_octagon
from templates_gen.shapes.octagon import CORNERS, FACET, d_section, octagon


class SectionKind(StrEnum):
    """Cross-section of the stick ahead of the handle."""

    ROUND = "round"
    OCTAGON = "octagon"
    D_SECTION = "d-section"


def stick_outline(kind: SectionKind, thick: float) -> Path:
    """Draw the outline of a section, hair side down.

    Args:
        kind: which section.
        thick: diameter, or width across flats (mm).
    """
    if kind is SectionKind.ROUND:
        return circle((0.0, 0.0), thick / 2)
    return octagon(thick) if kind is SectionKind.OCTAGON else d_section(thick)


def disc_radius(thick: float, roundness: float) -> float:
    """Calculate the radius (mm) of the circle that trims the corners in the blend.

    It goes from the octagon's circumscribed circle to its inscribed one.

    Args:
        thick: across flats (mm).
        roundness: 0 at the end of the handle, 1 at the end of the blend.
    """
    return thick / 2 * (CORNERS + (1.0 - CORNERS) * roundness)


def blend_outline(kind: SectionKind, thick: float, roundness: float) -> Path:
    """Draw the outline of a section in the blend from the handle's octagon.

    A circle about the axis trims the corners; for a D-section, only those of the upper half.

    Args:
        kind: the section the blend ends in.
        thick: across flats (mm).
        roundness: 0 at the end of the handle, 1 at the end of the blend.
    """
    if kind is SectionKind.OCTAGON or roundness <= 0.0:
        return octagon(thick)
    if roundness >= 1.0:
        return stick_outline(kind, thick)
    half, whole = thick / 2, FACET * thick / 2
    cut = math.sqrt(disc_radius(thick, roundness) ** 2 - half**2)
    low = kind is SectionKind.D_SECTION

    def place(eighth: int, along: float) -> Point:
        """Place a point on a facet, the lowest being 0, at a distance (mm) left of its middle."""
        angle = (eighth - 2) * math.pi / 4
        c, s = math.cos(angle), math.sin(angle)
        return (half * c - along * s, half * s + along * c)

    pen = Pen(place(0, -(whole if low else cut)))
    for eighth in range(8):
        # A D-section keeps the four lower corners.
        sharp = low and eighth in (0, 1, 6, 7)
        pen.line_to(*place(eighth, whole if sharp else cut))
        if not sharp:
            pen.arc_to(place(eighth + 1, -cut), (0.0, 0.0), left=True)
    return pen.close()


def blend_section(kind: SectionKind, thick: FloatOrArray, roundness: FloatOrArray) -> Section:
    """Calculate the properties of a section in the blend; the datum is the axis.

    Args:
        kind: the section the blend ends in.
        thick: across flats (mm).
        roundness: 0 at the end of the handle, 1 at the end of the blend.
    """
    if kind is SectionKind.OCTAGON:
        return sections.octagon(thick)
    if kind is SectionKind.ROUND:
        return rounded_octagon(thick, roundness)
    handle, ahead = sections.octagon(thick), d_section_properties(thick)
    return Section(
        handle.area + (ahead.area - handle.area) * roundness,
        handle.inertia + (ahead.inertia - handle.inertia) * roundness,
        handle.centroid + (ahead.centroid - handle.centroid) * roundness,
    )


def d_section_properties(across_flats: FloatOrArray) -> Section:
    """Calculate the properties of a D-section from its width across flats; the datum is the axis.

    Source: a half disc on half an octagon; the first moment of the half octagon is that of the
    rectangle between its vertical facets and the trapezoid below.
    """
    whole, side = sections.octagon(across_flats), FACET * across_flats / 2
    low = across_flats / 2 - side
    moment = across_flats * side**2 / 2 + (across_flats / 2 + side) * low * side
    moment = moment + low**2 * (across_flats + 4 * side) / 6
    area = whole.area / 2
    depth = moment / area
    lower = Section(area, whole.inertia / 2 - area * depth**2, -depth)
    return lower + half_disc(across_flats / 2)
