"""The clearances of the frog's pockets: hair mortise, channel and shank. Part of ``rules``."""

import numpy as np

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, rule
from templates_gen.checks.solid import Along, Extent, NotMeasured, Radius, gap
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.mortise_to_throat",
    "ebony between the hair mortise and the throat",
    basis=PRACTICE,
    place=at(
        "frog-side",
        FrogDims,
        lambda d: (
            (d.mortise_front + d.throat.deepest) / 2,
            np.clip(d.throat.low, d.slide.params.thickness, d.mortise_top),
        ),
    ),
    solid=gap("frog: mortise", "frog: throat + frog: cone"),
)
def mortise_to_throat(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).mortise_to_throat, 2.0)


@rule(
    "frog.mortise_to_shoulder",
    "ebony between the hair mortise and the shoulder",
    basis=PRACTICE,
    place=at("frog-bottom", FrogDims, lambda d: ((d.mortise_front + d.shoulder) / 2, 0.0)),
    solid=Along(("frog: mortise front", "frog: shoulder")),
)
def mortise_to_shoulder(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.shoulder - d.mortise_front, 3.0)


@rule(
    "frog.mortise_to_heel",
    "ebony between the hair mortise and the heel",
    basis=PRACTICE,
    place=at("frog-bottom", FrogDims, lambda d: (d.params.hair_mortise_from_heel / 2, 0.0)),
    solid=gap("frog: mortise rear", "frog: heel over floor"),
)
def mortise_to_heel(p: Pattern) -> Bound:
    return at_least(p.derive(FrogWalls).mortise_to_heel, 4.0)


@rule(
    "frog.mortise_to_flank",
    "ebony between the hair mortise and the flank",
    basis=PRACTICE,
    place=at(
        "frog-section-mortise",
        FrogDims,
        lambda d: (
            (d.params.hair_mortise_width + d.wall_to_flank) / 2,
            np.clip(d.flank.waist_height, d.slide.params.thickness, d.mortise_top),
        ),
    ),
    solid=gap("frog: mortise sides", "frog: flank"),
)
def mortise_to_flank(p: Pattern) -> Bound:
    """Less than the solid's: it extends the block's side up past the hollow's foot."""
    return at_least(p.derive(FrogWalls).beside_mortise, 0.9)


