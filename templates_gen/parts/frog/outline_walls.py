"""Open outlines of the frog's outside, which identify its finished faces. Frame of ``dims``."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path, Pen
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims


@dataclass(frozen=True)
class Outside:
    """Pieces of the side outline (mm).

    Args:
        throat: its arcs and the straight between them.
        thumb: the straight line under the thumb projection.
        top: along the edges.
        heel_rounding: at the heel's top.
        rear: the heel's rear face.
        foot: the rounding at the heel's foot.
        shoulder: x of the shoulder's plane.
    """

    throat: Path
    thumb: Path
    top: Path
    heel_rounding: Path
    rear: Path
    foot: Path
    shoulder: float


def outside(p: Pattern) -> Outside:
    """Collect the outlines of the faces that belong to the block, not to a pocket."""
    d = p.scalars(FrogDims)
    start, high = d.heel.params.bottom_radius, d.params.overall_height
    throat = outline.throat(d, Pen((d.shoulder, d.ferrule.params.height))).open()
    tip = (d.params.length_top, d.throat.tip_height)
    pen = Pen((d.params.length_top, high)).line_to(d.heel_lean, high)
    pen.fillet(d.heel.params.top_radius)
    pen.line_to(*outline.on_heel(d, d.heel.setback, 0.0))
    behind = pen.arc_to((start, 0.0), (start, start), left=True).open().segments
    top, *rounding, rear, foot = (Path.from_segments([piece], closed=False) for piece in behind)
    return Outside(
        throat,
        Pen(throat.end).line_to(*tip).open(),
        top,
        rounding[0],
        rear,
        foot,
        d.shoulder,
    )
