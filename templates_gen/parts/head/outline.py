"""The head's outlines, in the frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, Point, Segment
from templates_gen.geometry.fit import fit
from templates_gen.parameters import Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import Neck, neck
from templates_gen.shapes.bent_sheet import BentSheet
from templates_gen.shapes.stick_section import stick_outline
from templates_gen.shapes.trapezoid import trapezoid

#: The bent stick at the head is laid through this many pieces' ends: its curve is then right to
#: far below what a section is held to.
SECTIONS = 8


def side(p: Pattern) -> Path:
    """The head from the side with a length of stick, as thick as the graduation has it."""
    n, d = neck(p), p.derive(HeadDims)
    pen = _front(p)
    top = _stick_top(p)
    pen.bulge_to(top.end, top.bulge).line_to(
        n.centre[0] - n.under * math.sin(n.end - float(d.rise)),
        n.centre[1] - n.under * math.cos(n.end - float(d.rise)),
    )
    return _back(n, pen.arc_to(n.on_stick, n.centre, left=True))


def _stick_top(p: Pattern) -> Segment:
    """The stick's top line from over the face's rear edge back: right at both ends and midway."""
    end = neck(p).end
    start = (0.0, float(p.derive(HeadDims).params.height))
    return Pen(start).arc_through(_top(p, end / 2), _top(p, end)).open().segments[0]


def _top(p: Pattern, turn: float) -> Point:
    """On the stick's top behind the head: its thickness square to an underside an arc long."""
    n, d = neck(p), p.derive(HeadDims)
    along = turn - float(d.rise)
    reach = n.under - float(d.bow.diameter(d.bow.face_rear - n.under * turn))
    return n.centre[0] - reach * math.sin(along), n.centre[1] - reach * math.cos(along)


def bevel(p: Pattern, long: float) -> Path:
    """A card whose foot lies along the face's flat and whose top along the stick's, so far back."""
    n, d = neck(p), p.derive(HeadDims)
    front, high = min(float(d.flat), float(d.crown[0])), float(d.params.height)
    turn = long / n.under
    pen = Pen((front, 0.0)).line_to(front, high + front * math.tan(float(d.rise)))
    pen.line_to(0.0, high).arc_through(_top(p, turn / 2), _top(p, turn))
    return pen.line_to(pen.at[0], 0.0).close()


def stick(p: Pattern) -> tuple[tuple[float, Path], ...]:
    """The bent stick across, its underside where the path's lowest is, from head to its end.

    Each with the angle (radians) by which its own upright has turned from the face's, square to
    the underside's curve; as thick there as between the two curves of the side.
    """
    n, d = neck(p), p.derive(HeadDims)
    top, kind = _stick_top(p), d.stick.section
    found = []
    for i in range(SECTIONS + 1):
        turn = n.end * i / SECTIONS - float(d.rise)
        # Along the ray from the centre of the underside's curve to the top's.
        ux, uz = -math.sin(turn), -math.cos(turn)
        dx, dz = n.centre[0] - top.centre[0], n.centre[1] - top.centre[1]
        along, across_ = dx * ux + dz * uz, dx * uz - dz * ux
        reach = math.sqrt(top.radius**2 - across_**2) - along
        found.append((turn, stick_outline(kind, n.under - reach)))
    return tuple(found)


def block(p: Pattern) -> Path:
    """The head from the side; behind its rear edge only what lies below the stick's axis.

    The stick is joined to it; so no face of the one grazes a face of the other.
    """
    n = neck(p)
    middle = (n.top + n.under) / 2

    def on_axis(q: Point, radius: float) -> Point:
        """The place on the stick's axis straight over or under a place on its face."""
        scale = middle / radius
        return (
            n.centre[0] + (q[0] - n.centre[0]) * scale,
            n.centre[1] + (q[1] - n.centre[1]) * scale,
        )

    pen = _front(p)
    pen.line_to(*on_axis(pen.at, n.top))
    pen.arc_to(on_axis(n.on_stick, n.under), n.centre, left=False)
    return _back(n, pen.line_to(*n.on_stick))