@rule(
    "frog.mortise_to_seat",
    "ebony between the hair mortise and the seat",
    basis=PRACTICE,
    place=at(
        "frog-section-mortise",
        FrogDims,
        lambda d: (0.0, (d.mortise_top + d.trench_floor(d.mortise_front)) / 2),
    ),
    solid=gap("frog: mortise roof", "frog: seat"),
)
def mortise_to_seat(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    rear, front = (d.trench_floor(x) for x in (d.params.hair_mortise_from_heel, d.mortise_front))
    return at_least(np.minimum(rear, front) - d.mortise_top, 2.0)


@rule(
    "frog.mortise_depth",
    "the hair mortise holds the knot and its plug in depth",
    basis=PRACTICE,
    place=at("frog-section-mortise", FrogDims, lambda d: (0.0, d.mortise_top)),
    solid=Along(("frog: channel floor", "frog: mortise roof"), axis="z"),
)
def mortise_depth(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.params.hair_mortise_depth, d.hair.knot + 2.5)


@rule(
    "frog.mortise_width",
    "the hair mortise holds the knot in width",
    basis=PRACTICE,
    place=at(
        "frog-mortise-card",
        FrogDims,
        lambda d: (
            (d.params.hair_mortise_from_heel + d.mortise_front) / 2,
            d.params.hair_mortise_width / 2,
        ),
    ),
    solid=Extent(("frog: mortise roof",), axis="y"),
)
def mortise_width(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.params.hair_mortise_width, d.hair.knot + 1.0)


@rule(
    "frog.mortise_length",
    "the hair mortise holds knot and plug in length",
    basis=PRACTICE,
    place=at("frog-mortise-card", FrogDims, lambda d: (d.mortise_front, 0.0)),
    solid=Extent(("frog: mortise roof",), axis="x"),
)
def mortise_length(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.params.hair_mortise_length, d.hair.knot + 4.0)


@rule(
    "frog.slide_spans_mortise",
    "the slide is wider than the hair mortise",
    basis=PRACTICE,
    place=at(
        "frog-bottom",
        FrogDims,
        lambda d: (
            (d.params.hair_mortise_from_heel + d.mortise_front) / 2,
            d.params.hair_mortise_width / 2,
        ),
    ),
    solid=Extent(("frog: mortise roof",), axis="y"),
)
def slide_spans_mortise(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_most(d.params.hair_mortise_width, d.slide.width_heel - 0.4)


@rule(
    "frog.slide_covers_mortise",
    "the slide covers the hair mortise's rear end",
    basis=PRACTICE,
    place=at("frog-bottom", FrogDims, lambda d: (d.params.hair_mortise_from_heel, 0.0)),
    solid=Along(("frog: heel + heel: outside", "frog: mortise rear")),
)
def slide_covers_mortise(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    leg = d.heel.params.leg_length if d.heel.plated else d.heel.leg_zone
    under = np.where(leg - d.heel.leg_zone > 0.3, 1.0, 0.0)
    return at_least(d.params.hair_mortise_from_heel, leg + 2.0 + under)


@rule(
    "frog.dovetail_wall",
    "ebony beside the slide's dovetail",
    basis=PRACTICE,
    place=at(
        "frog-bottom",
        FrogDims,
        lambda d: (d.shoulder, (d.channel_width(d.shoulder) / 2 + d.half_width(d.shoulder)) / 2),
    ),
    solid=gap("frog: channel sides", "frog: flank + frog: cone"),
)
def dovetail_wall(p: Pattern) -> Bound:
    """Less than the solid's: it extends block, hollow and D past where each ends."""
    return at_least(p.derive(FrogWalls).beside_dovetail, 1.8)


@rule(
    "frog.lip",
    "the lip is round enough not to cut the hair",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("frog-bottom", FrogDims, lambda d: (d.mortise_front, 0.0)),
    solid=Radius(("frog: lip",)),
)
def lip(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).params.lip_radius, 1.0)


@rule(
    "frog.plug",
    "the plug stays high enough to hold the knot",
    basis=PRACTICE,
    place=at("frog-plug", FrogDims, lambda d: (d.plug_length / 2, 0.0)),
    solid=NotMeasured("the plug is not built as a solid"),
)
def plug(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).plug_height, 2.0)


@rule(
    "frog.shank_to_mortise",
    "the eyelet's shank keeps out of the hair mortise",
    basis=PRACTICE,
    place=at(
        "frog-side",
        FrogDims,
        lambda d: (d.seat.eyelet.from_heel, (d.shank_end + d.mortise_top) / 2),
    ),
    solid=gap("frog: shank", "frog: mortise + frog: lip"),
)
def shank_to_mortise(p: Pattern) -> Bound:
    """Less than the solid's where they stand apart along the bow: it takes off 1 mm there."""
    return at_least(p.derive(FrogDims).shank_to_mortise, 1.0)


@rule(
    "frog.shank_to_throat",
    "ebony between the eyelet's shank and the throat",
    basis=PRACTICE,
    place=at(
        "frog-side",
        FrogDims,
        lambda d: (d.seat.eyelet.from_heel + d.seat.eyelet.shank_diameter / 2, d.shank_end),
    ),
    solid=gap("frog: shank", "frog: throat"),
)
def shank_to_throat(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).shank_to_throat, 2.0)


RULES = (
    mortise_to_throat,
    mortise_to_shoulder,
    mortise_to_heel,
    mortise_to_flank,
    mortise_to_seat,
    mortise_depth,
    mortise_width,
    mortise_length,
    slide_spans_mortise,
    slide_covers_mortise,
    dovetail_wall,
    lip,
    plug,
    shank_to_mortise,
    shank_to_throat,
)
