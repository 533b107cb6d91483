"""Segments: one line or circular arc of a path.

A segment has two ends and a *bulge*, the tangent of a quarter of its angle: 0 is a line, +1 a half
circle to the left, -1 a half circle to the right. DXF polylines use the same form. Neighbours in a
path share their ends, so a path has no gaps.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float]
Box = tuple[float, float, float, float]

#: Below this angle (radians) ``turn - sin(turn)`` is computed by its series.
_SMALL_TURN = 0.02

#: A bulge no larger than this is rounding error: the segment is a line.
_STRAIGHT = 1e-15


def point_distance(a: Point, b: Point) -> float:
    """Calculate the distance between two points (mm)."""
    return math.hypot(b[0] - a[0], b[1] - a[1])


def rotate(p: Point, angle: float, about: Point = (0.0, 0.0)) -> Point:
    """Rotate a point counter-clockwise by an angle (radians) about another."""
    c, s = math.cos(angle), math.sin(angle)
    dx, dy = p[0] - about[0], p[1] - about[1]
    return (about[0] + dx * c - dy * s, about[1] + dx * s + dy * c)


def turn_minus_sine(turn: float) -> float:
    """Calculate ``turn - sin(turn)`` without cancellation, turn in radians."""
    if abs(turn) > _SMALL_TURN:
        return turn - math.sin(turn)
    square = turn * turn
    return turn * square / 6 * (1 - square / 20 * (1 - square / 42))


@dataclass(frozen=True)
class Segment:
    """A line (bulge 0) or an arc of at most 180°.

    Args:
        start: first point (mm).
        end: last point (mm).
        bulge: tangent of a quarter of the arc's angle, positive to the left, at most 1 in size.
    """

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def is_line(self) -> bool:
        return abs(self.bulge) <= _STRAIGHT

    @cached_property
    def chord(self) -> float:
        return point_distance(self.start, self.end)

    @cached_property
    def turn(self) -> float:
        """Angle of the arc (radians), positive to the left."""
        return 4.0 * math.atan(self.bulge)

    @cached_property
    def radius(self) -> float:
        """Radius (mm), infinite for a line."""
        if self.is_line:
            return math.inf
        return self.chord * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @cached_property
    def centre(self) -> Point:
        """Centre of the arc (mm); raises ``ValueError`` for a line."""
        if self.is_line:
            raise ValueError("a line has no centre")
        (x0, y0), (x1, y1) = self.start, self.end
        reach = (1 - self.bulge**2) / (4 * self.bulge)
        return ((x0 + x1) / 2 - (y1 - y0) * reach, (y0 + y1) / 2 + (x1 - x0) * reach)

    @cached_property
    def length(self) -> float:
        return self.chord if self.is_line else self.radius * abs(self.turn)

    def heading(self, t: float) -> float:
        """Calculate the direction (radians from +x) at the fraction ``t`` of the length."""
        along = math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0])
        return along + (t - 0.5) * self.turn

    def tangent(self, t: float) -> Point:
        """Calculate the unit tangent at the fraction ``t`` of the length."""
        heading = self.heading(t)
        return (math.cos(heading), math.sin(heading))

    def point(self, t: float) -> Point:
        """Evaluate the point at the fraction ``t`` (0 … 1) of the length."""
        if t == 0.0:
            return self.start
        if t == 1.0:
            return self.end
        (x0, y0), (x1, y1) = self.start, self.end
        if self.is_line:
            return (x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)
        # The chord to the point: its length goes as the sine of half its angle.
        part = self.turn * t
        reach = self.chord * math.sin(part / 2) / math.sin(self.turn / 2)
        heading = self.heading(0.0) + part / 2
        return (x0 + reach * math.cos(heading), y0 + reach * math.sin(heading))

    def reversed(self) -> Segment:
        """Reverse the direction of travel."""
        return Segment(self.end, self.start, -self.bulge)

    def part(self, t0: float, t1: float) -> Segment:
        """Cut out the part between two fractions of the length."""
        bulge = math.tan(self.turn * (t1 - t0) / 4) if self.bulge else 0.0
        return Segment(self.point(t0), self.point(t1), bulge)

    @cached_property
    def box(self) -> Box:
        """Bounding box: left, bottom, right, top (mm)."""
        xs, ys = [self.start[0], self.end[0]], [self.start[1], self.end[1]]
        if not self.is_line:
            fractions = (self.fraction_at(quarter * math.pi / 2) for quarter in range(4))
            points = [self.point(t) for t in fractions if t is not None]
            xs += [x for x, _ in points]
            ys += [y for _, y in points]
        return (min(xs), min(ys), max(xs), max(ys))

    def fraction_at(self, angle: float) -> float | None:
        """Find the fraction of the arc at a polar angle (radians) about its centre, or None."""
        cx, cy = self.centre
        first = math.atan2(self.start[1] - cy, self.start[0] - cx)
        sign = math.copysign(1.0, self.bulge)
        swept = math.fmod(sign * (angle - first), math.tau)
        swept = swept + math.tau if swept < 0 else swept
        fraction = swept / abs(self.turn)
        return fraction if fraction <= 1.0 else None

    @cached_property
    def _chord_frame(self) -> tuple[Point, Point, float]:
        """Midpoint of the chord, unit vector along it, and distance from it to the centre (mm)."""
        (x0, y0), (x1, y1) = self.start, self.end
        along = ((x1 - x0) / self.chord, (y1 - y0) / self.chord) if self.chord else (1.0, 0.0)
        behind = self.chord * (1 - self.bulge**2) / (4 * abs(self.bulge))
        return ((x0 + x1) / 2, (y0 + y1) / 2), along, behind

    def _polar(self, p: Point) -> tuple[float, float]:
        """Calculate the fraction of the arc toward ``p``, and how far outside (mm) ``p`` is.

        Calculated from the chord: from the distant centre of a nearly straight arc, short
        distances would be lost to cancellation.
        """
        (mx, my), (ux, uy), behind = self._chord_frame
        sign = math.copysign(1.0, self.bulge)
        dx, dy = p[0] - mx, p[1] - my
        along, off = dx * ux + dy * uy, sign * (dx * uy - dy * ux)
        power = along * along + off * (off + 2 * behind) - self.chord**2 / 4
        outside = power / (math.hypot(along, off + behind) + self.radius)
        return 0.5 + math.atan2(along, off + behind) / abs(self.turn), outside

    def outside(self, p: Point) -> float:
        """Calculate a point's signed distance (mm) from the arc's circle, negative inside it."""
        return self._polar(p)[1]

    def nearest(self, p: Point) -> float:
        """Find the fraction of the length that is nearest to a point."""
        if self.is_line:
            (x0, y0), (x1, y1) = self.start, self.end
            square = self.chord**2
            along = (p[0] - x0) * (x1 - x0) + (p[1] - y0) * (y1 - y0)
            return min(1.0, max(0.0, along / square)) if square else 0.0
        fraction, _ = self._polar(p)
        if 0.0 <= fraction <= 1.0:
            return fraction
        return 0.0 if point_distance(p, self.start) <= point_distance(p, self.end) else 1.0

    def distance(self, p: Point) -> float:
        """Calculate the distance (mm) from a point to the segment."""
        if self.is_line:
            return point_distance(p, self.point(self.nearest(p)))
        fraction, outside = self._polar(p)
        if 0.0 <= fraction <= 1.0:
            return abs(outside)
        return min(point_distance(p, self.start), point_distance(p, self.end))

    @cached_property
    def moments(self) -> tuple[float, float, float]:
        """Area between arc and chord (mm²), positive to the left, and its first moments (mm³)."""
        if self.is_line:
            return (0.0, 0.0, 0.0)
        area = self.radius**2 / 2 * turn_minus_sine(self.turn)
        reach = 4 * self.radius * abs(math.sin(self.turn / 2)) ** 3
        reach /= 3 * turn_minus_sine(abs(self.turn))
        middle = self.point(0.5)
        cx, cy = self.centre
        x = cx + (middle[0] - cx) / self.radius * reach
        y = cy + (middle[1] - cy) / self.radius * reach
        return (area, area * x, area * y)
