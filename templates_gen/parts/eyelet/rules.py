"""The clearances of eyelet and screw."""

from templates_gen.checks.rule import Bound, at_least, at_most, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.eyelet.dims import EyeletDims

PRACTICE = "common practice, no source"


@rule("eyelet.clears_roof", "the eyelet runs clear of the mortise's roof", basis=PRACTICE)
def clears_roof(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    a = d.stick.across_flats(d.stick.stated.mortise_from_butt)
    return at_least(d.stick.stated.mortise_depth, a / 2 + d.stated.height_above_axis + 0.15)


@rule("eyelet.runs_free", "the eyelet runs free in its mortise", basis=PRACTICE)
def runs_free(p: Pattern) -> Bound:
    return at_least(p.derive(EyeletDims).play_in_mortise, 0.1)


@rule("eyelet.no_rattle", "the eyelet does not rattle in its mortise", basis=PRACTICE)
def no_rattle(p: Pattern) -> Bound:
    return at_most(p.derive(EyeletDims).play_in_mortise, 0.3)


@rule("eyelet.ring_wall", "metal beside the eyelet's thread", basis=PRACTICE)
def ring_wall(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_least(d.ring_wall, 0.5 if d.bass else 0.35)


@rule("screw.does_not_bottom", "the screw does not bottom in its front bore", basis=PRACTICE)
def does_not_bottom(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_most(d.screw.length, d.stick.mortise_front + d.screw.bearing_depth - 0.5)


@rule("screw.tip_in_bearing", "the screw's plain tip is guided by the front bore", basis=PRACTICE)
def tip_in_bearing(p: Pattern) -> Bound:
    return at_least(p.derive(EyeletDims).tip_in_bearing, 6.0)


@rule("screw.thread_starts", "the thread begins behind the stick mortise", basis=PRACTICE)
def thread_starts(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_most(d.screw.thread_start, d.stick.stated.mortise_from_butt)


@rule("screw.thread_reaches", "the thread serves the whole travel", basis=PRACTICE)
def thread_reaches(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_least(d.screw.thread_end, d.stick.mortise_front - 1.0)


@rule("screw.thread_stops", "the thread never enters the smaller front bore", basis=PRACTICE)
def thread_stops(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_most(d.screw.thread_end, d.stick.mortise_front)


@rule("screw.in_rear_bore", "the screw turns free in the rear bore", basis=PRACTICE)
def in_rear_bore(p: Pattern) -> Bound:
    d = p.derive(EyeletDims)
    return at_least(d.stick.stated.rear_bore, d.screw.diameter)


RULES = (
    clears_roof,
    runs_free,
    no_rattle,
    ring_wall,
    does_not_bottom,
    tip_in_bearing,
    thread_starts,
    thread_reaches,
    thread_stops,
    in_rear_bore,
)
