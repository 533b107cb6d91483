"""The frog's outlines, in the frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, Point, Segment, polygon
from templates_gen.geometry.clip import above, beneath
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes import arch, dovetail, seat
from templates_gen.shapes.trapezoid import trapezoid
from templates_gen.tolerances import SAME_POINT


def side(p: Pattern) -> Path:
    """Draw the frog from the side, tongue included; x toward the head, y of the path is z."""
    d = p.scalars(FrogDims)
    start = d.heel.params.bottom_radius
    pen = Pen((start, 0.0)).line_to(d.shoulder, 0.0)
    throat(d, _tongue(d, pen))
    _round_the_top(d, pen, d.heel.setback)
    return pen.arc_to((start, 0.0), (start, start), left=True).close()


def _round_the_top(d: FrogDims, pen: Pen, down_to: float) -> Pen:
    """Draw from the throat round the thumb's tip, along the edges and down the heel to a height.

    Args:
        down_to: where to stop: distance (mm) up the heel's rear face from its sharp corner.
    """
    s, top = d.params, d.params.overall_height
    tip, round_tip = s.length_top, s.thumb_tip_thickness / 2
    pen.line_to(tip, d.throat.tip_height).fillet(round_tip)
    pen.line_to(tip, top).fillet(round_tip)
    pen.line_to(d.heel_lean, top).fillet(d.heel.params.top_radius)
    return pen.line_to(*on_heel(d, down_to, 0.0))


def on_heel(d: FrogDims, up: float, within: float) -> Point:
    """Return the point at a distance (mm) up the heel's rear face and a depth within it."""
    lean, corner = math.radians(d.heel.params.lean_deg), d.heel.corner
    x = corner + up * math.sin(lean) + within * math.cos(lean)
    return (x, up * math.cos(lean) - within * math.sin(lean))


def _tongue(d: FrogDims, pen: Pen) -> Pen:
    """Draw from the shoulder's foot round the tongue up to the throat."""
    shoulder, front = d.shoulder, d.tongue_front
    low, high = d.tongue_bottom, d.tongue_top
    pen.line_to(shoulder, low).line_to(front, low).line_to(front, high)
    return pen.line_to(shoulder, high).line_to(shoulder, d.ferrule.params.height)


def throat(d: FrogDims, pen: Pen) -> Pen:
    t = d.throat
    lower, upper, back = t.lower_radius, t.upper_radius, t.deepest
    join = (t.joins_thumb[0], t.joins_thumb[1])
    if t.rise <= 0 or upper <= 0 or join[0] >= t.tip:
        raise GeometryError("the throat does not fit between ferrule and thumb projection", join)
    low, high = t.low, t.high
    pen.arc_to((back, low), (back + lower, low), left=False).line_to(back, high)
    return pen.arc_to(join, (back + upper, high), left=False)


def middle(p: Pattern) -> Path:
    """Draw the section along the mid-plane: mortise, channel, lip, seat and the eyelet's bore."""
    d = p.scalars(FrogDims)
    floor = d.slide.params.thickness
    rear, front, top = d.params.hair_mortise_from_heel, d.mortise_front, d.mortise_top
    pen = _behind_channel(d)
    pen.line_to(rear, floor).line_to(rear, top).line_to(front, top)
    pen.line_to(front, floor).fillet(d.params.lip_radius)
    pen.line_to(d.shoulder, d.tongue_bottom)
    throat(d, _tongue(d, pen))
    ahead, behind = _beside_seat(d, pen.at)
    for piece in ahead:
        pen.bulge_to(piece.end, piece.bulge)
    at, r = d.seat.eyelet.from_heel, d.seat.eyelet.shank_diameter / 2
    for x in (at + r, at - r):
        heights = [d.trench_floor(x), d.shank_end]
        for z in heights if x > at else heights[::-1]:
            pen.line_to(x, z)
    pen.line_to(*behind[0].start)
    for piece in behind:
        pen.bulge_to(piece.end, piece.bulge)
    return _round_heel(d, pen)


def _beside_seat(d: FrogDims, start: Point) -> tuple[list[Segment], list[Segment]]:
    """Cut the outline round thumb tip and heel at the floor of the seat, roundings included.

    Args:
        start: the end of the throat (mm).
    """
    foot = d.heel.params.rear_leg if d.heel.plated else d.heel.setback
    whole = _round_the_top(d, Pen(start), foot).open()
    z0, z1 = d.trench_floor(0.0), d.trench_floor(1.0)
    kept = beneath(whole.segments, (0.0, z0), z1 - z0)
    gap = next((i for i in range(1, len(kept)) if kept[i].start != kept[i - 1].end), 0)
    if not gap:
        raise GeometryError("the seat's floor does not pass between thumb tip and heel", start)
    return kept[:gap], kept[gap:]


