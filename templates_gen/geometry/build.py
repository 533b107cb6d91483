"""Draw paths with a pen: lines, arcs, fillets and chamfers."""

from __future__ import annotations

import math
from collections.abc import Sequence

from templates_gen.errors import GeometryError
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment, point_distance, rotate
from templates_gen.tolerances import SAME_POINT


class Pen:
    """Draw a path piece by piece; each piece starts where the last one ended.

    Pieces of zero length are left out, so a parameter of 0 needs no special case.

    Args:
        start: where the path starts (mm).
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
            piece = self._trim_corner(piece, size, rounded)
        self._pieces.append(piece)
        self.at = piece.end
        return self

    def line_to(self, x: float, y: float) -> Pen:
        """Draw a line to a point."""
        return self._add(Segment(self.at, (x, y)))

    def line_by(self, dx: float, dy: float) -> Pen:
        """Draw a line by a distance in x and y."""
        return self.line_to(self.at[0] + dx, self.at[1] + dy)

    def arc_to(self, end: Point, centre: Point, *, left: bool) -> Pen:
        """Draw an arc about a centre to a point; ``left`` turns counter-clockwise.

        Raises:
            GeometryError: the end is not on the circle through the start.
        """
        radius, other = point_distance(centre, self.at), point_distance(centre, end)
        if abs(radius - other) > 1e-6 * max(1.0, radius):
            raise GeometryError(f"arc of radius {radius:.6f} cannot end at radius {other:.6f}", end)
        a0 = math.atan2(self.at[1] - centre[1], self.at[0] - centre[0])
        a1 = math.atan2(end[1] - centre[1], end[0] - centre[0])
        turn = (a1 - a0) % math.tau if left else -((a0 - a1) % math.tau)
        return self._arc(end, centre, turn)

    def arc_by(self, centre: Point, turn: float) -> Pen:
        """Draw an arc about a centre through an angle (radians, positive to the left)."""
        return self._arc(rotate(self.at, turn, centre), centre, turn)

    def _arc(self, end: Point, centre: Point, turn: float) -> Pen:
        # An arc of more than 180° is drawn as two, so that no bulge exceeds 1.
        if abs(turn) > math.pi * (1 + 1e-12):
            self._arc(rotate(self.at, turn / 2, centre), centre, turn / 2)
            return self._arc(end, centre, turn / 2)
        return self._add(Segment(self.at, end, math.tan(turn / 4)))

    def bulge_to(self, end: Point, bulge: float) -> Pen:
        """Draw an arc given by its bulge, the tangent of a quarter of its angle."""
        return self._add(Segment(self.at, end, bulge))

    def arc_through(self, middle: Point, end: Point) -> Pen:
        """Draw the arc through three points; a line where they are collinear."""
        (ax, ay), (mx, my), (bx, by) = self.at, middle, end
        ux, uy, vx, vy = mx - ax, my - ay, bx - mx, by - my
        # The angle between the chords is half the angle of the arc (Euclid III, 20).
        return self.bulge_to(end, math.tan(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) / 2))

    def tangent_arc_to(self, end: Point) -> Pen:
        """Draw the arc that starts tangent to the last piece and ends at a point.

        Raises:
            GeometryError: there is no piece before it, or the end is straight behind the start.
        """
        if not self._pieces:
            raise GeometryError("a tangent arc needs a piece before it", self.at)
        heading = self._pieces[-1].heading(1.0)
        chord = math.atan2(end[1] - self.at[1], end[0] - self.at[0])
        turn = 2 * math.remainder(chord - heading, math.tau)
        if abs(turn) >= math.tau - 1e-9:
            raise GeometryError("a tangent arc cannot end straight behind its start", end)
        arc = Segment(self.at, end, math.tan(turn / 4))
        return self._arc(end, arc.centre, turn) if abs(turn) > math.pi else self._add(arc)

    def fillet(self, radius: float) -> Pen:
        """Round the corner between the last line and the next one."""
        self._corner = (radius, True) if radius > 0 else None
        return self

    def chamfer(self, size: float) -> Pen:
        """Bevel the corner between the last line and the next one by ``size`` along each."""
        self._corner = (size, False) if size > 0 else None
        return self

    def _trim_corner(self, after: Segment, size: float, rounded: bool) -> Segment:
        before = self._pieces[-1]
        if not (before.is_line and after.is_line):
            raise GeometryError(
                "only a corner between two lines can be rounded or bevelled", self.at
            )
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
        """Return the drawn pieces as an open path."""
        return Path.from_segments(self._pieces, closed=False)

    def close(self) -> Path:
        """Close the path, with a line if needed, and return it counter-clockwise."""
        start = self._pieces[0].start
        if point_distance(self.at, start) > SAME_POINT:
            self.line_to(*start)
        else:
            self._pieces[-1] = Segment(self._pieces[-1].start, start, self._pieces[-1].bulge)
        return Path.from_segments(self._pieces, closed=True).oriented()


def circle(centre: Point, radius: float) -> Path:
    """Make a circle, counter-clockwise from its lowest point."""
    x, y = centre
    return Path(((x, y - radius, 1.0), (x, y + radius, 1.0)))


def polygon(points: Sequence[Point]) -> Path:
    """Make a closed polygon, counter-clockwise."""
    return Path(tuple((x, y, 0.0) for x, y in points)).oriented()


def rectangle(left: float, bottom: float, right: float, top: float) -> Path:
    """Make a rectangle with sides parallel to the axes."""
    return polygon([(left, bottom), (right, bottom), (right, top), (left, top)])
