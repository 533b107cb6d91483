"""Rules of the eyelet."""

from templates_gen.checks import Bound, at_least, at_most, gap, rule
from templates_gen.parts.eyelet.dims import EyeletDims

PRACTICE = "common practice, no source"


@rule(
    "eyelet.clears_roof",
    "the eyelet clears the roof of the stick mortise",
    dims=EyeletDims,
    basis=PRACTICE,
    place=(
        "stick-handle",
        lambda d: (
            d.stick.params.mortise_from_butt,
            d.stick.params.mortise_depth
            - d.stick.across_flats(d.stick.params.mortise_from_butt) / 2,
        ),
    ),
    solid=gap("eyelet: top", "stick: slot roof", limit=0.15, poses=("rearmost", "foremost")),
)
def clears_roof(d: EyeletDims) -> Bound:
    """Less than the solid's: it takes the handle at the slot's end, where it is thickest."""
    a = d.stick.over_mortise[1]
    return at_least(d.stick.params.mortise_depth, a / 2 + d.params.height_above_axis + 0.15)


@rule(
    "eyelet.runs_free",
    "the eyelet has enough play to slide in its mortise",
    dims=EyeletDims,
    basis=PRACTICE,
    place=("stick-mortise-card", lambda d: (d.stick.eyelet_rear, d.stick.params.mortise_width / 2)),
    solid=gap("eyelet: sides", "stick: slot sides", times=2.0),
)
def runs_free(d: EyeletDims) -> Bound:
    return at_least(d.play_in_mortise, 0.1)


@rule(
    "eyelet.no_rattle",
    "the eyelet has too little play to rattle in its mortise",
    dims=EyeletDims,
    basis=PRACTICE,
    place=(
        "stick-mortise-card",
        lambda d: (d.stick.eyelet_front, d.stick.params.mortise_width / 2),
    ),
    solid=gap("eyelet: sides", "stick: slot sides", times=2.0),
)
def no_rattle(d: EyeletDims) -> Bound:
    return at_most(d.play_in_mortise, 0.3)


@rule(
    "eyelet.ring_wall",
    "enough metal remains beside the eyelet's thread",
    dims=EyeletDims,
    basis=PRACTICE,
    place=("bow-frog-on-stick", lambda d: (d.stick.eyelet_front, 0.0)),
    solid=gap("screw: thread", "eyelet: sides"),
)
def ring_wall(d: EyeletDims) -> Bound:
    return at_least(d.ring_wall, 0.5 if d.family.bass else 0.35)
