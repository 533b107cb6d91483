"""Where a template's edge must stand, so that a guided cutter leaves the edge that is wanted."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry import Path, Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import VISIBLE_DEPTH, cutter_reach
from templates_gen.tolerances import FIT_KINK_DEG


@dataclass(frozen=True)
class Corner:
    """A corner that does not come out as drawn.

    Args:
        place: where it is (mm).
        depth: how far (mm) the cut stands off it there.
        left: whether wood is left standing, for the chisel; else the corner comes out round.
    """

    place: Point
    depth: float
    left: bool


@dataclass(frozen=True)
class Guided:
    """A finished edge and the template it is routed by.

    Args:
        finished: the edge that is wanted, counter-clockwise.
        inside: whether the cutter works within it (a pocket) or round it (a part).
        outside_diameter: of the collar or bearing (mm).
        cutter: the cutter's diameter (mm).
    """

    finished: Path
    inside: bool
    outside_diameter: float
    cutter: float

    @property
    def aside(self) -> float:
        """How far the template's edge stands from the finished one (mm)."""
        return (self.outside_diameter - self.cutter) / 2

    @property
    def template(self) -> Path:
        """The template's edge: an opening larger than its pocket, an outside smaller than its part.

        Raises:
            GeometryError: the template is consumed by the offset; the message names the place.
        """
        return offset(self.finished, self.aside if self.inside else -self.aside)

    @property
    def corners(self) -> list[Corner]:
        """The corners that do not come out as drawn, the worst first.

        Raises:
            GeometryError: the cutter finds no room.
        """
        found = [*self._left(), *self._rounded()]
        return sorted(found, key=lambda c: -c.depth)

    def _left(self) -> list[Corner]:
        radius = self.cutter / 2 * (-1.0 if self.inside else 1.0)
        return [
            Corner(m.place, m.depth, True) for m in cutter_reach(self.finished, radius).unreached
        ]

    def _rounded(self) -> list[Corner]:
        """Corners the collar swings round: the cut comes nearer than the finished corner."""
        way = -1.0 if self.inside else 1.0
        turns = [(place, way * turn) for place, turn in self.finished.kinks()]
        over = [
            (place, self.aside / math.cos(math.radians(turn) / 2) - self.aside)
            for place, turn in turns
            if turn > FIT_KINK_DEG
        ]
        return [Corner(place, depth, False) for place, depth in over if depth >= VISIBLE_DEPTH]


def top_of_dovetail(bottom: float, depth: float, flank_deg: float) -> float:
    """Diameter (mm) of a dovetail cutter at the face of the work.

    Args:
        bottom: its largest diameter, at its end (mm).
        depth: how deep it cuts (mm).
        flank_deg: its flank from its axis (degrees).
    """
    return bottom - 2 * depth * math.tan(math.radians(flank_deg))


def stands_off(thickness: float, point_deg: float = 30.0) -> float:
    """How far (mm) a scribed line stands off a template's edge.

    Args:
        thickness: of the template (mm).
        point_deg: the whole angle of the scriber's point (degrees).
    """
    return thickness * math.tan(math.radians(point_deg) / 2)
