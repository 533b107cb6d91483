"""The ferrule's outlines, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path, Pen, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.shapes import arch


def neutral(p: Pattern) -> Path:
    """The arch's neutral line, open."""
    s, d = p.derive(FerruleDims).params, p.derive(FerruleDims)
    return arch.neutral_line(
        s.arch_kind,
        float(s.outer_width),
        float(d.arch_height),
        float(s.arch_thickness),
        float(s.arch_corner_radius),
    )


def outside(p: Pattern) -> Path:
    """The D of the ferrule's outside, plate and all; the frog's ebony follows it."""
    s = p.derive(FerruleDims).params
    outer = arch.offset_face(neutral(p), float(s.arch_thickness) / 2)
    return arch.ferrule_outline(outer, float(s.outer_width), float(s.plate_thickness))


def opening(p: Pattern) -> Path:
    """The clear opening within: what the mandrel fills."""
    s = p.derive(FerruleDims).params
    return arch.opening(arch.offset_face(neutral(p), -float(s.arch_thickness) / 2))


def arch_strip(p: Pattern) -> Path:
    """The arch's sheet laid flat, cut size with its filing allowance; x from the crown's middle."""
    d = p.derive(FerruleDims)
    half = float(d.arch_length) / 2 + float(d.params.filing_allowance)
    over = float(d.params.filing_allowance)
    return rectangle(-half, -over, half, float(d.params.length) + over)


def plate(p: Pattern) -> Path:
    """The flat plate's sheet, cut size with its filing allowance."""
    s = p.derive(FerruleDims).params
    over = float(s.filing_allowance)
    half = float(s.outer_width) / 2 + over
    return rectangle(-half, -over, half, float(s.length) + over)


def wedge(p: Pattern) -> Path:
    """The spread wedge from above, x from its thin rear end."""
    d = p.derive(FerruleDims)
    half = float(d.wedge_width) / 2
    return rectangle(0.0, -half, float(d.wedge_length), half)


def wedge_side(p: Pattern) -> Path:
    """The spread wedge from the side, hair side down; the hair leaves over its rounded edge."""
    d = p.derive(FerruleDims)
    long, thick = float(d.wedge_length), float(d.params.wedge_thickness)
    pen = Pen((0.0, 0.0)).line_to(long, 0.0).fillet(wedge_edge(d)).line_to(long, thick)
    return pen.line_to(0.0, float(d.wedge_thin)).close()


def wedge_edge(d: FerruleDims) -> float:
    """Radius (mm) of the wedge's front edge on the hair's side: half its thickness.

    Common practice, no source.
    """
    return float(d.params.wedge_thickness) / 2


def counter_form(p: Pattern, margin: float = 8.0) -> Path:
    """A block with the arch's outside cut into it, to press the strip over the mandrel."""
    d = p.derive(FerruleDims)
    outer = arch.offset_face(neutral(p), float(d.params.arch_thickness) / 2)
    (right, _), (left, _) = outer.start, outer.end
    top = float(d.arch_height) + margin
    block = (
        (left - margin, 0.0, 0.0),
        (left - margin, top, 0.0),
        (right + margin, top, 0.0),
        (right + margin, 0.0, 0.0),
    )
    return Path((*outer.vertices, *block)).oriented()
