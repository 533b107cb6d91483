"""The clearances of the frog's pockets: hair mortise, channel, shank and eye. Part of ``rules``."""

import numpy as np

from templates_gen.checks.rule import Bound, Severity, at_least, at_most, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims

PRACTICE = "common practice, no source"
#: Where the frog has no eye its walls are asked of nothing.
_FREE = 99.0


@rule("frog.mortise_to_throat", "ebony between the hair mortise and the throat", basis=PRACTICE)
def mortise_to_throat(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).mortise_to_throat, 2.0)


@rule("frog.mortise_to_shoulder", "ebony between the hair mortise and the shoulder", basis=PRACTICE)
def mortise_to_shoulder(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.shoulder - d.mortise_front, 3.0)


@rule("frog.mortise_to_heel", "ebony between the hair mortise and the heel", basis=PRACTICE)
def mortise_to_heel(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).stated.hair_mortise_from_heel, 4.0)


@rule("frog.mortise_to_flank", "ebony between the hair mortise and the flank", basis=PRACTICE)
def mortise_to_flank(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).wall_to_flank, 0.9)


@rule("frog.mortise_to_seat", "ebony between the hair mortise and the seat", basis=PRACTICE)
def mortise_to_seat(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    rear, front = (d.trench_floor(x) for x in (d.stated.hair_mortise_from_heel, d.mortise_front))
    return at_least(np.minimum(rear, front) - d.mortise_top, 2.0)


@rule("frog.mortise_depth", "the hair mortise holds the knot and its plug in depth", basis=PRACTICE)
def mortise_depth(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.stated.hair_mortise_depth, d.hair.knot + 2.5)


@rule("frog.mortise_width", "the hair mortise holds the knot in width", basis=PRACTICE)
def mortise_width(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.stated.hair_mortise_width, d.hair.knot + 1.0)


@rule("frog.mortise_length", "the hair mortise holds knot and plug in length", basis=PRACTICE)
def mortise_length(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.stated.hair_mortise_length, d.hair.knot + 4.0)


@rule("frog.slide_spans_mortise", "the slide is wider than the hair mortise", basis=PRACTICE)
def slide_spans_mortise(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_most(d.stated.hair_mortise_width, d.slide.stated.width_front - 0.3 - 0.4)


@rule("frog.slide_covers_mortise", "the slide covers the hair mortise's rear end", basis=PRACTICE)
def slide_covers_mortise(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    leg = d.heel.stated.leg_length if d.heel.plated else d.heel.leg_zone
    under = np.where(leg - d.heel.leg_zone > 0.3, 1.0, 0.0)
    return at_least(d.stated.hair_mortise_from_heel, leg + 2.0 + under)


@rule("frog.dovetail_wall", "ebony beside the slide's dovetail", basis=PRACTICE)
def dovetail_wall(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).wall_beside_dovetail, 1.8)


@rule(
    "frog.lip",
    "the lip is round enough not to cut the hair",
    severity=Severity.WARNING,
    basis=PRACTICE,
)
def lip(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).stated.lip_radius, 1.0)


@rule("frog.plug", "the plug stays high enough to hold the knot", basis=PRACTICE)
def plug(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).plug_height, 2.0)


@rule("frog.shank_to_mortise", "the eyelet's shank keeps out of the hair mortise", basis=PRACTICE)
def shank_to_mortise(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).shank_to_mortise, 1.0)


@rule("frog.shank_to_throat", "ebony between the eyelet's shank and the throat", basis=PRACTICE)
def shank_to_throat(p: Pattern) -> Bound:
    return at_least(p.derive(FrogDims).shank_to_throat, 2.0)


@rule("frog.eye_to_mortise", "ebony between the eye and the hair mortise", basis=PRACTICE)
def eye_to_mortise(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.eye_to_mortise if d.has_eye else _FREE, 0.6)


@rule("frog.eye_to_throat", "ebony between the eye's rim and the throat", basis=PRACTICE)
def eye_to_throat(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    wall = d.throat.gap(*d.eye) - d.stated.eye_diameter / 2
    return at_least(wall if d.has_eye else _FREE, 2.0)


@rule("frog.eye_to_edge", "flank between the eye's rim and the top edge", basis=PRACTICE)
def eye_to_edge(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    wall = d.stated.overall_height - d.eye[1] - d.stated.eye_diameter / 2
    return at_least(wall if d.has_eye else _FREE, 2.0)


@rule("frog.eye_to_bottom", "flank between the eye's rim and the bottom plane", basis=PRACTICE)
def eye_to_bottom(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.eye[1] - d.stated.eye_diameter / 2 if d.has_eye else _FREE, 2.0)


@rule("frog.eye_to_heel", "flank between the eye's rim and the heel", basis=PRACTICE)
def eye_to_heel(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    wall = d.eye[0] - d.heel_lean - d.stated.eye_diameter / 2
    return at_least(wall if d.has_eye else _FREE, 2.0)


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
    eye_to_mortise,
    eye_to_throat,
    eye_to_edge,
    eye_to_bottom,
    eye_to_heel,
)
