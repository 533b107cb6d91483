"""The frog's views and sections. Part of ``sheets``."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Leader,
    Path,
    Pattern,
    Stroke,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    circle,
    cut,
    drill,
    figure,
    hidden,
    line,
    pocket,
    polygon,
    scribe,
    template,
)
from templates_gen.geometry.clip import above
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.seat import CORNER

#: A lean of the heel below this (mm) is not mentioned on the top view.
_LEANS = 0.05


@template(
    "frog-top",
    "Frog, top view",
    "Lay out the seat and the shank's bore on the top of the block.",
    "stick side up",
)
def top(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    start, end, half = d.heel_lean, d.params.length_top, d.params.width_top / 2
    at, r = d.seat.eyelet.from_heel, d.seat.eyelet.shank_diameter / 2
    path = polygon([(start, -half), (end, -half), (end, half), (start, half)])
    # As cut into the ebony: under a lining the floor is wider than the land the stick rests on.
    lining = d.seat.lining
    lands = [d.seat.land_at(x) / 2 + CORNER * lining for x in (start, end)]
    mouths = [d.seat.land_at(x) / 2 + d.seat.trench_height(x) for x in (start, end)]
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
        title += f", its top edge {start:.2f} ahead of its rearmost point"
    if lining:
        title += f"; floor {figure(lining)} under the land"
    return [View(title, strokes, dims)]


def _pair(x0: float, x1: float, at_start: float, at_end: float) -> list[Stroke]:
    return [scribe(line((x0, way * at_start), (x1, way * at_end))) for way in (1.0, -1.0)]


@template(
    "frog-bottom",
    "Frog, bottom view",
    "Lay out tongue, slide channel and hair mortise on the bottom of the block.",
    "hair side up",
)
def bottom(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    path, mortise = outline.bottom(p), outline.mortise_plan(p)
    left, low, right, _ = path.box
    x, rear = d.shoulder, d.channel_rear
    strokes = all_strokes(
        cut(path),
        # Shortened a little, so that its end is not drawn over the shoulder. Neither is a pocket to
        # cut out: one lies within the other.
        scribe(shortened(outline.channel_plan(p), 0.02)),
        scribe(mortise),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    wide = d.channel_width(x) / 2
    heel = d.half_width(0.0)
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
    """Shorten the channel's plan by a length (mm) at the shoulder; its taper stays."""
    (rear, narrow), (x, wide) = ((f(v[:2] for v in channel.vertices)) for f in (min, max))
    half = abs(wide) - by * (abs(wide) - abs(narrow)) / (x - rear)
    return Path(
        tuple((u - by, math.copysign(half, v), b) if u == x else (u, v, b)
              for u, v, b in channel.vertices)
    )  # fmt: skip


@template(
    "frog-front",
    "Frog, front view",
    "File the shoulder to the ferrule's outside and the tongue to its inside with this.",
    "stick side up",
)
def front(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    ferrule, tongue = outline.ferrule_d(p), outline.tongue(p)
    tip = above(outline.across(p, d.params.length_top), d.throat.tip_height)
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


@template(
    "frog-rear",
    "Frog, rear view",
    "Lay out the heel, its plate and the pins with this.",
    "stick side up",
)
def rear(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    path = outline.across(p, 0.0)
    left, _, right, high = path.box
    # The heights on the plate are measured along the heel, which leans.
    upright = math.cos(math.radians(d.heel.params.lean_deg))
    up = d.heel.params.rear_leg * upright
    half = d.flank.half_width(max(up, d.params.flank_band))
    strokes = all_strokes(cut(path), centre_line((0, -3), (0, high + 3)))
    dims: tuple[Dimension, ...] = (
        HorizontalDim((left, 0), (right, 0), -1),
        VerticalDim((left, 0), (left, high), -1),
        HorizontalDim(*_ends(d.params.width_top / 2, high), 1),
        VerticalDim((right, 0), (right, d.params.flank_band), 1, suffix=" band"),
    )
    if d.heel.plated:
        strokes += (scribe(line((-half, up), (half, up))),)
        pins, wide = [z * upright for z in d.heel.pin_heights], d.heel.params.pin_diameter
        for z in pins:
            strokes += drill((0.0, z), wide, arm=0.8)[:2]
        dims += (
            VerticalDim((right, 0), (half, up), 2, suffix=" plate"),
            *(VerticalDim((right, 0), (0.0, z), 3 + n) for n, z in enumerate(pins)),
            Leader((0.0, pins[1]), (-half - 4.0, pins[1] + 8.0), f"pins Ø{figure(wide)}"),
        )
    return [View("from the button: heel plate and its pins", strokes, dims)]


def _ends(half: float, z: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (-half, z), (half, z)


def _section(p: Pattern, x: float, title: str) -> list[View]:
    d = p.scalars(FrogDims)
    path = outline.across(p, x)
    left, _, right, high = path.box
    waist, z = d.params.width_waist / 2, d.flank.waist_height
    strokes = all_strokes(
        cut(path),
        _lining(d, x),
        centre_line((0, -3), (0, high + 3)),
    )
    floor = d.slide.params.thickness
    dims = (
        HorizontalDim((left, 0), (right, 0), -1),
        HorizontalDim((-waist, z), (waist, z), 1, suffix=" waist"),
        VerticalDim((left, 0), (-waist, z), -1, suffix=" waist"),
        VerticalDim((left, 0), (left, high), -2),
        VerticalDim((right, 0), (0, d.trench_floor(x)), 1, suffix=" to the seat"),
        VerticalDim((right, 0), (d.channel_width(x) / 2, floor), 2, suffix=" channel"),
    )
    heading = f"{title}, {x:.1f} from the heel; flank hollow R {figure(d.flank.radius)}"
    return [View(heading, strokes, dims)]


def _lining(d: FrogDims, x: float) -> list[Stroke]:
    """Draw the facets of the handle in a lined seat."""
    half, z = d.seat.land_at(x) / 2, d.seat.land_height(x)
    up = d.seat.trench_height(x)
    points = [(-half - up, z + up), (-half, z), (half, z), (half + up, z + up)]
    if not d.seat.lined:
        return []
    return [hidden(line(points[1], points[2]))]


@template(
    "frog-section-waist",
    "Frog, section at the waist",
    "Compare the flanks with this section, between throat and hair mortise.",
    "stick side up",
)
def waist(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    clear = d.mortise_front + 1.5 * d.params.lip_radius
    limit = min(d.run_out, d.throat.deepest)
    return _section(p, max((clear + limit) / 2, clear), "section at the waist")


@template(
    "frog-section-mortise",
    "Frog, section at the hair mortise",
    "Check the ebony round the hair mortise before you cut it.",
    "stick side up",
)
def mortise(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    rear_wall, at = d.params.hair_mortise_from_heel, d.seat.eyelet.from_heel
    x = (rear_wall + d.mortise_front) / 2
    shank = d.seat.eyelet.shank_diameter / 2
    if abs(x - at) <= shank + 0.2:
        x = at - shank - 0.5
    return _section(p, x, "section at the hair mortise")


@template(
    "frog-section-eyelet",
    "Frog, section at the eyelet",
    "Check the depth for the eyelet's shank before you drill.",
    "stick side up",
)
def eyelet(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    return _section(p, d.seat.eyelet.from_heel, "section at the eyelet")
