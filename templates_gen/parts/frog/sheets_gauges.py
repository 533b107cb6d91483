"""The frog's gauges and its plug. Part of ``sheets``."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    HorizontalDim,
    Leader,
    Pattern,
    Pen,
    Radius,
    Text,
    VerticalDim,
    View,
    all_strokes,
    cut,
    drill,
    line,
    polygon,
    scribe,
    template,
)
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.screw.params import Screw
from templates_gen.shapes.octagon import FACET

#: Clearance (mm) between the flank gauge's foot and the widest band.
_FOOT_CLEAR = 0.3


@template(
    "frog-flank-gauge",
    "Frog, flank hollow gauge",
    "Stand frog and gauge on a flat; offer the curved edge to the flank, heel to throat.",
    "stick side up",
)
def flank(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    f = d.flank
    (centre, r), high, edge = f.circle(), f.edge, f.top
    # The hollow is one cylinder, but the block is wider toward the ferrule and meets it lower. So
    # the edge extends down to there, and the foot is cut back to clear every band.
    widest = max(d.half_width(x) for x in (0.0, d.run_out)) + _FOOT_CLEAR
    lowest = f.half_width(0.0) if f.radius > f.waist_height else math.inf
    low = f.meets(widest) if widest < lowest else 0.0
    foot = min(widest, lowest) + low
    back = foot + 12.0
    pen = Pen((foot, 0.0)).line_to(back, 0.0).line_to(back, high).line_to(edge, high)
    path = pen.arc_to((foot - low, low), centre, left=True).close()
    heel, band = f.heel, f.band
    dims = (
        VerticalDim((foot, 0), (heel, band), -1, suffix=" band, heel"),
        VerticalDim((foot, 0), (edge, high), -2),
        Radius(centre, r, 180.0, reach=-r * 0.12),
    )
    strokes = all_strokes(cut(path), scribe(line((heel + 0.3, band), (heel + 5.0, band))))
    title = "foot on the bench; the round edge fits the flank anywhere behind the throat"
    return [View(title, strokes, dims)]


@template(
    "frog-seat-gauge",
    "Frog, seat gauge",
    "Test the seat with this section of the handle before you fit the stick.",
    "hair side down",
)
def seat(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    at = d.seat.eyelet.from_heel
    half = d.seat.across_flats(at) / 2
    # The lower half of the handle, with a grip above; the land must clear its facet.
    facet, tall = half * FACET, half + 18.0
    corners = [(facet, 0.0), (half, half - facet), (half, tall)]
    path = polygon([*corners, *((-u, v) for u, v in corners[::-1])])
    strokes = all_strokes(cut(path), scribe(line((-half, half), (half, half))))
    dims = (
        HorizontalDim((-facet, 0.0), (facet, 0.0), -1, suffix=" facet"),
        HorizontalDim((-half, tall), (half, tall), 1, suffix=" across flats"),
        VerticalDim((half, 0.0), (half, half), 1, suffix=" to the axis"),
        Leader((-facet - 0.3, 0.3), (-half - 4, -3), "135° ± 0.5°"),
    )
    title = f"the handle at the eyelet, {at:g} from the heel; allow at most 0.5° twist to the head"
    return [View(title, strokes, dims)]


@template(
    "frog-notch-gauge",
    "Frog, notch gauge",
    "Slip the finished frog into the notches: height, width at the ferrule, length.",
    "either way up",
)
def notches(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    # The prong rests on the land, which is a little lower than the facet and lowest at the heel.
    long, tall = d.params.length_bottom, d.seat.land_height(0.0)
    wide, deep, rim = d.ferrule.params.outer_width, 8.0, 8.0
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
        HorizontalDim((rim, 0), (rim + tall, 0), -1),
        HorizontalDim((first, 0), (first + wide, 0), -1),
        HorizontalDim((middle - long / 2, height), (middle + long / 2, height), 1),
        Text((rim + tall / 2, deep + 2.0), "height"),
        Text((first + wide / 2, deep + 2.0), "width"),
        Text((middle, height - deep - 4.5), "length"),
    )
    title = "height: from land to bottom plane, at the heel; width: at the ferrule"
    return [View(title, all_strokes(cut(path)), dims)]


@template(
    "frog-eyelet-gauge",
    "Frog, eyelet height gauge",
    "Stand it on the land behind the eyelet; turn the eyelet until the screw, put through the "
    "hole, enters it.",
    "stick side up",
)
def eyelet_height(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    at = d.seat.eyelet.from_heel
    axis = d.seat.axis_height - d.seat.land_height(at)
    foot, wide = (d.seat.land_at(at) - 0.2) / 2, 9.0
    tall, bore = axis + 9.0, p[Screw].diameter
    up = d.seat.trench_height(at) + 1.0
    corners = [(foot, 0.0), (foot, up), (wide, up), (wide, tall)]
    path = polygon([*corners, *((-u, v) for u, v in corners[::-1])])
    strokes = all_strokes(cut(path), drill((0.0, axis), bore, arm=4.0))
    dims = (
        HorizontalDim((-foot, 0), (foot, 0), -1),
        VerticalDim((wide, 0), (0, axis), 1, suffix=" ± 0.1"),
        Radius((0.0, axis), bore / 2, 135.0, diameter=True, reach=9.0),
    )
    title = "foot on the land; half a turn moves the axis by half the pitch of the shank"
    return [View(title, strokes, dims)]


@template(
    "frog-plug",
    "Hair mortise plug",
    "Cut the plug from soft straight-grained wood and fit it to the knot by hand.",
    "hair side down",
)
def plug(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    length, high = d.plug_length, d.plug_height
    half = d.params.hair_mortise_width / 2
    plan = polygon([(0.0, -half), (length, -half), (length, half), (0.0, half)])
    # Its front leans, so that the hair runs round it to the lip.
    side = polygon([(0.0, 0.0), (length, 0.0), (length - high * 0.2, high), (0.0, high)])
    return [
        View(
            "from below; front right",
            all_strokes(cut(plan)),
            (
                HorizontalDim((0, -half), (length, -half), -1),
                VerticalDim((length, -half), (length, half), 1),
            ),
        ),
        View(
            "from the side, hair side down",
            all_strokes(cut(side)),
            (VerticalDim((0, 0), (0, high), -1), HorizontalDim((0, 0), (length, 0), -1)),
        ),
    ]
