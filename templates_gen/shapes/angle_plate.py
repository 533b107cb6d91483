"""Sheet bent once into an L, as it lies round the frog's heel."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen


def angle_plate(leg: float, up: float, sheet: float, radius: float, lean_deg: float) -> Path:
    """The bent sheet from the side, its outside on y = 0 and up the heel from x = 0.

    Args:
        leg: outside length of the bottom leg (mm), from the sharp corner at the origin.
        up: outside length of the rear leg (mm), from the same corner.
        sheet: thickness (mm).
        radius: outside radius of the bend (mm).
        lean_deg: how far the rear leg leans toward the bottom leg (degrees).
    """
    lean = math.radians(lean_deg)
    along, inward = (math.sin(lean), math.cos(lean)), (math.cos(lean), -math.sin(lean))
    back = radius * math.tan((math.pi / 2 + lean) / 2)
    inside, foot = (back, radius), (back * along[0], back * along[1])
    pen = Pen((leg, sheet)).line_to(leg, 0.0)
    pen.line_to(back, 0.0).arc_to(foot, inside, left=False)
    pen.line_to(up * along[0], up * along[1]).line_by(sheet * inward[0], sheet * inward[1])
    pen.line_to(foot[0] + sheet * inward[0], foot[1] + sheet * inward[1])
    if radius - sheet > 1e-6:
        pen.arc_to((back, sheet), inside, left=True)
    return pen.close()
