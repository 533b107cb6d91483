"""The transition from the back of the head to the stick, in the frame of ``dims``."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

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


def construct(d: HeadDims) -> Neck:
    """Construct the neck: a circle that touches the back's line and the stick's curve.

    Lengths may be arrays; NaN where there is no such circle.
    """
    rise, r, under = d.rise, d.params.back_radius, d.camber_radius
    top = under - d.stick.diameter_head * np.cos(rise)
    centre = (-top * np.sin(rise), d.params.height + top * np.cos(rise))
    back, t = np.radians(d.params.back_deg), d.back_straight
    on_back = (t * np.cos(back), t * np.sin(back))
    fillet = (on_back[0] - r * np.sin(back), on_back[1] + r * np.cos(back))
    share = r / np.hypot(centre[0] - fillet[0], centre[1] - fillet[1])
    on_stick = tuple(f + share * (c - f) for c, f in zip(centre, fillet, strict=True))
    numbers: list[Any] = [centre, top, under, fillet, on_back, on_stick, WITH_HEAD / under]
    return Neck(*numbers)


def neck(p: Pattern) -> Neck:
    """Construct the neck in single numbers, to draw with.

    Raises:
        GeometryError: there is no such circle.
    """
    with np.errstate(invalid="ignore"):
        d = p.scalars(HeadDims)
        if math.isnan(t := d.back_straight):
            raise GeometryError("the back of the head does not meet the stick", (0.0, 0.0))
    n = construct(d)
    if t <= 0:
        raise GeometryError("the rounding at the back of the head is too large", n.on_back)
    return Neck(*(_numbers(v) for v in vars(n).values()))


def _numbers(value: Any) -> Any:
    """Convert a length or a point to plain numbers."""
    return tuple(map(float, value)) if isinstance(value, tuple) else float(value)
