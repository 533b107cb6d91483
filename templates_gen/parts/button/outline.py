"""The button's outlines, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path, polygon
from templates_gen.parameters import Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.shapes.octagon import CORNERS, octagon


def section(p: Pattern, x: float) -> Path:
    """Draw the octagon across at a distance from the butt (mm)."""
    return octagon(p.scalars(ButtonDims).across_flats(x))


def core(p: Pattern, x: float) -> Path:
    """Draw the core across, inside the sheet of its rings."""
    d = p.scalars(ButtonDims)
    return octagon(d.across_flats(x) - 2 * d.params.ring_sheet)


def turning(p: Pattern) -> Path:
    """Draw the turned blank from the side, before the flats are filed; its middle at y = 0."""
    d = p.scalars(ButtonDims)
    length = d.params.length
    butt, end = (CORNERS * d.across_flats(x) / 2 for x in (0.0, length))
    dome = 0.12 * length
    upper = [(0.0, butt), (length - dome, end), (length, end * 0.72)]
    return polygon([*upper, *((x, -y) for x, y in upper[::-1])])