def _behind_channel(d: FrogDims) -> Pen:
    """Draw from the heel's foot along the bottom to the closed end of the channel."""
    leg, sheet = d.heel.params.leg_length, d.heel.params.plate_thickness
    rear, floor = d.channel_rear, d.slide.params.thickness
    if not d.heel.plated:
        return Pen((d.heel.params.bottom_radius, 0.0)).line_to(rear, 0.0).line_to(rear, floor)
    if rear <= leg + SAME_POINT:
        return Pen((rear, sheet)).line_to(rear, floor)
    return Pen((leg, sheet)).line_to(leg, 0.0).line_to(rear, 0.0).line_to(rear, floor)


def _round_heel(d: FrogDims, pen: Pen) -> Path:
    """Draw from the heel, or its plate's upper edge, round its foot, inside the plate."""
    h = d.heel.params
    back, r = d.heel.setback, h.bottom_radius
    if not d.heel.plated:
        return pen.arc_to((r, 0.0), (r, r), left=True).close()
    sheet = h.plate_thickness
    for place in (on_heel(d, h.rear_leg, sheet), on_heel(d, back, sheet)):
        pen.line_to(*place)
    if r - sheet > 1e-6:
        pen.arc_to((r, sheet), (r, r), left=True)
    return pen.close()


def across(p: Pattern, x: float) -> Path:
    """Draw the section across at x (mm from the heel), leaving out heel plate and throat."""
    d = p.scalars(FrogDims)
    centre, _ = d.flank.circle()
    right = [*_bottom_half(d, x)]
    half, z = _foot_of_hollow(d, x)
    edge, high = d.params.width_top / 2, d.params.overall_height
    pen = Pen(right[0])
    for q in right[1:]:
        pen.line_to(*q)
    pen.line_to(half, z)
    notch = _eye_notch(d, x)
    for i, q in enumerate(notch):
        if i == 0:
            pen.arc_to(q, centre, left=False)
        pen.line_to(*q)
    pen.arc_to((edge, high), centre, left=False)
    top = _top_half(d, p, x)
    for q in (*top, *((-u, v) for u, v in top[::-1])):
        pen.line_to(*q)
    pen.line_to(-edge, high)
    for i, (u, v) in enumerate(notch[::-1]):
        if i == 0:
            pen.arc_to((-u, v), (-centre[0], centre[1]), left=False)
        pen.line_to(-u, v)
    pen.arc_to((-half, z), (-centre[0], centre[1]), left=False)
    for u, v in right[::-1]:
        pen.line_to(-u, v)
    return pen.close()


def _foot_of_hollow(d: FrogDims, x: float) -> Point:
    """Find where the hollow of the flank begins at x: on the block's side or the bottom plane."""
    block, f = d.half_width(x), d.flank
    lowest = f.half_width(0.0) if f.radius > f.waist_height else math.inf
    if block >= lowest:
        return lowest, 0.0
    return block, f.meets(block)


def _bottom_half(d: FrogDims, x: float) -> list[Point]:
    """List the corners along the bottom, mid-plane to flank: mortise or lip, and channel."""
    floor, half = d.slide.params.thickness, _foot_of_hollow(d, x)[0]
    if x < d.channel_rear:
        return [(0.0, 0.0), (half, 0.0)]
    wall = d.params.hair_mortise_width / 2
    points: list[Point] = [(0.0, floor)]
    if x > d.params.hair_mortise_from_heel:
        top = d.lip_height(x) if x > d.mortise_front else d.mortise_top
        points = [(0.0, top), (wall, top), (wall, floor)]
    face = d.channel_width(x) / 2
    deep = d.slide.floor(d.channel_width(x)) / 2
    return [*points, (deep, floor), (face, 0.0), (half, 0.0)]


def _eye_notch(d: FrogDims, x: float) -> list[Point]:
    """List the corners of the eye's recess in the right flank at x; none beside the eye."""
    r, away = d.params.eye_diameter / 2, abs(x - d.eye[0])
    if not d.has_eye or away >= r:
        return []
    half, lean = math.sqrt(r * r - away * away), d.eye_lean
    (y, z), big = d.eye_floor, d.flank.radius
    # From the floor out to the hollow along the axis of the eye, past the curve of the hollow.
    rim = big + d.params.eye_thickness - math.sqrt(big * big - half * half)
    points = []
    for along, out in ((-half, rim), (-half, 0.0), (half, 0.0), (half, rim)):
        u = y - along * math.sin(lean) + out * math.cos(lean)
        points.append((u, z + along * math.cos(lean) + out * math.sin(lean)))
    return points


