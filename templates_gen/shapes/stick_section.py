"""What a stick is across, ahead of its handle, told by its thickness: the middle at (0, 0)."""

from __future__ import annotations

from enum import StrEnum

from templates_gen.geometry import Path, circle
from templates_gen.shapes.octagon import d_section, octagon


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
