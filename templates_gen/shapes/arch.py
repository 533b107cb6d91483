"""The ferrule's arch: the stated curve is its neutral line, its faces parallels at half the wall.

Frame: x = 0 on the mid-plane, y = 0 on the top of the flat plate the arch is soldered to.
"""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, Point, Segment
from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.geometry.fit import ellipse, fit
from templates_gen.tolerances import SAME_POINT


class ArchKind(StrEnum):
    """The curve the arch is bent to."""

    HALF_ELLIPSE = "half-ellipse"
    HALF_CIRCLE = "half-circle"
    SEGMENT = "segment"
    FLAT_TOP = "flat-top"


def ellipse_perimeter(a: FloatOrArray, b: FloatOrArray) -> FloatOrArray:
    """Whole perimeter (mm) of an ellipse of semi-axes a, b; arrays are welcome.

    Source: the complete elliptic integral of the second kind by the arithmetic-geometric mean.
    """
    x, y = np.maximum(a, b) * 1.0, np.minimum(a, b) * 1.0
    big = x
    c2 = x * x - y * y
    total, power = c2 / 2, 0.5
    for _ in range(8):
        x, y, c2 = (x + y) / 2, np.sqrt(x * y), ((x - y) / 2) ** 2
        power *= 2
        total = total + power * c2
    return 2 * math.pi * (big * big - total) / x


def developed_length(
    kind: ArchKind,
    width: FloatOrArray,
    height: FloatOrArray,
    wall: FloatOrArray,
    corner: FloatOrArray,
) -> FloatOrArray:
    """Length (mm) of the arch's neutral line, foot to foot; arrays are welcome.

    Args:
        kind: the curve.
        width: outside width (mm).
        height: outside height above the plate (mm).
        wall: thickness of the sheet (mm).
        corner: outside corner radius (mm), of a flat top only.
    """
    a, b = (width - wall) / 2, height - wall / 2
    if kind is ArchKind.HALF_ELLIPSE:
        return ellipse_perimeter(a, b) / 2
    if kind is ArchKind.HALF_CIRCLE:
        return math.pi * a + 2 * (b - a)
    if kind is ArchKind.SEGMENT:
        radius = (a * a + b * b) / (2 * b)
        return 2 * radius * np.arctan2(a, radius - b)
    return 2 * (height - corner) + (width - 2 * corner) + math.pi * (corner - wall / 2)


def neutral(kind: ArchKind, width: float, height: float, wall: float, corner: float) -> Path:
    """The neutral line, open, from the right foot over the crown to the left one."""
    return _quarter_and_mirror(_right_half(kind, width, height, wall, corner))


def _right_half(
    kind: ArchKind, width: float, height: float, wall: float, corner: float
) -> list[Segment]:
    a, b = (width - wall) / 2, height - wall / 2
    if kind is ArchKind.HALF_ELLIPSE:
        return list(fit(ellipse(a, b, 0.0, math.pi / 2)).path.segments)
    pen = Pen((a, 0.0))
    if kind is ArchKind.HALF_CIRCLE:
        pen.line_to(a, b - a).arc_to((0.0, b), (0.0, b - a), left=True)
    elif kind is ArchKind.SEGMENT:
        radius = (a * a + b * b) / (2 * b)
        pen.arc_to((0.0, b), (0.0, b - radius), left=True)
    else:
        r = corner - wall / 2
        pen.line_to(a, b - r).arc_to((a - r, b), (a - r, b - r), left=True).line_to(0.0, b)
    return list(pen.open().segments)


def _quarter_and_mirror(right: list[Segment]) -> Path:
    """Both halves; a piece level at the crown runs through as one."""
    left = [Segment((-s.end[0], s.end[1]), (-s.start[0], s.start[1]), s.bulge) for s in right]
    if right[-1].is_line:
        middle = Segment(right[-1].start, left[-1].end)
        return Path.from_segments([*right[:-1], middle, *left[-2::-1]], closed=False)
    return Path.from_segments([*right, *left[::-1]], closed=False)


