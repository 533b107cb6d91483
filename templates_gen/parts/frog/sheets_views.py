"""The frog's views and sections. Part of ``sheets``."""

from __future__ import annotations

import math

from templates_gen.drawing.sheet import Stroke
from templates_gen.drawing.template import Template, Views, named
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import (
    Dimension,
    HorizontalDim,
    Leader,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    hidden,
    line,
    pocket,
    scribe,
)
from templates_gen.geometry import Path, circle, polygon
from templates_gen.geometry.clip import clip_above
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.seat import CORNER
from templates_gen.shapes.trapezoid import trapezoid

#: A heel that leans less than this (mm) at its top is upright to the hand.
_LEANS = 0.05


def top(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    start, end, half = float(d.heel_lean), float(d.params.length_top), float(d.params.width_top) / 2
    at, r = float(d.seat.eyelet.from_heel), float(d.seat.eyelet.shank_diameter) / 2
    path = polygon([(start, -half), (end, -half), (end, half), (start, half)])
    # What is cut into the ebony: under a lining its floor is wider than the land the stick meets.
    lining = float(d.seat.lining)
    lands = [float(d.seat.land_at(x)) / 2 + CORNER * lining for x in (start, end)]
    mouths = [float(d.seat.land_at(x)) / 2 + float(d.seat.trench_height(x)) for x in (start, end)]
    strokes = all_strokes(
        cut(path),
        *(_pair(start, end, a, b) for a, b in (tuple(lands), tuple(mouths))),
        scribe(circle((at, 0.0), r)),
        centre_line((start - 3, 0), (end + 3, 0)),
        centre_line((at, -r - 1), (at, r + 1)),
    )
    dims = (
        HorizontalDim((start, -half), (at, 0.0), -1, suffix=" shank"),
        HorizontalDim((start, -half), (end, -half), -2),
        VerticalDim((start, -half), (start, half), -1),
        VerticalDim((end, -mouths[1]), (end, mouths[1]), 1),
        VerticalDim((end, -lands[1]), (end, lands[1]), 2, suffix=" floor" if lining else " land"),
    )
    title = "from the stick's side; heel left"
    if start > _LEANS:
        title += f", its top edge {start:.2f} ahead of its rearmost place"
    if lining:
        title += f"; floor {figure(lining)} under the land"
    return [View(title, strokes, dims)]


def _pair(x0: float, x1: float, at_start: float, at_end: float) -> list[Stroke]:
    return [scribe(line((x0, way * at_start), (x1, way * at_end))) for way in (1.0, -1.0)]


def bottom_outline(p: Pattern) -> Path:
    """The frog from below, with its tongue."""
    d = p.derive(FrogDims)
    heel, shoulder = float(d.half_width(0.0)), float(d.half_width(d.shoulder))
    x, front = float(d.shoulder), float(d.tongue_front)
    tongue = outline.tongue(p).box[2]
    slope = float(d.ferrule.params.tongue_taper) / 2 / float(d.ferrule.params.length)
    corners = [(0.0, -heel), (x, -shoulder), (x, -tongue)]
    corners.append((front, -tongue + (front - x) * slope))
    return polygon([*corners, *((u, -v) for u, v in corners[::-1])])


def channel_plan(p: Pattern) -> Path:
    """The slide's channel at the bottom plane."""
    d = p.derive(FrogDims)
    ends = (float(d.channel_rear), float(d.shoulder))
    return trapezoid(*ends, *(float(d.channel_width(x)) for x in ends))


def mortise_plan(p: Pattern) -> Path:
    """The hair mortise from below."""
    d = p.derive(FrogDims)
    half = float(d.params.hair_mortise_width) / 2
    rear, front = float(d.params.hair_mortise_from_heel), float(d.mortise_front)
    return polygon([(rear, -half), (front, -half), (front, half), (rear, half)])


def bottom(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    path, mortise = bottom_outline(p), mortise_plan(p)
    left, low, right, _ = path.box
    x, rear = float(d.shoulder), float(d.channel_rear)
    strokes = all_strokes(
        cut(path),
        # Ended a hair early, so that its end is not drawn over the shoulder. Neither is a window:
        # the one lies within the other.
        scribe(shortened(channel_plan(p), 0.02)),
        scribe(mortise),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    wide = float(d.channel_width(x)) / 2
    heel = float(d.half_width(0.0))
    dims = (
        HorizontalDim((0, low), (mortise.box[0], mortise.box[1]), -1),
        HorizontalDim((mortise.box[0], mortise.box[1]), (mortise.box[2], mortise.box[1]), -2),
        HorizontalDim((0, low), (x, low), -3),
        HorizontalDim((0, -low), (rear, wide), 1, suffix=" heel leg"),
        VerticalDim((0, -heel), (0, heel), -1),
        VerticalDim((x, low), (x, -low), -2, suffix=" shoulder"),
        HorizontalDim((x, low), (right, 0.0), -4, suffix=" tongue"),
        VerticalDim((x, -wide), (x, wide), 1, suffix=" channel"),
        VerticalDim((mortise.box[2], mortise.box[1]), (mortise.box[2], mortise.box[3]), 2),
    )
    return [View("from the hair's side; heel left", strokes, dims)]


def shortened(channel: Path, by: float) -> Path:
    """The channel's plan ended so much (mm) behind the shoulder, its sides as they taper."""
    (rear, narrow), (x, wide) = ((f(v[:2] for v in channel.vertices)) for f in (min, max))
    half = abs(wide) - by * (abs(wide) - abs(narrow)) / (x - rear)
    return Path(
        tuple((u - by, math.copysign(half, v), b) if u == x else (u, v, b)
              for u, v, b in channel.vertices)
    )  # fmt: skip


def front(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    ferrule, tongue = outline.ferrule_d(p), outline.tongue(p)
    tip = clip_above(outline.across(p, float(d.params.length_top)), float(d.throat.tip_height))
    left, _, right, high = ferrule.box
    strokes = all_strokes(
        cut(ferrule), pocket(tongue), cut(tip), centre_line((0, -3), (0, tip.box[3] + 3))
    )
    dims = (
        HorizontalDim((left, 0), (right, 0), -1),
        HorizontalDim(
            (tongue.box[0], tongue.box[1]), (tongue.box[2], tongue.box[1]), -2, suffix=" tongue"
        ),
        HorizontalDim((tip.box[0], tip.box[3]), (tip.box[2], tip.box[3]), 1),
        VerticalDim((left, 0), (0, high), -1),
        VerticalDim((left, 0), (tongue.box[0], tongue.box[1]), -2, suffix=" step"),
        VerticalDim((right, tongue.box[1]), (0, tongue.box[3]), 1, suffix=" tongue"),
    )
    return [View("from the head: shoulder, tongue, thumb projection", strokes, dims)]


def rear(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    path = outline.across(p, 0.0)
    left, _, right, high = path.box
    # The plate's heights count along the heel, which leans.
    upright = math.cos(math.radians(float(d.heel.params.lean_deg)))
    up = float(d.heel.params.rear_leg) * upright
    half = float(d.flank.half_width(max(up, float(d.params.flank_band))))
    strokes = all_strokes(cut(path), centre_line((0, -3), (0, high + 3)))
    dims: tuple[Dimension, ...] = (
        HorizontalDim((left, 0), (right, 0), -1),
        VerticalDim((left, 0), (left, high), -1),
        HorizontalDim(*_ends(float(d.params.width_top) / 2, high), 1),
        VerticalDim((right, 0), (right, float(d.params.flank_band)), 1, suffix=" band"),
    )
    if d.heel.plated:
        strokes += (scribe(line((-half, up), (half, up))),)
        pins, wide = [float(z) * upright for z in d.heel.pin_heights], d.heel.params.pin_diameter
        for z in pins:
            strokes += drill((0.0, z), float(wide), arm=0.8)[:2]
        dims += (
            VerticalDim((right, 0), (half, up), 2, suffix=" plate"),
            *(VerticalDim((right, 0), (0.0, z), 3 + n) for n, z in enumerate(pins)),
            Leader((0.0, pins[1]), (-half - 4.0, pins[1] + 8.0), f"pins Ø{figure(float(wide))}"),
        )
    return [View("from the button: heel plate and its pins", strokes, dims)]


def _ends(half: float, z: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (-half, z), (half, z)


def _section(p: Pattern, x: float, title: str) -> list[View]:
    d = p.derive(FrogDims)
    path = outline.across(p, x)
    left, _, right, high = path.box
    waist, z = float(d.params.width_waist) / 2, float(d.flank.waist_height)
    strokes = all_strokes(
        cut(path),
        _lining(d, x),
        centre_line((0, -3), (0, high + 3)),
    )
    floor = float(d.slide.params.thickness)
    dims = (
        HorizontalDim((left, 0), (right, 0), -1),
        HorizontalDim((-waist, z), (waist, z), 1, suffix=" waist"),
        VerticalDim((left, 0), (-waist, z), -1, suffix=" waist"),
        VerticalDim((left, 0), (left, high), -2),
        VerticalDim((right, 0), (0, float(d.trench_floor(x))), 1, suffix=" to the seat"),
        VerticalDim((right, 0), (float(d.channel_width(x)) / 2, floor), 2, suffix=" channel"),
    )
    told = f"{title}, {x:.1f} from the heel; flank hollowed to R {figure(float(d.flank.radius))}"
    return [View(told, strokes, dims)]


def _lining(d: FrogDims, x: float) -> list[Stroke]:
    """The handle's facets, which the seat carries."""
    half, z = float(d.seat.land_at(x)) / 2, float(d.seat.land_height(x))
    up = float(d.seat.trench_height(x))
    points = [(-half - up, z + up), (-half, z), (half, z), (half + up, z + up)]
    if not d.seat.lined:
        return []
    return [hidden(line(points[1], points[2]))]


def waist(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    clear = float(d.mortise_front) + 1.5 * float(d.params.lip_radius)
    limit = float(min(d.run_out, d.throat.deepest))
    return _section(p, max((clear + limit) / 2, clear), "section at the waist")


def mortise(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    rear_wall, at = float(d.params.hair_mortise_from_heel), float(d.seat.eyelet.from_heel)
    x = (rear_wall + float(d.mortise_front)) / 2
    shank = float(d.seat.eyelet.shank_diameter) / 2
    if abs(x - at) <= shank + 0.2:
        x = at - shank - 0.5
    return _section(p, x, "section at the hair mortise")


def eyelet(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    return _section(p, float(d.seat.eyelet.from_heel), "section at the eyelet")


def _template(name: str, title: str, purpose: str, up: str, views: Views) -> Template:
    return named("frog", name, f"Frog, {title}", purpose, up, views)


TEMPLATES = (
    _template(
        "top",
        "top view",
        "Lay out the seat and the shank's bore on the top of the block.",
        "stick side up",
        top,
    ),
    _template(
        "bottom",
        "bottom view",
        "Lay out block, tongue, slide channel and hair mortise on the bottom of the block.",
        "hair side up",
        bottom,
    ),
    _template(
        "front",
        "front view",
        "File the shoulder to the ferrule's outside, the tongue to its inside, with this.",
        "stick side up",
        front,
    ),
    _template(
        "rear",
        "rear view",
        "Lay out the heel, its plate and the pins with this.",
        "stick side up",
        rear,
    ),
    _template(
        "section-waist",
        "section at the waist",
        "Compare the flanks with this section between throat and hair mortise.",
        "stick side up",
        waist,
    ),
    _template(
        "section-mortise",
        "section at the hair mortise",
        "See what ebony stands round the hair mortise before it is cut.",
        "stick side up",
        mortise,
    ),
    _template(
        "section-eyelet",
        "section at the eyelet",
        "See how deep the eyelet's shank may be bored before it is drilled.",
        "stick side up",
        eyelet,
    ),
)
