"""The slack hair under the bent stick, as a cotton line from the dummy frog to the head shows it.

Frame: x = 0 where the hair line leaves the frog, along it to the rear edge of the head's face;
z away from the hair. The stick's own frame for the camber is turned into it exactly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.bow.dims.travel import Travel
from templates_gen.geometry import Path, Point
from templates_gen.parameters import Dims, Pattern
from templates_gen.parts.form.dims_curves import Curve, top, underside
from templates_gen.parts.head.dims import HeadDims


@dataclass(frozen=True)
class HairLine(Dims):
    """The slack hair line and the stick above it.

    Args:
        under, above: the stick's underside and top in the frame of the camber (mm).
        frog: height of the handle's underside over the hair line, square to the handle (mm).
        head: height of the stick's underside over the face, square to the face (mm).
        lean: how far (radians) the handle points down toward the hair line, forward.
        droop: how far (radians) the head's face points down from the camber's straight edge.
    """

    under: Curve
    above: Curve
    frog: float
    head: float
    lean: float
    droop: float

    @classmethod
    def of(cls, p: Pattern) -> HairLine:
        t, head = p.derive(Travel), p.derive(HeadDims)
        camber, frog = t.stick.camber, t.frog
        rise = math.atan(float(camber.slope_at_head))
        return cls(
            underside(p),
            top(p),
            float(frog.params.clear_height - frog.ferrule.params.plate_thickness),
            float(head.neck_height),
            math.atan(camber.at(0.0)[1]),
            float(head.rise) - rise,
        )

    @cached_property
    def _ends(self) -> tuple[Point, Point]:
        """Where the hair line begins and ends, in the frame of the camber."""
        chord = float(self.under.x[-1])
        return (
            (-self.frog * math.sin(self.lean), -self.frog * math.cos(self.lean)),
            (chord - self.head * math.sin(self.droop), -self.head * math.cos(self.droop)),
        )

    @property
    def length(self) -> float:
        """Length of the hair line, from frog to head (mm)."""
        return math.dist(*self._ends)

    @cached_property
    def _turn(self) -> float:
        """By how much the camber's frame is turned (radians) so that the hair line is level."""
        (x0, z0), (x1, z1) = self._ends
        return -math.atan2(z1 - z0, x1 - x0)

    def _carried(self, curve: Curve) -> Curve:
        x0, z0 = self._ends[0]
        c, s = math.cos(self._turn), math.sin(self._turn)
        x, z = curve.x - x0, curve.z - z0
        return Curve(x * c - z * s, x * s + z * c)

    @cached_property
    def low(self) -> Curve:
        """The stick's underside over the hair line."""
        return self._carried(self.under)

    @cached_property
    def high(self) -> Curve:
        """The stick's top over the hair line."""
        return self._carried(self.above)

    def handle(self, path: Path, at: Point) -> Path:
        """Move a path drawn along the handle so that ``at`` is where the hair line begins."""
        return path.moved(-at[0], -at[1]).rotated(self._turn - self.lean)

    @property
    def face(self) -> float:
        """How far (radians) the head's face points down from the hair line, forward."""
        return self.droop - self._turn
