"""The head's outlines, in the frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, Point, Segment
from templates_gen.geometry.fit import fit
from templates_gen.parameters import Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import Neck, neck
from templates_gen.shapes.bent_sheet import BentSheet
from templates_gen.shapes.stick_section import across
from templates_gen.shapes.trapezoid import trapezoid

#: The bent stick at the head is lofted in this many pieces, which makes its curve far more exact
#: than its sections need.
SECTIONS = 8


def side(p: Pattern) -> Path:
    """Draw the head from the side with a length of stick, as thick as the graduation requires."""
    n, d = neck(p), p.scalars(HeadDims)
    pen = _front(p)
    top = _stick_top(p)
    pen.bulge_to(top.end, top.bulge).line_to(
        n.centre[0] - n.under * math.sin(n.end - d.rise),
        n.centre[1] - n.under * math.cos(n.end - d.rise),
    )
    return _back(n, pen.arc_to(n.on_stick, n.centre, left=True))


def _stick_top(p: Pattern) -> Segment:
    """Draw the stick's top line back from the face's rear edge: exact at both ends and midway."""
    end = neck(p).end
    start = (0.0, p.scalars(HeadDims).params.height)
    return Pen(start).arc_through(_top(p, end / 2), _top(p, end)).open().segments[0]


def _top(p: Pattern, turn: float) -> Point:
    """Return the point on the stick's top at an angle back along the arc of its underside."""
    n, d = neck(p), p.scalars(HeadDims)
    along = turn - d.rise
    reach = n.under - d.bow.diameter(d.bow.face_rear - n.under * turn)
    return n.centre[0] - reach * math.sin(along), n.centre[1] - reach * math.cos(along)


def bevel(p: Pattern, long: float) -> Path:
    """Draw a card with its foot on the flat of the face and its top along the stick."""
    n, d = neck(p), p.scalars(HeadDims)
    front, high = min(d.flat, d.crown[0]), d.params.height
    turn = long / n.under
    pen = Pen((front, 0.0)).line_to(front, high + front * math.tan(d.rise))
    pen.line_to(0.0, high).arc_through(_top(p, turn / 2), _top(p, turn))
    return pen.line_to(pen.at[0], 0.0).close()


def stick(p: Pattern) -> tuple[tuple[float, Path], ...]:
    """Draw sections of the bent stick from the head back.

    Each has the angle (radians) of its plane from square to the face; it is square to the curve of
    the underside, and as thick as the side outline there.
    """
    n, d = neck(p), p.scalars(HeadDims)
    top, kind = _stick_top(p), d.stick.section
    found = []
    for i in range(SECTIONS + 1):
        turn = n.end * i / SECTIONS - d.rise
        # Along the ray from the centre of the underside's curve to the top's.
        ux, uz = -math.sin(turn), -math.cos(turn)
        dx, dz = n.centre[0] - top.centre[0], n.centre[1] - top.centre[1]
        along, across_ = dx * ux + dz * uz, dx * uz - dz * ux
        reach = math.sqrt(top.radius**2 - across_**2) - along
        found.append((turn, across(kind, n.under - reach)))
    return tuple(found)


def block(p: Pattern) -> Path:
    """Draw the head from the side; behind its rear edge only what lies below the stick's axis.

    The stick is joined to it there, so that no two faces graze one another.
    """
    n = neck(p)
    middle = (n.top + n.under) / 2

    def on_axis(q: Point, radius: float) -> Point:
        """Return the point on the stick's axis at the same angle as a point on its surface."""
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
    """Draw from the face's rear edge round nose and ridge to the stick's top over that edge."""
    d = p.scalars(HeadDims)
    s = d.params
    pen = Pen((0.0, 0.0)).line_to(d.flat, 0.0)
    pen.tangent_arc_to((s.face_length, s.nose_rise))
    pen.line_by(0.0, s.nose_thickness)
    for piece in ridge(p).reversed().segments:
        pen.bulge_to(piece.end, piece.bulge)
    return pen.line_to(0.0, s.height)


def _back(n: Neck, pen: Pen) -> Path:
    return pen.arc_to(n.on_back, n.fillet, left=False).line_to(0.0, 0.0).close()


def ridge(p: Pattern) -> Path:
    """Draw the ridge from the crown to the nose, open. The rules measure the same arcs.

    Raises:
        GeometryError: no arcs fit between the stick's line and the nose.
    """
    return p.scalars(HeadDims).ridge.path()


def plan(p: Pattern) -> Path:
    """Draw the face from below."""
    d = p.scalars(HeadDims)
    s = d.params
    rear, front, nose = (w / 2 for w in (s.width, s.face_width_front, s.nose_width))
    at, end = s.face_width_front_at, s.face_length
    cx, cy, radius = d.nose_curve
    bulging = radius > 0  # hollow where the nose is hardly narrower
    pen = Pen((0.0, -rear)).line_to(at, -front)
    pen.arc_to((end, -nose), (cx, -cy), left=bulging).line_to(end, nose)
    return pen.arc_to((at, front), (cx, cy), left=bulging).line_to(0.0, rear).close()


def mortise(p: Pattern) -> Path:
    """Draw the mouth of the mortise in the face."""
    d = p.scalars(HeadDims)
    s = d.params
    ends = (s.mortise_from_rear, d.mortise_front)
    return trapezoid(*ends, s.mortise_width, s.mortise_width_front)


def mortise_side(p: Pattern) -> Path:
    """Draw the mortise from the side: upright rear wall, undercut front wall, open at the face."""
    d = p.scalars(HeadDims)
    s = d.params
    rear, front, foot = s.mortise_from_rear, d.mortise_front, d.mortise_foot
    deep = s.mortise_depth
    # Extended below the face, so that the cut leaves no thin skin on its curve.
    tilt = (foot - front) / deep
    pen = Pen((rear, -2.0)).line_to(front - 2.0 * tilt, -2.0).line_to(foot, deep)
    return pen.line_to(rear, deep).close()


def plate_flat(p: Pattern) -> Path:
    """Draw the tip plate laid flat, with filing allowance."""
    return _flat(p, p.scalars(HeadDims).plate)


def liner_flat(p: Pattern) -> Path:
    """Draw the liner laid flat, with filing allowance."""
    return _flat(p, p.scalars(HeadDims).liner)


def _flat(p: Pattern, sheet: BentSheet) -> Path:
    """Draw the face's plan laid flat on a sheet, with the filing allowance on every edge."""
    d = p.scalars(HeadDims)
    s = d.params
    over = s.filing_allowance
    at, end = s.face_width_front_at, s.face_length
    rear, front = s.width / 2, s.face_width_front / 2
    cx, cy, r = d.nose_curve

    def curve(t: float) -> tuple[Point, Point]:
        x = at + (end - at) * t
        y = cy + math.sqrt(r * r - (x - cx) ** 2)
        slope = -(x - cx) / (y - cy)
        return (sheet.flat_at(x), y), (sheet.stretch_at(x), slope)

    pieces = fit(curve).path
    upper = [(-over, rear + over), (sheet.flat_at(at), front + over)]
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
