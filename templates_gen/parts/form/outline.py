"""The bending form and the camber card, in the frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, Point, Segment
from templates_gen.parameters import Pattern
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.form.dims import FormDims
from templates_gen.parts.head.dims import HeadDims

#: The head piece extends at least this far (mm) ahead of the face's rear edge.
PAST_FACE = 4.0


def form(p: Pattern) -> Path:
    """Draw the board: the bending edge, extended straight at both ends, and a clamping edge."""
    d = p.scalars(FormDims)
    curve = curves.edge(p).path
    beyond, deep = d.params.beyond, d.params.depth
    (x0, z0), (x1, z1) = curve.start, curve.end
    (u0, v0), (u1, v1) = curve.segments[0].tangent(0.0), curve.segments[-1].tangent(1.0)
    level = curve.box[1] + deep
    pen = Pen((x0 - beyond * u0, z0 - beyond * v0)).line_to(x0, z0)
    for piece in curve.segments:
        pen.bulge_to(piece.end, piece.bulge)
    pen.line_to(x1 + beyond * u1, z1 + beyond * v1)
    pen.line_to(x1 + beyond * u1, level).line_to(x0 - beyond * u0, level)
    return pen.close()


def head_piece(p: Pattern) -> Path:
    """Draw the form's end at the head, its clamping edge along the head's face.

    Over the face it extends straight to the crown, where the ridge leaves the stick's line, or a
    little farther, so that the mark at the face's rear edge is not the board's end.
    """
    tail, head = curves.head_edge(p), p.scalars(HeadDims)
    on = max(head.crown[0], PAST_FACE)
    tip = (on, on * math.tan(head.rise))
    level = max(tail.start[1], tip[1]) + p.scalars(FormDims).params.depth / 2
    pen = Pen(tail.start)
    for piece in tail.segments:
        pen.bulge_to(piece.end, piece.bulge)
    return pen.line_to(*tip).line_to(on, level).line_to(tail.start[0], level).close()


def camber_card(p: Pattern) -> Path:
    """Draw the finished stick from ferrule to head: underside and top, square ends."""
    low, high = curves.underside(p).path, curves.top(p).path
    back = [Segment(s.end, s.start, -s.bulge) for s in high.segments[::-1]]
    pen = Pen(low.start)
    for piece in (*low.segments, *back):
        if math.dist(pen.at, piece.start) > 1e-9:
            pen.line_to(*piece.start)
        pen.bulge_to(piece.end, piece.bulge)
    return pen.close()


#: A mark across an edge: how far along it, and the mark's two ends.
Mark = tuple[float, Point, Point]


def mark(curve: Path, along: float) -> Mark:
    """Place a mark across an edge at an arc length along it."""
    (x, z), (u, v) = curve.point_at(along), curve.tangent_at(along)
    return (along, (x, z), (x - 6.0 * v, z + 6.0 * u))


def marks(curve: Path, spacing: float = 50.0) -> list[Mark]:
    """Place marks across an edge at regular arc lengths."""
    return [mark(curve, i * spacing) for i in range(int(curve.length / spacing) + 1)]
