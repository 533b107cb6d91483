"""The heel plate's outlines, in the frames named at each."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind


def flat(p: Pattern) -> list[Path]:
    """The sheet to cut, laid flat with its filing allowance; two pieces where the heel is so."""
    d = p.derive(HeelDims)
    over = float(d.stated.filing_allowance)
    front, heel = float(d.width_front) / 2 + over, float(d.frog.width_heel) / 2 + over
    if d.stated.kind is HeelKind.TWO_PIECE:
        leg, rear = float(d.stated.leg_length), float(d.stated.rear_leg)
        bottom = polygon([(-over, -front), (leg + over, -heel), (leg + over, heel), (-over, front)])
        apart = leg + 2 * over + 8.0
        return [bottom, rectangle(apart - over, -heel, apart + rear + over, heel)]
    line, end = float(d.bend_line), float(d.flat_length) + over
    corners = [(-over, -front), (line, -heel), (end, -heel)]
    return [polygon([*corners, *((x, -y) for x, y in corners[::-1])])]


def side(p: Pattern) -> Path:
    """The bent plate from the side; x = 0 at the heel plane, z = 0 at the bottom plane."""
    d = p.derive(HeelDims)
    s = d.stated
    t, r, leg, up = (
        float(v) for v in (s.plate_thickness, s.bottom_radius, s.leg_length, s.rear_leg)
    )
    lean = math.radians(float(s.lean_deg))
    along, inward = (math.sin(lean), math.cos(lean)), (math.cos(lean), -math.sin(lean))
    back = float(d.setback)
    centre = (back, r)
    pen = Pen((leg, t)).line_to(leg, 0.0)
    foot = (back * along[0], back * along[1])
    # The outside runs round the heel; from the front edge it turns right, toward the rear leg.
    pen.line_to(back, 0.0).arc_to(foot, centre, left=False)
    pen.line_to(up * along[0], up * along[1]).line_by(t * inward[0], t * inward[1])
    pen.line_to(foot[0] + t * inward[0], foot[1] + t * inward[1])
    if r - t > 1e-6:
        pen.arc_to((back, t), centre, left=True)
    return pen.close()
