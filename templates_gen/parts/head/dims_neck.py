"""The transition from the back of the head to the stick, in the frame of ``dims``."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import Point
from templates_gen.parameters import Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.stick.dims import WITH_HEAD


@dataclass(frozen=True)
class Neck:
    """The transition from the back of the head to the stick.

    Args:
        centre: of the stick's curve.
        top, under: radii of its top and underside.
        fillet: centre of the rounding.
        on_back, on_stick: tangent points of the rounding on back and underside.
        end: angle (radians) over which the stick is drawn.
    """

    centre: Point
    top: float
    under: float
    fillet: Point
    on_back: Point
    on_stick: Point
    end: float

    def underside(self, x: float) -> float:
        """Return the height (mm) of the stick's underside at x (mm), behind the head."""
        return self.centre[1] - math.sqrt(self.under**2 - (x - self.centre[0]) ** 2)


def neck(p: Pattern) -> Neck:
    """Construct the neck: a circle tangent to the line of the back and the curve of the stick.

    Raises:
        GeometryError: there is no such circle.
    """
    d = p.scalars(HeadDims)
    rise, r = d.rise, d.params.back_radius
    thick = d.stick.diameter_head * math.cos(rise)
    under = d.camber_radius
    top = under - thick
    centre = (-top * math.sin(rise), d.params.height + top * math.cos(rise))
    back = math.radians(d.params.back_deg)
    along, rear = (math.cos(back), math.sin(back)), (-math.sin(back), math.cos(back))
    with np.errstate(invalid="ignore"):
        t = d.back_straight
    if math.isnan(t):
        raise GeometryError("the back of the head does not meet the stick", (0.0, 0.0))
    on_back = (t * along[0], t * along[1])
    fillet = (on_back[0] + r * rear[0], on_back[1] + r * rear[1])
    if t <= 0:
        raise GeometryError("the rounding at the back of the head is too large", on_back)
    reach = math.hypot(centre[0] - fillet[0], centre[1] - fillet[1])
    on_stick = (
        fillet[0] + r * (centre[0] - fillet[0]) / reach,
        fillet[1] + r * (centre[1] - fillet[1]) / reach,
    )
    return Neck(centre, top, under, fillet, on_back, on_stick, WITH_HEAD / under)