def _front(p: Pattern) -> Pen:
    """From the face's rear edge round nose and ridge to the stick's top over that edge."""
    d = p.derive(HeadDims)
    s = d.params
    pen = Pen((0.0, 0.0)).line_to(float(d.flat), 0.0)
    pen.tangent_arc_to((float(s.face_length), float(s.nose_rise)))
    pen.line_by(0.0, float(s.nose_thickness))
    for piece in ridge(p).reversed().segments:
        pen.bulge_to(piece.end, piece.bulge)
    return pen.line_to(0.0, float(s.height))


def _back(n: Neck, pen: Pen) -> Path:
    return pen.arc_to(n.on_back, n.fillet, left=False).line_to(0.0, 0.0).close()


def ridge(p: Pattern) -> Path:
    """The ridge from the crown to the nose, open: the arcs the checks measure.

    Raises:
        GeometryError: no arcs lead from the stick's line to the nose.
    """
    return p.derive(HeadDims).ridge.path()


def plan(p: Pattern) -> Path:
    """The face from below."""
    d = p.derive(HeadDims)
    s = d.params
    rear, front, nose = (float(w) / 2 for w in (s.width, s.face_width_front, s.nose_width))
    at, end = float(s.face_width_front_at), float(s.face_length)
    cx, cy, _ = (float(v) for v in d.nose_curve)
    pen = Pen((0.0, -rear)).line_to(at, -front)
    pen.arc_to((end, -nose), (cx, -cy), left=True).line_to(end, nose)
    return pen.arc_to((at, front), (cx, cy), left=True).line_to(0.0, rear).close()


def mortise(p: Pattern) -> Path:
    """The mortise's mouth in the face."""
    d = p.derive(HeadDims)
    s = d.params
    ends = (float(s.mortise_from_rear), float(d.mortise_front))
    return trapezoid(*ends, float(s.mortise_width), float(s.mortise_width_front))


def mortise_side(p: Pattern) -> Path:
    """The mortise from the side: upright at its rear, undercut at its front; down to the face."""
    d = p.derive(HeadDims)
    s = d.params
    rear, front, foot = float(s.mortise_from_rear), float(d.mortise_front), float(d.mortise_foot)
    deep = float(s.mortise_depth)
    # Carried below the face so that a cut leaves no skin on its curve.
    tilt = (foot - front) / deep
    pen = Pen((rear, -2.0)).line_to(front - 2.0 * tilt, -2.0).line_to(foot, deep)
    return pen.line_to(rear, deep).close()


def plate_flat(p: Pattern) -> Path:
    """The tip plate laid flat, cut size with its filing allowance."""
    return _flat(p, p.derive(HeadDims).plate)


def liner_flat(p: Pattern) -> Path:
    """The liner laid flat, cut size with its filing allowance."""
    return _flat(p, p.derive(HeadDims).liner)


def _flat(p: Pattern, sheet: BentSheet) -> Path:
    """The face's plan laid flat on a sheet, with the filing allowance on every edge."""
    d = p.derive(HeadDims)
    s = d.params
    over = float(s.filing_allowance)
    at, end = float(s.face_width_front_at), float(s.face_length)
    rear, front = float(s.width) / 2, float(s.face_width_front) / 2
    cx, cy, r = (float(v) for v in d.nose_curve)

    def curve(t: float) -> tuple[Point, Point]:
        x = at + (end - at) * t
        y = cy + math.sqrt(r * r - (x - cx) ** 2)
        slope = -(x - cx) / (y - cy)
        return (float(sheet.flat_at(x)), y), (float(sheet.stretch_at(x)), slope)

    pieces = fit(curve).path
    upper = [(-over, rear + over), (float(sheet.flat_at(at)), front + over)]
    upper += [(x, y + over) for x, y, _ in pieces.vertices[1:]]
    bulges = [b for _, _, b in pieces.vertices]
    pen = Pen((-over, -upper[0][1])).line_to(upper[1][0], -upper[1][1])
    for (x, y), bulge in zip(upper[2:], bulges, strict=False):
        pen.bulge_to((x, -y), -bulge)
    tip = upper[-1]
    pen.line_to(tip[0] + over, -tip[1]).line_to(tip[0] + over, tip[1]).line_to(*tip)
    for (x, y), bulge in zip(upper[-2:0:-1], bulges[-2::-1], strict=False):
        pen.bulge_to((x, y), -bulge)
    return pen.line_to(*upper[0]).close()
