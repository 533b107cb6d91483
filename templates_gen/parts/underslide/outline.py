"""The underslide's outlines, in the frames named at each."""

from __future__ import annotations

from templates_gen.geometry import Path, circle, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes import seat


def flat(p: Pattern) -> Path:
    """The sheet to cut, laid flat with its filing allowance."""
    d = p.derive(UnderslideDims)
    over = float(d.stated.filing_allowance)
    start = float(d.heel.top_radius)
    half = float(d.flat_width) / 2 + over
    return rectangle(start - over, -half, start + float(d.length) + over, half)


def shank_hole(p: Pattern) -> Path:
    """The hole for the eyelet's shank."""
    d = p.derive(UnderslideDims)
    return circle((float(d.eyelet.from_heel), 0.0), float(d.shank_hole) / 2)


def section(p: Pattern) -> Path:
    """The pressed lining across, its land's upper face at y = 0."""
    d = p.derive(UnderslideDims)
    return seat.lining(float(d.land), float(d.stated.thickness), float(d.stop))
