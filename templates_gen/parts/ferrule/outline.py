"""The ferrule's outlines, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path, Pen, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.shapes import arch


def neutral(p: Pattern) -> Path:
    """Draw the arch's neutral line, open."""
    s, d = p.scalars(FerruleDims).params, p.scalars(FerruleDims)
    return arch.neutral(
        s.arch_kind,
        s.outer_width,
        d.arch_height,
        s.arch_thickness,
        s.arch_corner_radius,
    )


def outside(p: Pattern) -> Path:
    """Draw the D of the ferrule's outside, plate included; the frog's shoulder follows it."""
    s = p.scalars(FerruleDims).params
    outer = arch.parallel(neutral(p), s.arch_thickness / 2)
    return arch.d_outline(outer, s.outer_width, s.plate_thickness)


def opening(p: Pattern) -> Path:
    """Draw the clear opening, which the mandrel fills."""
    s = p.scalars(FerruleDims).params
    return arch.inside(arch.parallel(neutral(p), -s.arch_thickness / 2))


def arch_strip(p: Pattern) -> Path:
    """Draw the arch's sheet laid flat, with filing allowance; x = 0 at the middle of the crown."""
    d = p.scalars(FerruleDims)
    half = d.arch_length / 2 + d.params.filing_allowance
    over = d.params.filing_allowance
    return rectangle(-half, -over, half, d.params.length + over)


def plate(p: Pattern) -> Path:
    """Draw the sheet of the flat plate, with filing allowance."""
    s = p.scalars(FerruleDims).params
    over = s.filing_allowance
    half = s.outer_width / 2 + over
    return rectangle(-half, -over, half, s.length + over)


def wedge(p: Pattern) -> Path:
    """Draw the spread wedge from above, x from its thin rear end."""
    d = p.scalars(FerruleDims)
    half = d.wedge_width / 2
    return rectangle(0.0, -half, d.wedge_length, half)


def wedge_side(p: Pattern) -> Path:
    """Draw the spread wedge from the side, hair side down, with the edge the hair leaves over."""
    d = p.scalars(FerruleDims)
    long, thick = d.wedge_length, d.params.wedge_thickness
    pen = Pen((0.0, 0.0)).line_to(long, 0.0).fillet(wedge_edge(d)).line_to(long, thick)
    return pen.line_to(0.0, d.wedge_thin).close()


def wedge_edge(d: FerruleDims) -> float:
    """Return the radius (mm) of the wedge's front edge on the hair's side: half its thickness.

    Common practice, no source.
    """
    return d.params.wedge_thickness / 2


def counter_form(p: Pattern, margin: float = 8.0) -> Path:
    """Draw a block with the arch's outside cut into it, to press the strip over the mandrel."""
    d = p.scalars(FerruleDims)
    outer = arch.parallel(neutral(p), d.params.arch_thickness / 2)
    (right, _), (left, _) = outer.start, outer.end
    top = d.arch_height + margin
    block = (
        (left - margin, 0.0, 0.0),
        (left - margin, top, 0.0),
        (right + margin, top, 0.0),
        (right + margin, 0.0, 0.0),
    )
    return Path((*outer.vertices, *block)).oriented()
