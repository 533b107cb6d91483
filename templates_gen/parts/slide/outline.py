"""The slide's outlines, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.parts.slide.dims import SlideDims
from templates_gen.shapes import dovetail
from templates_gen.shapes.trapezoid import trapezoid


def face(p: Pattern) -> Path:
    """Draw the visible face, at the bottom plane."""
    d = p.scalars(SlideDims)
    return trapezoid(0.0, d.params.length, d.params.width_front, d.width_heel)


def back(p: Pattern) -> Path:
    """Draw the hidden face, at the floor of the channel."""
    d = p.scalars(SlideDims)
    return trapezoid(
        0.0,
        d.params.length,
        d.floor(d.params.width_front),
        d.floor(d.width_heel),
    )


def section_front(p: Pattern) -> Path:
    """Draw the section at the ferrule end, face down."""
    return _section(p, p.scalars(SlideDims).params.width_front)


def section_heel(p: Pattern) -> Path:
    """Draw the section at the heel end, face down."""
    return _section(p, p.scalars(SlideDims).width_heel)


def section_middle(p: Pattern) -> Path:
    """Draw the section halfway along, face down."""
    d = p.scalars(SlideDims)
    return _section(p, (d.params.width_front + d.width_heel) / 2)


def half_up(p: Pattern) -> Path:
    """Draw the plan halfway between the face and the channel's floor."""
    d = p.scalars(SlideDims)
    s = d.params
    front, heel = ((w + d.floor(w)) / 2 for w in (s.width_front, d.width_heel))
    return trapezoid(0.0, s.length, front, heel)


def _section(p: Pattern, width: float) -> Path:
    s = p.scalars(SlideDims).params
    return dovetail.section(width, s.thickness, s.dovetail_deg)
