"""The frog's gauges and scribing cards. Part of ``sheets``."""

from __future__ import annotations

from templates_gen.drawing.template import Template
from templates_gen.drawing.view import (
    Leader,
    Level,
    Radius,
    Upright,
    View,
    Word,
    all_strokes,
    centre_line,
    cut,
    drill,
    line,
    pocket,
    scribe,
)
from templates_gen.geometry import Pen, circle, polygon
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.sheets_views import channel_plan, mortise_plan, shortened
from templates_gen.shapes.octagon import FACET
from templates_gen.shapes.trapezoid import trapezoid


def flank(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    f = d.flank
    low, high = float(f.band), float(f.edge)
    heel, edge, back = float(f.heel), float(f.top), float(f.heel) + 14.0
    centre, r = f.circle()
    pen = Pen((heel, 0.0)).line_to(back, 0.0).line_to(back, high).line_to(edge, high)
    path = pen.arc_to((heel, low), centre, left=True).close()
    dims = (
        Upright((heel, 0), (heel, low), -1, suffix=" band"),
        Upright((heel, 0), (edge, high), -2),
        Radius(centre, r, 180.0, reach=-r * 0.12),
    )
    title = "lay its straight foot on the bench, its round edge in the flank"
    return [View(title, all_strokes(cut(path)), dims)]


def seat(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    at = float(d.seat.eyelet.from_heel)
    half = float(d.seat.across_flats(at)) / 2
    # The handle's lower half, with a grip above; the land must stay clear of its facet.
    facet, tall = half * FACET, half + 18.0
    corners = [(facet, 0.0), (half, half - facet), (half, tall)]
    path = polygon([*corners, *((-u, v) for u, v in corners[::-1])])
    strokes = all_strokes(cut(path), scribe(line((-half, half), (half, half))))
    dims = (
        Level((-facet, 0.0), (facet, 0.0), -1, suffix=" facet"),
        Level((-half, tall), (half, tall), 1, suffix=" across flats"),
        Upright((half, 0.0), (half, half), 1, suffix=" to the axis"),
        Leader((-facet - 0.3, 0.3), (-half - 4, -3), "135° ± 0.5°"),
    )
    title = f"the handle at the eyelet, {at:g} from the heel; twist to the head at most 0.5°"
    return [View(title, strokes, dims)]


def notches(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    # Its prong lies on the land, which is a little lower than the facet and lowest at the heel.
    long, tall = float(d.stated.length_bottom), float(d.seat.land_height(0.0))
    wide, deep, rim = float(d.ferrule.stated.outer_width), 8.0, 8.0
    width = max(long + 2 * rim, tall + wide + 3 * rim)
    height = 2 * deep + 12.0
    first = rim + tall + rim
    pen = Pen((0.0, 0.0))
    for start, size in ((rim, tall), (first, wide)):
        pen.line_to(start, 0.0).line_to(start, deep).line_to(start + size, deep)
        pen.line_to(start + size, 0.0)
    pen.line_to(width, 0.0).line_to(width, height)
    middle = width / 2
    for x in (middle + long / 2, middle - long / 2):
        pen.line_to(x, height if x > middle else height - deep)
        pen.line_to(x, height - deep if x > middle else height)
    path = pen.line_to(0.0, height).close()
    dims = (
        Level((rim, 0), (rim + tall, 0), -1),
        Level((first, 0), (first + wide, 0), -1),
        Level((middle - long / 2, height), (middle + long / 2, height), 1),
        Word((rim + tall / 2, deep + 2.0), "height"),
        Word((first + wide / 2, deep + 2.0), "width"),
        Word((middle, height - deep - 4.5), "length"),
    )
    title = "height is from the land, at the heel, to the bottom plane; width is at the ferrule"
    return [View(title, all_strokes(cut(path)), dims)]


def eyelet_height(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    at = float(d.seat.eyelet.from_heel)
    axis = float(d.seat.axis_height - d.seat.land_height(at))
    foot, wide = (float(d.seat.land_at(at)) - 0.2) / 2, 9.0
    tall, bore = axis + 9.0, 1.0
    up = float(d.seat.trench_height(at)) + 1.0
    corners = [(foot, 0.0), (foot, up), (wide, up), (wide, tall)]
    path = polygon([*corners, *((-u, v) for u, v in corners[::-1])])
    strokes = all_strokes(cut(path), drill((0.0, axis), bore, arm=4.0))
    dims = (
        Level((-foot, 0), (foot, 0), -1),
        Upright((wide, 0), (0, axis), 1, suffix=" ± 0.1"),
    )
    title = "foot on the land; half a turn moves the axis half the shank's pitch"
    return [View(title, strokes, dims)]


def eye(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    (x, z), r = (float(v) for v in d.eye), float(d.stated.eye_diameter) / 2
    right, top = x + r + 8.0, z + r + 6.0
    path = polygon([(0.0, 0.0), (right, 0.0), (right, top), (0.0, top)])
    strokes = all_strokes(cut(path), pocket(circle((x, z), r)), drill((x, z), 1.0, arm=r + 1.5))
    dims = (
        Level((0, 0), (x, z), -1),
        Upright((0, 0), (x, z), -1),
        Radius((x, z), r, 40.0, diameter=True, reach=right - x),
    )
    title = "left edge to the heel, lower edge to the bottom plane; turn over for the other flank"
    return [View(title, strokes, dims)]


def channel_card(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    heel, shoulder = (float(d.half_width(x)) for x in (0.0, d.shoulder))
    x, rear = float(d.shoulder), float(d.channel_rear)
    # A little short of the shoulder: the card must stay in one piece.
    channel = shortened(channel_plan(p), 2.0)
    path = trapezoid(0.0, x, 2 * heel, 2 * shoulder)
    wide, narrow = (float(d.channel_width(v)) / 2 for v in (x, rear))
    strokes = all_strokes(cut(path), pocket(channel), centre_line((-3, 0), (x + 3, 0)))
    dims = (
        Level((0, -heel), (rear, -narrow), -1),
        Level((0, -heel), (x, -shoulder), -2),
        Upright((rear, -narrow), (rear, narrow), -1),
        Upright((x, -wide), (x, wide), 1),
    )
    return [View("on the bottom plane; heel left, shoulder right", strokes, dims)]


def mortise_card(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    card, mortise = channel_plan(p), mortise_plan(p)
    left, low, right, _ = card.box
    a, b, c, e = mortise.box
    # Two holes side by side that do not meet.
    bit = min((c - a - 1.4) / 2 - 0.4, (e - b) * 0.6)
    strokes = all_strokes(
        cut(card),
        pocket(mortise),
        *(drill((x, 0.0), bit, arm=-0.4 * bit) for x in (a + bit / 2 + 0.5, c - bit / 2 - 0.5)),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    dims = (
        Level((left, low), (a, b), -1),
        Level((a, b), (c, b), -2),
        Upright((right, b), (right, e), 1, suffix=" mortise"),
        Radius((c - bit / 2 - 0.5, 0.0), bit / 2, 60.0, diameter=True, reach=8.0),
    )
    title = f"lies in the slide's channel; {d.stated.hair_mortise_depth:g} deep below its floor"
    return [View(title, strokes, dims)]


def eyelet_card(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    at, play = float(d.seat.eyelet.from_heel), 0.1
    start = max(0.0, float(d.heel.rear_face(d.seat.land_height(0.0))))
    end = float(d.seat.end)
    widths = [float(d.seat.land_at(x)) - play for x in (start, end)]
    card = trapezoid(start, end, *widths)
    left, low, right, high = card.box
    strokes = all_strokes(
        cut(card), drill((at, 0.0), 1.0, arm=0.6), centre_line((left - 3, 0), (at - 2, 0))
    )
    dims = (
        Level((start, low), (at, 0.0), -1),
        Level((left, low), (right, low), -2),
        Upright((right, low), (right, high), 1),
    )
    e = d.seat.eyelet
    title = (
        f"lies on the land, left end flush with the heel; shank {e.shank_diameter:g} over its "
        f"thread, {e.shank_length:g} deep: drill for its core"
    )
    return [View(title, strokes, dims)]


def plug(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    length, high = float(d.plug_length), float(d.plug_height)
    half = float(d.stated.hair_mortise_width) / 2
    plan = polygon([(0.0, -half), (length, -half), (length, half), (0.0, half)])
    # Its front leans so that the hair is led round it to the lip.
    side = polygon([(0.0, 0.0), (length, 0.0), (length - high * 0.2, high), (0.0, high)])
    return [
        View(
            "from below; the front goes to the right",
            all_strokes(cut(plan)),
            (
                Level((0, -half), (length, -half), -1),
                Upright((length, -half), (length, half), 1),
            ),
        ),
        View(
            "from the side, hair side down",
            all_strokes(cut(side)),
            (Upright((0, 0), (0, high), -1), Level((0, 0), (length, 0), -1)),
        ),
    ]


def _has_eye(p: Pattern) -> bool:
    return p.derive(FrogDims).has_eye


TEMPLATES = (
    Template(
        "frog-flank-gauge",
        "Frog, flank hollow gauge",
        "frog",
        "Try the hollow of both flanks with its round edge while you file.",
        "stick side up",
        flank,
    ),
    Template(
        "frog-seat-gauge",
        "Frog, seat gauge",
        "frog",
        "Try the seat with this section of the handle before the stick is put to it.",
        "hair side down",
        seat,
    ),
    Template(
        "frog-notch-gauge",
        "Frog, notch gauge",
        "frog",
        "Slip the finished frog into the notches: height, width at the ferrule, length.",
        "either way up",
        notches,
    ),
    Template(
        "frog-eyelet-gauge",
        "Frog, eyelet height gauge",
        "frog",
        "Stand it on the land and turn the eyelet until its thread meets the mark.",
        "stick side up",
        eyelet_height,
    ),
    Template(
        "frog-eye-locator",
        "Frog, eye locator",
        "frog",
        "Lay it on the flank and prick the eye's centre through the mark.",
        "stick side up",
        eye,
        wanted=_has_eye,
    ),
    Template(
        "frog-channel-card",
        "Slide channel, scribing card",
        "frog",
        "Scribe the slide's channel through this card; undercut its sides to the dovetail.",
        "hair side up",
        channel_card,
    ),
    Template(
        "frog-mortise-card",
        "Hair mortise, scribing card",
        "frog",
        "Lay it in the channel, scribe the mortise, drill the two marks, chisel the rest.",
        "hair side up",
        mortise_card,
    ),
    Template(
        "frog-eyelet-card",
        "Eyelet, scribing card",
        "frog",
        "Lay it on the seat's land and prick the shank's bore through the mark.",
        "stick side up",
        eyelet_card,
    ),
    Template(
        "frog-plug",
        "Hair mortise plug",
        "frog",
        "Cut the plug from soft straight-grained wood and fit it to the knot by hand.",
        "hair side down",
        plug,
    ),
)
