"""The heel plate's outlines, in the frames named at each."""

from __future__ import annotations

from templates_gen.geometry import Path, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind
from templates_gen.shapes.angle_plate import angle_plate


def flat(p: Pattern) -> list[Path]:
    """Draw the sheet laid flat, with filing allowance; two pieces for a two-piece plate."""
    d = p.scalars(HeelDims)
    over = d.params.filing_allowance
    front, heel = d.width_front / 2 + over, d.frog.width_heel / 2 + over
    if d.params.kind is HeelKind.TWO_PIECE:
        leg, rear = d.params.leg_length, d.params.rear_leg
        bottom = polygon([(-over, -front), (leg + over, -heel), (leg + over, heel), (-over, front)])
        apart = leg + 2 * over + 8.0
        return [bottom, rectangle(apart - over, -heel, apart + rear + over, heel)]
    line, end = d.bend_line, d.flat_length + over
    corners = [(-over, -front), (line, -heel), (end, -heel)]
    return [polygon([*corners, *((x, -y) for x, y in corners[::-1])])]


def side(p: Pattern) -> Path:
    """Draw the bent plate from the side; x = 0 at the heel plane, z = 0 at the bottom plane."""
    s = p.scalars(HeelDims).params
    return angle_plate(
        s.leg_length,
        s.rear_leg,
        s.plate_thickness,
        s.bottom_radius,
        s.lean_deg,
    )