def parallel(of: Path, distance: float) -> Path:
    """The parallel of a smooth open arch, outward if positive, standing on the plate.

    Raises:
        GeometryError: an inner face would need a radius of nothing.
    """
    pieces = []
    for s in of.segments:
        (x0, y0), (x1, y1) = _aside(s, 0.0, distance), _aside(s, 1.0, distance)
        if not s.is_line and s.bulge > 0 and s.radius + distance <= 0:
            raise GeometryError("the wall is thicker than the arch is round", s.point(0.5))
        pieces.append(Segment((x0, y0), (x1, y1), s.bulge))
    # Neighbours are tangent, so their ends agree; the later start is dropped.
    feet = [_to_plate(pieces[0], at_start=True), *pieces[1:-1], _to_plate(pieces[-1], False)]
    if len(pieces) == 1:
        feet = [_to_plate(_to_plate(pieces[0], True), False)]
    return Path.from_segments(feet, closed=False)


def _aside(piece: Segment, t: float, distance: float) -> Point:
    x, y = piece.point(t)
    tx, ty = piece.tangent(t)
    return (x + ty * distance, y - tx * distance)


def _to_plate(piece: Segment, at_start: bool) -> Segment:
    """Lengthen or shorten a foot to y = 0; only a segment's feet are not square to the plate."""
    end = piece.start if at_start else piece.end
    if piece.is_line or abs(end[1]) < SAME_POINT:
        foot = (end[0], 0.0)
        a, b = (foot, piece.end) if at_start else (piece.start, foot)
        return Segment(a, b, piece.bulge)
    (cx, cy), r = piece.centre, piece.radius
    if abs(cy) >= r:
        raise GeometryError("the arch does not reach the plate", end)
    foot = (cx + math.copysign(math.sqrt(r * r - cy * cy), end[0]), 0.0)
    a, b = (foot, piece.end) if at_start else (piece.start, foot)
    turn = 2 * math.asin(min(1.0, math.hypot(b[0] - a[0], b[1] - a[1]) / (2 * r)))
    return Segment(a, b, math.tan(turn / 4))


def d_outline(arch_outer: Path, width: float, plate: float) -> Path:
    """The ferrule's outside: the arch standing on a plate as wide as the ferrule.

    A segment's feet lean out past the plate by some hundredths; they are filed flush with it.
    """
    arch_outer = _flush(arch_outer, width / 2)
    pen = Pen((-width / 2, 0.0)).line_to(-width / 2, -plate)
    pen.line_to(width / 2, -plate).line_to(width / 2, 0.0).line_to(*arch_outer.start)
    for s in arch_outer.segments:
        pen.bulge_to(s.end, s.bulge)
    return pen.close()


def _flush(arch_outer: Path, half: float) -> Path:
    """The arch with what stands out past the plate on either side filed away."""
    pieces = list(arch_outer.segments)
    if pieces[0].start[0] <= half + SAME_POINT:
        return arch_outer
    (_, cy), r = pieces[0].centre, pieces[0].radius
    level = cy + math.sqrt(r * r - half * half)
    right, left = (half, level), (-half, level)
    if len(pieces) == 1:
        turn = 2 * math.asin(half / r)
        return Path(((*right, math.tan(turn / 4)), (*left, 0.0)), closed=False)
    start = pieces[0].part(pieces[0].nearest(right), 1.0)
    end = pieces[-1].part(0.0, pieces[-1].nearest(left))
    return Path.from_segments([start, *pieces[1:-1], end], closed=False)


def inside(arch_inner: Path) -> Path:
    """The ferrule's clear opening: the arch's inner face closed by the plate."""
    pen = Pen(arch_inner.start)
    for s in arch_inner.segments:
        pen.bulge_to(s.end, s.bulge)
    return pen.close()
