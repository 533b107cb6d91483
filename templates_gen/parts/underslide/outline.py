"""The underslide's outlines, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path, circle
from templates_gen.parameters import Pattern
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes import seat
from templates_gen.shapes.trapezoid import trapezoid


def flat(p: Pattern) -> Path:
    """Draw the sheet laid flat, with filing allowance."""
    d = p.scalars(UnderslideDims)
    over = d.params.filing_allowance
    ends = (d.start - over, d.end + over)
    widths = (d.flat_width(x) + 2 * over for x in ends)
    return trapezoid(*ends, *widths)


def shank_hole(p: Pattern) -> Path:
    """Draw the hole for the eyelet's shank."""
    d = p.scalars(UnderslideDims)
    return circle((d.eyelet.from_heel, 0.0), d.shank_hole / 2)


def section(p: Pattern, x: float) -> Path:
    """Draw the pressed lining across at a place on the frog (mm from the heel)."""
    d = p.scalars(UnderslideDims)
    pressed = seat.lining(d.land_at(x), d.params.thickness, d.stop_at(x))
    return pressed.moved(0.0, d.land_height(x))