def _top_half(d: FrogDims, p: Pattern, x: float) -> list[Point]:
    """List the corners from the right edge down the seat to the mid-plane, shank bore included."""
    high = d.params.overall_height
    vertices = [v[:2] for v in trench(p, x).vertices]
    right = [q for q in sorted(vertices, key=lambda q: -q[1]) if q[0] > 0]
    # The trench is drawn a little above the edges; its diagonals cross them at 45°.
    points = [(right[0][0] - (right[0][1] - high), high), *right[1:]]
    at, r = d.seat.eyelet.from_heel, d.seat.eyelet.shank_diameter / 2
    if abs(x - at) < r:
        wide = math.sqrt(r * r - (x - at) ** 2)
        points += [(wide, d.trench_floor(x)), (wide, d.shank_end)]
    return points


def trench(p: Pattern, x: float) -> Path:
    """Draw the section cut away on top for stick and lining, at x (mm from the heel)."""
    d = p.scalars(FrogDims).seat
    if d.trench_height(x) <= 0.0 or d.stop_at(x) <= 0.0:
        raise GeometryError("the edges do not stand above the seat", (x, d.land_height(x)))
    # A little above the edges, so that the cut leaves no thin skin.
    cut = seat.trench(d.land_at(x), d.trench_height(x) + 1.0, d.lining, d.stop_at(x))
    return cut.moved(0.0, d.land_height(x))


def ferrule_d(p: Pattern, beyond: float = 0.0) -> Path:
    """Draw the section of the ferrule's outside, or its offset by ``beyond`` (mm)."""
    f = p.scalars(FrogDims).ferrule
    s, wall = f.params, f.params.arch_thickness
    wide, plate = s.outer_width + 2 * beyond, s.plate_thickness
    outer = arch.parallel(_neutral(p), wall / 2 + beyond)
    return arch.d_outline(outer, wide, plate + beyond).moved(0.0, plate)


def tongue(p: Pattern) -> Path:
    """Draw the section of the tongue at the shoulder: the ferrule's opening less the fit."""
    d = p.scalars(FrogDims)
    f = d.ferrule.params
    inner = arch.parallel(_neutral(p), -(f.arch_thickness + f.tongue_fit) / 2)
    opening = arch.inside(inner).moved(0.0, f.plate_thickness)
    return above(opening, d.tongue_bottom)


def _neutral(p: Pattern) -> Path:
    f = p.scalars(FrogDims).ferrule
    s = f.params
    return arch.neutral(
        s.arch_kind,
        s.outer_width,
        f.arch_height,
        s.arch_thickness,
        s.arch_corner_radius,
    )


def channel(p: Pattern, x: float) -> Path:
    """Draw the slide's channel across at x (mm from the heel), its face at z = 0."""
    d = p.scalars(FrogDims)
    s = d.slide.params
    return dovetail.section(d.channel_width(x), s.thickness, s.dovetail_deg)


def bottom(p: Pattern) -> Path:
    """Draw the frog from below, with its tongue."""
    d = p.scalars(FrogDims)
    heel, shoulder = d.half_width(0.0), d.half_width(d.shoulder)
    x, front = d.shoulder, d.tongue_front
    beside = tongue(p).box[2]
    slope = d.ferrule.params.tongue_taper / 2 / d.ferrule.params.length
    corners = [(0.0, -heel), (x, -shoulder), (x, -beside)]
    corners.append((front, -beside + (front - x) * slope))
    return polygon([*corners, *((u, -v) for u, v in corners[::-1])])


def channel_plan(p: Pattern) -> Path:
    """Draw the slide's channel at the bottom plane."""
    d = p.scalars(FrogDims)
    ends = (d.channel_rear, d.shoulder)
    return trapezoid(*ends, *(d.channel_width(x) for x in ends))


def mortise_plan(p: Pattern) -> Path:
    """Draw the hair mortise from below."""
    d = p.scalars(FrogDims)
    half = d.params.hair_mortise_width / 2
    rear, front = d.params.hair_mortise_from_heel, d.mortise_front
    return polygon([(rear, -half), (front, -half), (front, half), (rear, half)])


def dummy(p: Pattern) -> Path:
    """Draw the dummy frog from the side; its foot lies where the hair will."""
    d = p.scalars(FrogDims)
    hair, top = d.ferrule.params.plate_thickness, d.params.clear_height
    end, notch = d.params.length_bottom, 1.0
    pen = Pen((0.0, hair)).line_to(end - 2 * notch, hair)
    pen.line_to(end - 2 * notch, hair + notch).line_to(end, hair + notch)
    return pen.line_to(end, top).line_to(0.0, top).close()
