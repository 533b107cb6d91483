"""Angle plates: sheet bent once into an L, as it lies round the frog's heel."""

from __future__ import annotations

import math

from templates_gen.geometry import Path, Pen


def angle_plate(leg: float, up: float, sheet: float, radius: float, lean_deg: float) -> Path:
    """Draw an angle plate in side view, its bottom leg on y = 0, its rear leg up from x = 0.

    Args:
        leg: outside length of the bottom leg (mm), from the rearmost point of the bend.
        up: outside length of the rear leg (mm), from the sharp corner that the bend rounds.
        sheet: thickness (mm).
        radius: outside radius of the bend (mm).
        lean_deg: angle (degrees) by which the rear leg leans toward the bottom leg.
    """
    lean = math.radians(lean_deg)
    along, inward = (math.sin(lean), math.cos(lean)), (math.cos(lean), -math.sin(lean))
    back = radius * math.tan((math.pi / 2 + lean) / 2)
    # The bend of a leaning plate reaches farther back than its sharp corner would.
    corner = radius - back
    centre = (radius, radius)

    def outside(u: float) -> tuple[float, float]:
        return (corner + u * along[0], u * along[1])

    foot, top = outside(back), outside(up)
    pen = Pen((leg, sheet)).line_to(leg, 0.0)
    pen.line_to(radius, 0.0).arc_to(foot, centre, left=False)
    pen.line_to(*top).line_by(sheet * inward[0], sheet * inward[1])
    pen.line_to(foot[0] + sheet * inward[0], foot[1] + sheet * inward[1])
    if radius - sheet > 1e-6:
        pen.arc_to((radius, sheet), centre, left=True)
    return pen.close()
