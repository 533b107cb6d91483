"""Rules of the frog's pockets: hair mortise, channel and shank. Part of ``rules``."""

import numpy as np

from templates_gen.checks import (
    Along,
    Bound,
    Extent,
    NotMeasured,
    Radius,
    Severity,
    at_least,
    at_most,
    gap,
    rule,
)
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.mortise_to_throat",
    "enough ebony remains between the hair mortise and the throat",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-side",
        lambda d: (
            (d.mortise_front + d.throat.deepest) / 2,
            np.clip(d.throat.low, d.slide.params.thickness, d.mortise_top),
        ),
    ),
    solid=gap("frog: mortise", "frog: throat + frog: cone"),
)
def mortise_to_throat(d: FrogDims) -> Bound:
    return at_least(d.mortise_to_throat, 2.0)


@rule(
    "frog.mortise_to_shoulder",
    "enough ebony remains between the hair mortise and the shoulder",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-bottom", lambda d: ((d.mortise_front + d.shoulder) / 2, 0.0)),
    solid=Along(("frog: mortise front", "frog: shoulder")),
)
def mortise_to_shoulder(d: FrogDims) -> Bound:
    return at_least(d.shoulder - d.mortise_front, 3.0)


@rule(
    "frog.mortise_to_heel",
    "enough ebony remains between the hair mortise and the heel",
    dims=FrogWalls,
    basis=PRACTICE,
    place=("frog-bottom", lambda w: (w.frog.params.hair_mortise_from_heel / 2, 0.0)),
    solid=gap("frog: mortise rear", "frog: heel over floor"),
)
def mortise_to_heel(w: FrogWalls) -> Bound:
    """Less than the solid's: it continues the bed of the heel plate past its upper end."""
    return at_least(w.mortise_to_heel, 4.0)


@rule(
    "frog.mortise_to_flank",
    "enough ebony remains between the hair mortise and the flank",
    dims=FrogWalls,
    basis=PRACTICE,
    place=(
        "frog-section-mortise",
        lambda w: (
            (w.frog.params.hair_mortise_width + w.frog.wall_to_flank) / 2,
            np.clip(w.frog.flank.waist_height, w.frog.slide.params.thickness, w.frog.mortise_top),
        ),
    ),
    solid=gap("frog: mortise sides", "frog: flank"),
)
def mortise_to_flank(w: FrogWalls) -> Bound:
    """Less than the solid's: it extends the block's side up past the hollow's foot."""
    return at_least(w.beside_mortise, 0.9)


@rule(
    "frog.mortise_to_seat",
    "enough ebony remains between the hair mortise and the seat",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-section-mortise",
        lambda d: (0.0, (d.mortise_top + d.trench_floor(d.mortise_front)) / 2),
    ),
    solid=gap("frog: mortise roof", "frog: seat"),
)
def mortise_to_seat(d: FrogDims) -> Bound:
    rear, front = (d.trench_floor(x) for x in (d.params.hair_mortise_from_heel, d.mortise_front))
    return at_least(np.minimum(rear, front) - d.mortise_top, 2.0)


@rule(
    "frog.hair_mortise_depth",
    "the hair mortise is deep enough for the knot and its plug",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-section-mortise", lambda d: (0.0, d.mortise_top)),
    solid=Along(("frog: channel floor", "frog: mortise roof"), axis="z"),
)
def mortise_depth(d: FrogDims) -> Bound:
    return at_least(d.params.hair_mortise_depth, d.hair.knot + 2.5)


@rule(
    "frog.hair_mortise_width",
    "the hair mortise is wide enough for the knot",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-mortise-card",
        lambda d: (
            (d.params.hair_mortise_from_heel + d.mortise_front) / 2,
            d.params.hair_mortise_width / 2,
        ),
    ),
    solid=Extent(("frog: mortise roof",), axis="y"),
)
def mortise_width(d: FrogDims) -> Bound:
    return at_least(d.params.hair_mortise_width, d.hair.knot + 1.0)


@rule(
    "frog.hair_mortise_length",
    "the hair mortise is long enough for the knot and its plug",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-mortise-card", lambda d: (d.mortise_front, 0.0)),
    solid=Extent(("frog: mortise roof",), axis="x"),
)
def mortise_length(d: FrogDims) -> Bound:
    return at_least(d.params.hair_mortise_length, d.hair.knot + 4.0)


@rule(
    "frog.slide_spans_mortise",
    "the slide is wider than the hair mortise",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-bottom",
        lambda d: (
            (d.params.hair_mortise_from_heel + d.mortise_front) / 2,
            d.params.hair_mortise_width / 2,
        ),
    ),
    solid=Extent(("frog: mortise roof",), axis="y"),
)
def slide_spans_mortise(d: FrogDims) -> Bound:
    return at_most(d.params.hair_mortise_width, d.slide.width_heel - 0.4)


@rule(
    "frog.slide_covers_mortise",
    "the slide covers the rear end of the hair mortise",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-bottom", lambda d: (d.params.hair_mortise_from_heel, 0.0)),
    solid=Along(("frog: heel + heel: outside", "frog: mortise rear")),
)
def slide_covers_mortise(d: FrogDims) -> Bound:
    leg = d.heel.params.leg_length if d.heel.plated else d.heel.leg_zone
    under = np.where(leg - d.heel.leg_zone > 0.3, 1.0, 0.0)
    return at_least(d.params.hair_mortise_from_heel, leg + 2.0 + under)


@rule(
    "frog.dovetail_wall",
    "enough ebony remains beside the slide's dovetail",
    dims=FrogWalls,
    basis=PRACTICE,
    place=(
        "frog-bottom",
        lambda w: (
            w.frog.shoulder,
            (w.frog.channel_width(w.frog.shoulder) / 2 + w.frog.half_width(w.frog.shoulder)) / 2,
        ),
    ),
    solid=gap("frog: channel sides", "frog: flank + frog: cone"),
)
def dovetail_wall(w: FrogWalls) -> Bound:
    """Less than the solid's: it extends block, hollow and D past where each ends."""
    return at_least(w.beside_dovetail, 1.8)


@rule(
    "frog.lip",
    "the lip is round enough not to cut the hair",
    dims=FrogDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("frog-bottom", lambda d: (d.mortise_front, 0.0)),
    solid=Radius(("frog: lip",)),
)
def lip(d: FrogDims) -> Bound:
    return at_least(d.params.lip_radius, 1.0)


@rule(
    "frog.plug",
    "the plug stays high enough to hold the knot",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-plug", lambda d: (d.plug_length / 2, 0.0)),
    solid=NotMeasured("the plug is not built as a solid"),
)
def plug(d: FrogDims) -> Bound:
    return at_least(d.plug_height, 2.0)


@rule(
    "frog.shank_to_mortise",
    "enough ebony remains between the eyelet's shank and the hair mortise",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-side", lambda d: (d.seat.eyelet.from_heel, (d.shank_end + d.mortise_top) / 2)),
    solid=gap("frog: shank", "frog: mortise + frog: lip"),
)
def shank_to_mortise(d: FrogDims) -> Bound:
    """Less than the solid's where they stand apart along the bow: it subtracts 1 mm there."""
    return at_least(d.shank_to_mortise, 1.0)


@rule(
    "frog.shank_to_throat",
    "enough ebony remains between the eyelet's shank and the throat",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-side",
        lambda d: (d.seat.eyelet.from_heel + d.seat.eyelet.shank_diameter / 2, d.shank_end),
    ),
    solid=gap("frog: shank", "frog: throat"),
)
def shank_to_throat(d: FrogDims) -> Bound:
    return at_least(d.shank_to_throat, 2.0)
