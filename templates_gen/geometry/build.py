"""Draw an outline as one would with rule and compass."""

from __future__ import annotations

import math
from collections.abc import Sequence

from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance
from templates_gen.tolerances import SAME_POINT


class Pen:
    """Draws pieces end to end. Each call continues from where the last one stopped.

    Moves of no length are left out, so a parameter of zero needs no special case.
    """

    def __init__(self, start: Point) -> None:
        self.at = start
        self._pieces: list[Segment] = []
        self._corner: tuple[float, bool] | None = None

    def _add(self, piece: Segment) -> Pen:
        if piece.chord <= SAME_POINT:
            return self
        if self._corner is not None:
            size, rounded = self._corner
            self._corner = None
            piece = self._cut_corner(piece, size, rounded)
        self._pieces.append(piece)
        self.at = piece.end
        return self

    def line_to(self, x: float, y: float) -> Pen:
        """A straight line to a point."""
        return self._add(Segment(self.at, (x, y)))

    def line_by(self, dx: float, dy: float) -> Pen:
        """A straight line by a distance in x and y."""
        return self.line_to(self.at[0] + dx, self.at[1] + dy)

    def arc_to(self, end: Point, centre: Point, *, left: bool) -> Pen:
        """An arc about a centre; ``left`` if it turns counter-clockwise.

        Raises:
            GeometryError: the end does not lie on the circle through the start.
        """
        radius, other = point_distance(centre, self.at), point_distance(centre, end)
        if abs(radius - other) > 1e-6 * max(1.0, radius):
            raise GeometryError(f"arc of radius {radius:.6f} cannot end at radius {other:.6f}", end)
        a0 = math.atan2(self.at[1] - centre[1], self.at[0] - centre[0])
        a1 = math.atan2(end[1] - centre[1], end[0] - centre[0])
        turn = (a1 - a0) % math.tau if left else -((a0 - a1) % math.tau)
        return self._turn(end, centre, turn)

    def arc_by(self, centre: Point, turn: float) -> Pen:
        """An arc about a centre through an angle (radians, positive to the left)."""
        dx, dy = self.at[0] - centre[0], self.at[1] - centre[1]
        c, s = math.cos(turn), math.sin(turn)
        return self._turn((centre[0] + dx * c - dy * s, centre[1] + dx * s + dy * c), centre, turn)

    def _turn(self, end: Point, centre: Point, turn: float) -> Pen:
        # More than a half circle is drawn in two, so that no bulge exceeds 1.
        if abs(turn) > math.pi * (1 + 1e-12):
            dx, dy = self.at[0] - centre[0], self.at[1] - centre[1]
            c, s = math.cos(turn / 2), math.sin(turn / 2)
            middle = (centre[0] + dx * c - dy * s, centre[1] + dx * s + dy * c)
            self._turn(middle, centre, turn / 2)
            return self._turn(end, centre, turn / 2)
        return self._add(Segment(self.at, end, math.tan(turn / 4)))

    def bulge_to(self, end: Point, bulge: float) -> Pen:
        """An arc by its bulge."""
        return self._add(Segment(self.at, end, bulge))

    def arc_through(self, middle: Point, end: Point) -> Pen:
        """The arc through a point between to the end; straight where the three are in line."""
        (ax, ay), (mx, my), (bx, by) = self.at, middle, end
        ux, uy, vx, vy = mx - ax, my - ay, bx - mx, by - my
        # At a point of the arc the chords' turn is half the arc's (Euclid III, 20).
        return self.bulge_to(end, math.tan(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) / 2))

    def tangent_arc_to(self, end: Point) -> Pen:
        """The one arc that leaves in the direction the pen arrived and ends at ``end``."""
        if not self._pieces:
            raise GeometryError("a tangent arc needs a piece before it", self.at)
        heading = self._pieces[-1].heading(1.0)
        chord = math.atan2(end[1] - self.at[1], end[0] - self.at[0])
        turn = 2 * math.remainder(chord - heading, math.tau)
        if abs(turn) >= math.tau - 1e-9:
            raise GeometryError("a tangent arc cannot end straight behind its start", end)
        if abs(turn) > math.pi:
            bulge = math.tan(turn / 4)
            whole = _unchecked_centre(self.at, end, bulge)
            return self._turn(end, whole, turn)
        return self._add(Segment(self.at, end, math.tan(turn / 4)))

    def fillet(self, radius: float) -> Pen:
        """Round the corner between the piece just drawn and the next one (both straight)."""
        self._corner = (radius, True) if radius > 0 else None
        return self

    def chamfer(self, size: float) -> Pen:
        """Cut the corner between the piece just drawn and the next one by ``size`` along each."""
        self._corner = (size, False) if size > 0 else None
        return self

    def _cut_corner(self, after: Segment, size: float, rounded: bool) -> Segment:
        before = self._pieces[-1]
        if not (before.is_line and after.is_line):
            raise GeometryError("only a corner between two straight pieces can be cut", self.at)
        turn = math.remainder(after.heading(0.0) - before.heading(1.0), math.tau)
        back = size * math.tan(abs(turn) / 2) if rounded else size
        if back >= before.length - SAME_POINT or back >= after.length - SAME_POINT:
            kind = "radius" if rounded else "chamfer"
            raise GeometryError(f"the {kind} {size:g} does not fit its corner", self.at)
        if abs(turn) < 1e-12:
            return after
        leave = before.point(1 - back / before.length)
        join = after.point(back / after.length)
        self._pieces[-1] = Segment(before.start, leave)
        self._pieces.append(Segment(leave, join, math.tan(turn / 4) if rounded else 0.0))
        return Segment(join, after.end)

    def open(self) -> Path:
        """What was drawn, as an open path."""
        return Path.from_segments(self._pieces, closed=False)

    def close(self) -> Path:
        """Back to the start by a straight line if need be; run counter-clockwise."""
        start = self._pieces[0].start
        if point_distance(self.at, start) > SAME_POINT:
            self.line_to(*start)
        else:
            self._pieces[-1] = Segment(self._pieces[-1].start, start, self._pieces[-1].bulge)
        return Path.from_segments(self._pieces, closed=True).oriented()


def _unchecked_centre(start: Point, end: Point, bulge: float) -> Point:
    reach = (1 - bulge**2) / (4 * bulge)
    return (
        (start[0] + end[0]) / 2 - (end[1] - start[1]) * reach,
        (start[1] + end[1]) / 2 + (end[0] - start[0]) * reach,
    )


def circle(centre: Point, radius: float) -> Path:
    """A whole circle, counter-clockwise from its lowest point."""
    x, y = centre
    return Path(((x, y - radius, 1.0), (x, y + radius, 1.0)))


def polygon(points: Sequence[Point]) -> Path:
    """A closed straight-sided outline, run counter-clockwise."""
    return Path(tuple((x, y, 0.0) for x, y in points)).oriented()


def rectangle(left: float, bottom: float, right: float, top: float) -> Path:
    """An upright rectangle."""
    return polygon([(left, bottom), (right, bottom), (right, top), (left, top)])
