"""The ferrule's arch: neutral line, inner and outer faces, developed length.

The stated curve is the neutral line; the faces are offset from it by half the wall.

Frame: x = 0 on the mid-plane, y = 0 on the top of the flat plate the arch is soldered to.
"""

from __future__ import annotations

import math
from enum import StrEnum

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import FloatOrArray, Path, Pen, Segment
from templates_gen.geometry.fit import ellipse, fit
from templates_gen.geometry.offset import offset_point
from templates_gen.tolerances import SAME_POINT


class ArchKind(StrEnum):
    """Curve of the arch's neutral line."""

    HALF_ELLIPSE = "half-ellipse"
    HALF_CIRCLE = "half-circle"
    SEGMENT = "segment"
    FLAT_TOP = "flat-top"


def ellipse_perimeter(a: FloatOrArray, b: FloatOrArray) -> FloatOrArray:
    """Calculate the perimeter (mm) of an ellipse from its semi-axes (mm), as numbers or arrays.

    Source: complete elliptic integral of the second kind by the arithmetic-geometric mean.
    """
    x, y = np.maximum(a, b) * 1.0, np.minimum(a, b) * 1.0
    longer = x
    c2 = x * x - y * y
    total, power = c2 / 2, 0.5
    for _ in range(8):
        x, y, c2 = (x + y) / 2, np.sqrt(x * y), ((x - y) / 2) ** 2
        power *= 2
        total = total + power * c2
    return 2 * math.pi * (longer * longer - total) / x


def developed_length(
    kind: ArchKind,
    width: FloatOrArray,
    height: FloatOrArray,
    wall: FloatOrArray,
    corner: FloatOrArray,
) -> FloatOrArray:
    """Calculate the developed length (mm) of the arch's neutral line, as numbers or arrays.

    Args:
        kind: the curve.
        width: outside width (mm).
        height: outside height above the plate (mm).
        wall: thickness of the sheet (mm).
        corner: outside corner radius (mm), used for a flat top only.
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


def neutral_line(kind: ArchKind, width: float, height: float, wall: float, corner: float) -> Path:
    """Draw the neutral line as an open path from the right foot over the crown to the left foot.

    Args: as for ``developed_length``, numbers only.
    """
    return _with_mirror_image(_right_half(kind, width, height, wall, corner))


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


def _with_mirror_image(right: list[Segment]) -> Path:
    """Add the left half; a horizontal line at the crown becomes one line."""
    left = [Segment((-s.end[0], s.end[1]), (-s.start[0], s.start[1]), s.bulge) for s in right]
    if right[-1].is_line:
        middle = Segment(right[-1].start, left[-1].end)
        return Path.from_segments([*right[:-1], middle, *left[-2::-1]], closed=False)
    return Path.from_segments([*right, *left[::-1]], closed=False)


def offset_face(of: Path, distance: float) -> Path:
    """Offset a smooth open arch and extend or trim its feet to the plate.

    Args:
        of: the neutral line.
        distance: mm, outward if positive.

    Raises:
        GeometryError: an inner radius would not be positive.
    """
    pieces = []
    for s in of.segments:
        if not s.is_line and s.bulge > 0 and s.radius + distance <= 0:
            raise GeometryError("the wall is thicker than the arch's radius", s.point(0.5))
        start, end = (offset_point(s, t, distance) for t in (0.0, 1.0))
        pieces.append(Segment(start, end, s.bulge))
    # Neighbours are tangent, so their ends coincide.
    pieces[0] = _to_plate(pieces[0], at_start=True)
    pieces[-1] = _to_plate(pieces[-1], at_start=False)
    return Path.from_segments(pieces, closed=False)


def _to_plate(piece: Segment, at_start: bool) -> Segment:
    """Extend or trim a foot to y = 0; only the feet of a circular segment are oblique there."""
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


def ferrule_outline(arch_outer: Path, width: float, plate: float) -> Path:
    """Draw the ferrule's outside: the arch on a plate as wide as the ferrule.

    The feet of a circular segment project past the plate by some hundredths of a millimetre; they
    are filed flush with it.

    Args:
        arch_outer: outer face of the arch.
        width: outside width (mm).
        plate: thickness of the plate (mm).
    """
    arch_outer = _flush(arch_outer, width / 2)
    pen = Pen((-width / 2, 0.0)).line_to(-width / 2, -plate)
    pen.line_to(width / 2, -plate).line_to(width / 2, 0.0).line_to(*arch_outer.start)
    for s in arch_outer.segments:
        pen.bulge_to(s.end, s.bulge)
    return pen.close()


def _flush(arch_outer: Path, half: float) -> Path:
    """File the feet of the arch flush with the plate's sides (half its width, mm)."""
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


def opening(arch_inner: Path) -> Path:
    """Draw the ferrule's opening: the arch's inner face closed by the plate."""
    return Path(arch_inner.vertices).oriented()
