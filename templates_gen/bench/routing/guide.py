"""Offset a template's edge so that a guided cutter leaves the finished edge."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry import Path, Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import VISIBLE_DEPTH, cutter_reach
from templates_gen.tolerances import FIT_KINK_DEG


@dataclass(frozen=True)
class Corner:
    """A corner that the cutter does not leave as drawn.

    Args:
        place: the corner (mm).
        depth: distance between the corner and the cut (mm).
        left: whether wood remains, for the chisel; else the corner comes out round.
    """

    place: Point
    depth: float
    left: bool


@dataclass(frozen=True)
class Guided:
    """A finished edge and the template that guides its cutter.

    Args:
        finished: the finished edge, counter-clockwise.
        inside: whether the cutter works within it (a pocket) or round it (a part).
        outside_diameter: diameter of the collar or bearing (mm).
        cutter: the cutter's diameter (mm).
    """

    finished: Path
    inside: bool
    outside_diameter: float
    cutter: float

    @property
    def aside(self) -> float:
        """Return the offset of the template's edge from the finished one (mm)."""
        return (self.outside_diameter - self.cutter) / 2

    @property
    def template(self) -> Path:
        """Return the template's edge: larger than a pocket, smaller than a part.

        Raises:
            GeometryError: the offset leaves no template; the message names the place.
        """
        return offset(self.finished, self.aside if self.inside else -self.aside)

    @property
    def corners(self) -> list[Corner]:
        """Return the corners that the cutter does not leave as drawn, the worst first.

        Raises:
            GeometryError: the cutter does not fit.
        """
        found = [*self._left(), *self._rounded()]
        return sorted(found, key=lambda c: -c.depth)

    def _left(self) -> list[Corner]:
        radius = self.cutter / 2 * (-1.0 if self.inside else 1.0)
        return [
            Corner(m.place, m.depth, True) for m in cutter_reach(self.finished, radius).unreached
        ]

    def _rounded(self) -> list[Corner]:
        """Return the corners that the collar turns round: the cut rounds them off."""
        way = -1.0 if self.inside else 1.0
        turns = [(place, way * turn) for place, turn in self.finished.kinks()]
        over = [
            (place, self.aside / math.cos(math.radians(turn) / 2) - self.aside)
            for place, turn in turns
            if turn > FIT_KINK_DEG
        ]
        return [Corner(place, depth, False) for place, depth in over if depth >= VISIBLE_DEPTH]


def top_of_dovetail(bottom: float, depth: float, flank_deg: float) -> float:
    """Return the diameter of a dovetail cutter at the face of the work (mm).

    Args:
        bottom: its largest diameter, at its end (mm).
        depth: depth of the cut (mm).
        flank_deg: angle of its flank to its axis (degrees).
    """
    return bottom - 2 * depth * math.tan(math.radians(flank_deg))


def scribing_offset(thickness: float, point_deg: float = 30.0) -> float:
    """Return the distance of a scribed line from a template's edge (mm).

    Args:
        thickness: thickness of the template (mm).
        point_deg: the included angle of the scriber's point (degrees).
    """
    return thickness * math.tan(math.radians(point_deg) / 2)
