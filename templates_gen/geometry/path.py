"""Outlines: immutable chains of lines and arcs."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from templates_gen.geometry.segment import Box, Point, Segment, point_distance
from templates_gen.tolerances import SAME_POINT

Vertex = tuple[float, float, float]


@dataclass(frozen=True)
class Path:
    """A chain of lines and arcs, open or closed.

    Args:
        vertices: (x, y, bulge) in mm; the bulge belongs to the piece that starts there. A closed
            path does not repeat its first point; the last bulge of an open one is 0.
        closed: whether the last point joins the first.

    Raises:
        ValueError: too few points, two neighbours in one place, or an arc beyond a half circle.
    """

    vertices: tuple[Vertex, ...]
    closed: bool = True

    def __post_init__(self) -> None:
        if len(self.vertices) < 2:
            raise ValueError("an outline needs at least two points")
        for piece in self.segments:
            if not piece.chord > SAME_POINT:
                raise ValueError(f"no length, or no number, at {piece.start}")
            if abs(piece.bulge) > 1 + 1e-12:
                raise ValueError(f"an arc beyond a half circle at {piece.start}")

    @classmethod
    def from_segments(cls, pieces: Iterable[Segment], *, closed: bool) -> Path:
        """Chain pieces that already meet; of two ends in one place the earlier is kept."""
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
        """Arc length at the start of each piece, and the whole length last."""
        total, out = 0.0, [0.0]
        for piece in self.segments:
            total += piece.length
            out.append(total)
        return tuple(out)

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
        # Moments about the first point: far from the origin nothing is lost to cancellation.
        ox, oy = self.start
        for piece in self.segments:
            x0, y0 = piece.start[0] - ox, piece.start[1] - oy
            x1, y1 = piece.end[0] - ox, piece.end[1] - oy
            cross = (x0 * y1 - x1 * y0) / 2
            lobe, lobe_x, lobe_y = piece.lobe
            area += cross + lobe
            mx += cross * (x0 + x1) / 3 + lobe_x - lobe * ox
            my += cross * (y0 + y1) / 3 + lobe_y - lobe * oy
        return (area, mx, my)

    @property
    def area(self) -> float:
        """Enclosed area (mm²), positive when it runs counter-clockwise; the path must be closed."""
        if not self.closed:
            raise ValueError("an open path encloses nothing")
        return self._moments[0]

    @property
    def centroid(self) -> Point:
        area, mx, my = self._moments
        return (self.start[0] + mx / area, self.start[1] + my / area)

    @cached_property
    def box(self) -> Box:
        """Left, bottom, right, top."""
        boxes = [piece.box for piece in self.segments]
        return (
            min(b[0] for b in boxes),
            min(b[1] for b in boxes),
            max(b[2] for b in boxes),
            max(b[3] for b in boxes),
        )

    def _locate(self, s: float) -> tuple[Segment, float]:
        s = s % self.length if self.closed else min(max(s, 0.0), self.length)
        i = min(bisect_right(self.stations, s) - 1, len(self.segments) - 1)
        piece = self.segments[i]
        return piece, min(1.0, (s - self.stations[i]) / piece.length)

    def point_at(self, s: float) -> Point:
        """Point at the arc length ``s`` (mm) from the start."""
        piece, t = self._locate(s)
        return piece.point(t)

    def tangent_at(self, s: float) -> Point:
        """Unit direction of travel at the arc length ``s`` (mm)."""
        piece, t = self._locate(s)
        return piece.tangent(t)

    def distance(self, p: Point) -> float:
        """Distance (mm) from ``p`` to the path itself (not to what it encloses)."""
        return min(piece.distance(p) for piece in self.segments)

    def kinks(self) -> list[tuple[Point, float]]:
        """Each joint and the angle (degrees, positive to the left) by which the path turns."""
        pieces = self.segments
        pairs = list(pairwise(pieces))
        if self.closed:
            pairs.append((pieces[-1], pieces[0]))
        out = []
        for before, after in pairs:
            turn = math.remainder(after.heading(0.0) - before.heading(1.0), math.tau)
            out.append((after.start, math.degrees(turn)))
        return out

    # --- other paths from this one ---------------------------------------------------------------

    def reversed(self) -> Path:
        return Path.from_segments([p.reversed() for p in self.segments[::-1]], closed=self.closed)

    def moved(self, dx: float, dy: float) -> Path:
        return Path(tuple((x + dx, y + dy, b) for x, y, b in self.vertices), self.closed)

    def part(self, start: float, end: float) -> Path:
        """The open stretch between two arc lengths (mm), the second the greater."""
        pieces = []
        for at, piece in zip(self.stations, self.segments, strict=False):
            low, high = max(start, at), min(end, at + piece.length)
            if high - low > SAME_POINT:
                pieces.append(piece.part((low - at) / piece.length, (high - at) / piece.length))
        return Path.from_segments(pieces, closed=False)

    def mapped(self, to: Callable[[Point], Point], *, flips: bool = False) -> Path:
        """Carry every point through a similarity; ``flips`` if it turns the plane over."""
        sign = -1.0 if flips else 1.0
        return Path(tuple((*to((x, y)), sign * b) for x, y, b in self.vertices), self.closed)

    def rotated(self, angle: float, about: Point = (0.0, 0.0)) -> Path:
        """Turned counter-clockwise by ``angle`` (radians) about a point."""
        c, s = math.cos(angle), math.sin(angle)
        ox, oy = about
        return self.mapped(
            lambda p: (
                ox + (p[0] - ox) * c - (p[1] - oy) * s,
                oy + (p[0] - ox) * s + (p[1] - oy) * c,
            )
        )

    def mirrored(self, *, x: float | None = None, y: float | None = None) -> Path:
        """Turned over about the upright line ``x`` or the level line ``y``."""
        if x is not None:
            return self.mapped(lambda p: (2 * x - p[0], p[1]), flips=True)
        level = 0.0 if y is None else y
        return self.mapped(lambda p: (p[0], 2 * level - p[1]), flips=True)

    def oriented(self, *, ccw: bool = True) -> Path:
        """The same outline run counter-clockwise or clockwise, from its lowest, leftmost point."""
        path = self if (self.area > 0) == ccw else self.reversed()
        v = path.vertices
        first = min(range(len(v)), key=lambda i: (round(v[i][1], 9), round(v[i][0], 9)))
        return Path(v[first:] + v[:first], True)

    def as_circle(self) -> tuple[Point, float] | None:
        """Centre and radius, if it is a whole circle."""
        if not self.closed or any(p.is_line for p in self.segments):
            return None
        first = self.segments[0]
        whole = math.isclose(abs(sum(p.turn for p in self.segments)), math.tau, rel_tol=1e-9)
        same = all(point_distance(p.centre, first.centre) < SAME_POINT for p in self.segments)
        return (first.centre, first.radius) if whole and same else None
