"""Open outlines of the head's outside, which identify its finished faces. Frame of ``dims``."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path, Pen
from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.tolerances import SAME_POINT


@dataclass(frozen=True)
class Outside:
    """Pieces of the side outline (mm), each open; no top if the ridge starts at the rear edge."""

    back_rounding: Path
    back: Path
    flat: Path
    face: Path
    nose: Path
    ridge: Path
    top: Path | None


def outside(p: Pattern) -> Outside:
    """Collect the outside of the head's block, piece by piece."""
    d, n = p.scalars(HeadDims), neck(p)
    s = d.params
    tip = (s.face_length, s.nose_rise)
    flat = Pen((0.0, 0.0)).line_to(d.flat, 0.0)
    face = Pen((0.0, 0.0)).line_to(d.flat, 0.0).tangent_arc_to(tip)
    ridge, rear = outline.ridge(p), (0.0, s.height)
    top = Pen(rear).line_to(*ridge.start).open() if ridge.start[0] > SAME_POINT else None
    return Outside(
        Pen(n.on_stick).arc_to(n.on_back, n.fillet, left=False).open(),
        Pen(n.on_back).line_to(0.0, 0.0).open(),
        flat.open(),
        face.open(),
        Pen(tip).line_by(0.0, s.nose_thickness).open(),
        ridge,
        top,
    )
