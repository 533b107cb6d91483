"""Paths: immutable chains of lines and arcs, open or closed."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise

from templates_gen.geometry.segment import Box, Point, Segment, point_distance, rotate
from templates_gen.tolerances import SAME_POINT

Vertex = tuple[float, float, float]


@dataclass(frozen=True)
class Path:
    """A chain of lines and arcs, open or closed.

    Args:
        vertices: (x, y, bulge) in mm; the bulge belongs to the piece that starts there. A closed
            path does not repeat its first point; the last bulge of an open one is 0.
        closed: whether the last point is joined to the first.

    Raises:
        ValueError: too few points, two equal neighbours, or an arc of more than 180°.
    """

    vertices: tuple[Vertex, ...]
    closed: bool = True

    def __post_init__(self) -> None:
        if len(self.vertices) < 2:
            raise ValueError("an outline needs at least two points")
        for piece in self.segments:
            if not piece.chord > SAME_POINT:
                raise ValueError(
                    f"a piece has no length, or a coordinate is not finite, at {piece.start}"
                )
            if abs(piece.bulge) > 1 + 1e-12:
                raise ValueError(f"an arc of more than 180° at {piece.start}")

    @classmethod
    def from_segments(cls, pieces: Iterable[Segment], *, closed: bool) -> Path:
        """Join pieces whose ends meet; each piece keeps its start and ends at the next one's."""
        chain = list(pieces)
        vertices = [(*p.start, p.bulge) for p in chain]
        if not closed:
            vertices.append((*chain[-1].end, 0.0))
        return cls(tuple(vertices), closed)

    @cached_property
    def segments(self) -> tuple[Segment, ...]:
        v = self.vertices
        n = len(v) if self.closed else len(v) - 1
        return tuple(Segment(v[i][:2], v[(i + 1) % len(v)][:2], v[i][2]) for i in range(n))

    @cached_property
    def stations(self) -> tuple[float, ...]:
        """Arc length (mm) at the start of each piece, then the total length."""
        return tuple(accumulate((piece.length for piece in self.segments), initial=0.0))

    @property
    def length(self) -> float:
        return self.stations[-1]

    @property
    def start(self) -> Point:
        return self.vertices[0][:2]

    @property
    def end(self) -> Point:
        return self.segments[-1].end

    @cached_property
    def _moments(self) -> tuple[float, float, float]:
        area = mx = my = 0.0
        # Moments about the first point, to avoid cancellation far from the origin.
        ox, oy = self.start
        for piece in self.segments:
            x0, y0 = piece.start[0] - ox, piece.start[1] - oy
            x1, y1 = piece.end[0] - ox, piece.end[1] - oy
            cross = (x0 * y1 - x1 * y0) / 2
            bow, bow_x, bow_y = piece.moments
            area += cross + bow
            mx += cross * (x0 + x1) / 3 + bow_x - bow * ox
            my += cross * (y0 + y1) / 3 + bow_y - bow * oy
        return (area, mx, my)

    @property
    def area(self) -> float:
        """Enclosed area (mm²) of a closed path, positive if counter-clockwise."""
        if not self.closed:
            raise ValueError("an open path has no area")
        return self._moments[0]

    @property
    def centroid(self) -> Point:
        """Centroid of the enclosed area (mm)."""
        area, mx, my = self._moments
        return (self.start[0] + mx / area, self.start[1] + my / area)

    @cached_property
    def box(self) -> Box:
        """Bounding box: left, bottom, right, top (mm)."""
        boxes = [piece.box for piece in self.segments]
        return (
            min(b[0] for b in boxes),
            min(b[1] for b in boxes),
            max(b[2] for b in boxes),
            max(b[3] for b in boxes),
        )

    def _locate(self, s: float) -> tuple[Segment, float]:
        """Find the piece at an arc length (mm), and the fraction of its length there."""
        s = s % self.length if self.closed else min(max(s, 0.0), self.length)
        i = min(bisect_right(self.stations, s) - 1, len(self.segments) - 1)
        piece = self.segments[i]
        return piece, min(1.0, (s - self.stations[i]) / piece.length)

    def point_at(self, s: float) -> Point:
        """Evaluate the point at the arc length ``s`` (mm) from the start."""
        piece, t = self._locate(s)
        return piece.point(t)

    def tangent_at(self, s: float) -> Point:
        """Evaluate the unit tangent at the arc length ``s`` (mm) from the start."""
        piece, t = self._locate(s)
        return piece.tangent(t)

    def distance(self, p: Point) -> float:
        """Calculate the distance (mm) from a point to the path itself, not to the enclosed area."""
        return min(piece.distance(p) for piece in self.segments)

    def kinks(self) -> list[tuple[Point, float]]:
        """List each joint with its change of direction (degrees, positive to the left)."""
        pieces = self.segments
        pairs = list(pairwise(pieces))
        if self.closed:
            pairs.append((pieces[-1], pieces[0]))
        out = []
        for before, after in pairs:
            turn = math.remainder(after.heading(0.0) - before.heading(1.0), math.tau)
            out.append((after.start, math.degrees(turn)))
        return out

    # --- transformed copies ---------------------------------------------------------------

    def reversed(self) -> Path:
        """Reverse the direction of travel."""
        return Path.from_segments([p.reversed() for p in self.segments[::-1]], closed=self.closed)

    def moved(self, dx: float, dy: float) -> Path:
        """Translate by a distance in x and y (mm)."""
        return Path(tuple((x + dx, y + dy, b) for x, y, b in self.vertices), self.closed)

    def part(self, start: float, end: float) -> Path:
        """Cut out the open path between two arc lengths (mm), the second the greater."""
        pieces = []
        for at, piece in zip(self.stations, self.segments, strict=False):
            low, high = max(start, at), min(end, at + piece.length)
            if high - low > SAME_POINT:
                pieces.append(piece.part((low - at) / piece.length, (high - at) / piece.length))
        return Path.from_segments(pieces, closed=False)

    def mapped(self, to: Callable[[Point], Point], *, flips: bool = False) -> Path:
        """Transform every point by a similarity; ``flips`` if it is a reflection."""
        sign = -1.0 if flips else 1.0
        return Path(tuple((*to((x, y)), sign * b) for x, y, b in self.vertices), self.closed)

    def rotated(self, angle: float, about: Point = (0.0, 0.0)) -> Path:
        """Rotate counter-clockwise by an angle (radians) about a point (mm)."""
        return self.mapped(lambda p: rotate(p, angle, about))

    def mirrored(self, *, x: float | None = None, y: float | None = None) -> Path:
        """Reflect in the vertical line at ``x`` or the horizontal line at ``y``."""
        if x is not None:
            return self.mapped(lambda p: (2 * x - p[0], p[1]), flips=True)
        level = 0.0 if y is None else y
        return self.mapped(lambda p: (p[0], 2 * level - p[1]), flips=True)

    def oriented(self, *, ccw: bool = True) -> Path:
        """Set the direction of a closed path, and start it at its lowest, leftmost point."""
        path = self if (self.area > 0) == ccw else self.reversed()
        v = path.vertices
        first = min(range(len(v)), key=lambda i: (round(v[i][1], 9), round(v[i][0], 9)))
        return Path(v[first:] + v[:first], True)

    def as_circle(self) -> tuple[Point, float] | None:
        """Return centre and radius (mm) if the path is a full circle, else None."""
        if not self.closed or any(p.is_line for p in self.segments):
            return None
        first = self.segments[0]
        whole = math.isclose(abs(sum(p.turn for p in self.segments)), math.tau, rel_tol=1e-9)
        same = all(point_distance(p.centre, first.centre) < SAME_POINT for p in self.segments)
        return (first.centre, first.radius) if whole and same else None
