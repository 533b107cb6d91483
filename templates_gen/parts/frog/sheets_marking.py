"""The frog's scribing cards. Part of ``sheets``."""

from __future__ import annotations

from templates_gen.drawing import (
    HorizontalDim,
    Leader,
    Pattern,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    bit_below,
    centre_line,
    circle,
    cut,
    hidden,
    line,
    pocket,
    pocket_marks,
    polygon,
    prick,
    scribe,
    template,
)
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.trapezoid import trapezoid

#: Play (mm) with which a card 0.5 mm thick slides under a dovetail of 15°.
_CARD_PLAY = 0.3


@template(
    "frog-eye-locator",
    "Frog, eye locator",
    "Lay it on the flank and prick the eye's centre through the mark.",
    "stick side up",
    wanted=lambda p: p.scalars(FrogDims).has_eye,
)
def eye(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    (x, z), r = d.eye, d.params.eye_diameter / 2
    right, top = x + r + 8.0, z + r + 6.0
    path = polygon([(0.0, 0.0), (right, 0.0), (right, top), (0.0, top)])
    strokes = all_strokes(cut(path), hidden(circle((x, z), r)), prick((x, z)))
    dims = (
        HorizontalDim((0, 0), (x, z), -1),
        VerticalDim((0, 0), (x, z), -1),
        Radius((x, z), r, 40.0, diameter=True, reach=right - x),
    )
    title = (
        "left edge at the heel's rearmost, lower edge at the bottom; turn over for the other flank"
    )
    return [View(title, strokes, dims)]


@template(
    "frog-channel-card",
    "Slide channel, scribing card",
    "Lay its lines on the shoulder and scribe the channel up to there; undercut its sides to the "
    "dovetail.",
    "hair side up",
)
def channel_card(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    heel, shoulder = (d.half_width(x) for x in (0.0, d.shoulder))
    x, rear = d.shoulder, d.channel_rear
    # Window and card extend past the shoulder, where the channel is open, so that the whole channel
    # can be scribed and the card stays in one piece.
    run, end = x + 2.0, x + 7.0
    widths = [2 * d.half_width(v) for v in (0.0, end)]
    path = trapezoid(0.0, end, *widths)
    channel = trapezoid(rear, run, *(d.channel_width(v) for v in (rear, run)))
    wide, narrow = (d.channel_width(v) / 2 for v in (x, rear))
    marks = [scribe(line((x, s * (wide + 0.5)), (x, s * (shoulder - 0.5)))) for s in (1.0, -1.0)]
    strokes = all_strokes(cut(path), pocket(channel), marks, centre_line((-3, 0), (end + 3, 0)))
    dims = (
        HorizontalDim((0, -heel), (rear, -narrow), -1),
        HorizontalDim((0, -heel), (x, -shoulder), -2),
        VerticalDim((rear, -narrow), (rear, narrow), -1),
        VerticalDim((x, -wide), (x, wide), 1, suffix=" at the shoulder"),
        Leader((x, shoulder - 0.5), (x + 8.0, shoulder + 6.0), "shoulder"),
    )
    return [View("on the bottom plane; left end flush with the heel", strokes, dims)]


@template(
    "frog-mortise-card",
    "Hair mortise, scribing card",
    "Slide it into the undercut channel to its closed end; prick corners and centres, join the "
    "corners, drill, chisel the rest.",
    "hair side up",
)
def mortise_card(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    mortise, ends = outline.mortise_plan(p), (d.channel_rear, d.shoulder)
    # As wide as the floor of the channel, on which it lies, less the play of a thick card.
    floors = [d.slide.floor(d.channel_width(x)) - _CARD_PLAY for x in ends]
    card = trapezoid(*ends, *floors)
    left, low, right, high = card.box
    a, b, c, e = mortise.box
    # Two holes side by side that do not overlap.
    bit = bit_below(min((c - a - 1.4) / 2 - 0.4, (e - b) * 0.6))
    centres = [(x, 0.0) for x in (a + bit / 2 + 0.5, c - bit / 2 - 0.5)]
    strokes = all_strokes(
        cut(card),
        pocket_marks(mortise, centres, bit),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    dims = (
        HorizontalDim((left, -floors[0] / 2), (a, b), -1),
        HorizontalDim((a, b), (c, b), -2),
        VerticalDim((right, b), (right, e), 1, suffix=" mortise"),
        VerticalDim((right, low), (right, high), 2, suffix=" card"),
        Radius(centres[1], bit / 2, 60.0, diameter=True, reach=8.0),
    )
    title = f"heel end left; {d.params.hair_mortise_depth:g} deep below the channel's floor"
    return [View(title, strokes, dims)]


@template(
    "frog-eyelet-card",
    "Eyelet, scribing card",
    "Lay it on the seat's land and prick the shank's bore through the mark.",
    "stick side up",
)
def eyelet_card(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    at, play = d.seat.eyelet.from_heel, 0.1
    start = max(0.0, d.heel.rear_face(d.seat.land_height(0.0)))
    end = d.seat.end
    widths = [d.seat.land_at(x) - play for x in (start, end)]
    card = trapezoid(start, end, *widths)
    left, low, right, high = card.box
    strokes = all_strokes(cut(card), prick((at, 0.0)), centre_line((left - 3, 0), (at - 2, 0)))
    dims = (
        HorizontalDim((start, low), (at, 0.0), -1),
        HorizontalDim((left, low), (right, low), -2),
        VerticalDim((right, low), (right, high), 1),
    )
    e = d.seat.eyelet
    title = (
        f"lay on the land, left end flush with the heel; shank thread {e.shank_diameter:g}, "
        f"{e.shank_length:g} deep: drill to its core diameter"
    )
    return [View(title, strokes, dims)]
