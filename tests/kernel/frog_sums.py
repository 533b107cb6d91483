"""The frog's volume without the kernel: sections by shapely, integrated along the bow.

Every section is constructed from the recipe's outlines and the meaning of each tool: extrusions are
constant along their axis, ruled lofts change linearly, revolutions depend on the distance from the
axis. No code of the builders is used.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from geometry_referee import polygon_of
from shapely.affinity import scale

from templates_gen.geometry import Path

CHORD = 1e-5
#: Gauss points between two positions where something starts or ends.
POINTS = 12
FAR = 100.0


def summed(r: Any) -> float:
    """Volume (mm³) of the frog a recipe describes."""
    tools = _Tools(r)
    nodes, weights = np.polynomial.legendre.leggauss(POINTS)
    total = 0.0
    for a, b in pairwise(tools.places()):
        # Where an outline is vertical at an end, its height grows as a square root: move the points
        # toward both ends, so that the integrand is smooth.
        t = (1 - np.cos(np.pi * (nodes + 1) / 2)) / 2
        stretch = np.pi / 4 * np.sin(np.pi * (nodes + 1) / 2)
        areas = np.array([tools.section(a + (b - a) * u).area for u in t])
        total += float(np.dot(weights * stretch, areas)) * (b - a)
    return total


class _Tools:
    """The recipe's outlines as polygons."""

    def __init__(self, r: Any) -> None:
        self.r = r
        self.block = polygon_of(r.block, CHORD)
        self.hollow = polygon_of(r.hollow.section, CHORD)
        self.high_hollow = polygon_of(r.hollow.above, CHORD)
        self.edge = _hollow_edge(r.hollow)
        self.tongue = polygon_of(r.tongue.section, CHORD)
        self.lip = polygon_of(r.pockets.lip, CHORD)
        plate = r.pockets.heel_plate
        self.plate = polygon_of(plate, CHORD) if plate is not None else None

    def places(self) -> list[float]:
        """Every x at which something starts, ends or is vertical."""
        r, k = self.r, self.r.pockets
        found = {*_ends(r.block), *_ends(k.lip), r.hollow.run_out, r.shoulder.start, r.shoulder.end}
        found |= {r.tongue.start, r.tongue.end, k.channel[0][0]}
        found |= {*k.mortise.box[0::2], *k.bore.box[0::2]}
        if k.heel_plate is not None:
            found |= set(_ends(k.heel_plate))
        for e in k.eyes:
            found |= {e.floor[0] - e.radius, e.floor[0] + e.radius}
        start, end = r.block.box[0], max(r.block.box[2], r.tongue.end)
        inside = sorted(x for x in found if start - 1e-9 <= x <= end + 1e-9)
        # The revolved end of the hollow leaves the frog somewhere: short steps cover it.
        extra = np.linspace(r.hollow.run_out, r.shoulder.end, 12)
        both = sorted({*inside, *(float(x) for x in extra)})
        return [a for a, b in pairwise([*both, FAR]) if b - a > 1e-6]

    def section(self, x: float) -> Any:
        """Cross-section of the wood at x, in (y, z)."""
        wood = self._block(x).difference(self._flanks(x))
        if self.r.shoulder.start < x < self.r.shoulder.end:
            wood = wood.difference(self._beyond_shoulder(x))
        if self.r.tongue.start < x < self.r.tongue.end:
            wood = wood.union(self._tongue(x))
        return wood.difference(self._pockets(x))

    def _block(self, x: float) -> Any:
        half = _between(self.r.plan, x)
        return shapely.union_all([_bar(half, low, high) for low, high in _spans(self.block, x)])

    def _flanks(self, x: float) -> Any:
        h = self.r.hollow
        right = self.hollow
        if x > h.run_out:
            right = shapely.union_all([self.high_hollow, self._turned(x - h.run_out)])
        return right.union(_mirror(right))

    def _turned(self, away: float) -> Any:
        """The hollow's end, revolved about the vertical axis at its outside."""
        y, z = self.edge
        reach = self.r.hollow.outside - y
        keep = reach > away
        if not keep.any():
            return shapely.Polygon()
        inner = self.r.hollow.outside - np.sqrt(np.maximum(reach**2 - away**2, 0.0))
        low, high = np.flatnonzero(keep)[[0, -1]]
        side = [(inner[i], z[i]) for i in range(low, high + 1)]
        out = self.r.hollow.outside
        return shapely.Polygon([*side, (out, z[high]), (out, z[low])])

    def _beyond_shoulder(self, x: float) -> Any:
        s = self.r.shoulder
        share = (x - s.start) / (s.end - s.start)
        cone = _mixed(s.at_start, s.at_end, share)
        return shapely.box(-FAR, -FAR, FAR, s.top).difference(cone)

    def _tongue(self, x: float) -> Any:
        t = self.r.tongue
        return self.tongue.intersection(_bar(_between(t.plan, x), t.low - 1, t.high + 1))

    def _pockets(self, x: float) -> Any:
        k = self.r.pockets
        cut = [_ruled(k.trench, x)]
        if x > k.channel[0][0]:
            cut.append(_ruled(k.channel, x))
        left, bottom, right, top = k.mortise.box
        if left < x < right:
            cut.append(_bar((top - bottom) / 2, 0.0, k.mortise_top))
        cut += [_bar(k.lip_half_width, low, high) for low, high in _spans(self.lip, x)]
        (at, _), radius = k.bore.as_circle() or ((0.0, 0.0), 0.0)
        if abs(x - at) < radius:
            cut.append(_bar(math.sqrt(radius**2 - (x - at) ** 2), k.bore_end, k.bore_top))
        if self.plate is not None:
            cut += [_bar(FAR, low, high) for low, high in _spans(self.plate, x)]
        cut += [_recess(e, x) for e in k.eyes if abs(x - e.floor[0]) < e.radius]
        return shapely.union_all(cut)


def _ends(path: Path) -> list[float]:
    return [x for s in path.segments for x in (s.start[0], *s.box[0::2])]


def _bar(half: float, low: float, high: float) -> Any:
    return shapely.box(-half, low, half, high)


def _mirror(shape: Any) -> Any:
    return scale(shape, -1.0, 1.0, origin=(0.0, 0.0))


def _between(plan: Path, x: float) -> float:
    """Half width at x of an outline with a linear taper."""
    right = sorted((u, v) for u, v, _ in plan.vertices if v > 0)
    return float(np.interp(x, [u for u, _ in right], [v for _, v in right]))


def _spans(side: Any, x: float) -> list[tuple[float, float]]:
    """Vertical intervals of a side outline at x."""
    met = side.intersection(shapely.LineString([(x, -FAR), (x, FAR)]))
    lines = [g for g in getattr(met, "geoms", [met]) if g.geom_type == "LineString"]
    return [(g.bounds[1], g.bounds[3]) for g in lines if not g.is_empty]


def _hollow_edge(hollow: Any) -> tuple[np.ndarray, np.ndarray]:
    """The hollow's arc below the split: half widths and heights from the bottom up."""
    (arc,) = [s for s in hollow.below.segments if not s.is_line]
    points = sorted((arc.point(i / 2000) for i in range(2001)), key=lambda q: q[1])
    return np.array([q[0] for q in points]), np.array([q[1] for q in points])


def _ruled(ends: tuple[tuple[float, Path], ...], x: float) -> Any:
    """Section at x of a ruled loft between polygons."""
    (a, first), (b, last) = ends
    share = (x - a) / (b - a)
    corners = [
        ((1 - share) * u0 + share * u1, (1 - share) * v0 + share * v1)
        for (u0, v0, _), (u1, v1, _) in zip(first.vertices, last.vertices, strict=True)
    ]
    return shapely.Polygon(corners)


def _mixed(first: Path, last: Path, share: float) -> Any:
    """Section of a ruled loft between paths, at a fraction of the way."""
    corners = []
    for s, t in zip(first.segments, last.segments, strict=True):
        steps = 1 if s.is_line and t.is_line else 400
        for i in range(steps):
            (u0, v0), (u1, v1) = s.point(i / steps), t.point(i / steps)
            corners.append(((1 - share) * u0 + share * u1, (1 - share) * v0 + share * v1))
    return shapely.Polygon(corners)


def _recess(eye: Any, x: float) -> Any:
    """Section at x of a round recess square to its floor: a strip of the disc's width there."""
    (at, y, z), (_, out_y, out_z) = eye.floor, eye.outward
    half = math.sqrt(eye.radius**2 - (x - at) ** 2)
    corners = [
        (y + up * -out_z * half + out * out_y, z + up * out_y * half + out * out_z)
        for up, out in ((-1, 0.0), (1, 0.0), (1, 4.0), (-1, 4.0))
    ]
    return shapely.Polygon(corners).buffer(0)
