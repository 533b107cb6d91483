"""Rules of the screw."""

from templates_gen.checks import Along, Bound, NotMeasured, at_least, at_most, gap, rule
from templates_gen.parts.screw.dims import ScrewDims

PRACTICE = "common practice, no source"


@rule(
    "screw.does_not_bottom",
    "the screw ends before the bottom of its front bore",
    dims=ScrewDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.stick.mortise_front + d.params.bearing_depth, 0.0)),
    solid=Along(("screw: end", "stick: front bore floor"), limit=0.5),
)
def does_not_bottom(d: ScrewDims) -> Bound:
    return at_most(d.params.length, d.stick.mortise_front + d.params.bearing_depth - 0.5)


@rule(
    "screw.tip_in_bearing",
    "the front bore guides the plain tip of the screw",
    dims=ScrewDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.params.length, 0.0)),
    solid=Along(("stick: slot front", "screw: end")),
)
def tip_in_bearing(d: ScrewDims) -> Bound:
    return at_least(d.tip_in_bearing, 6.0)


@rule(
    "screw.thread_starts",
    "the thread starts behind the stick mortise",
    dims=ScrewDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.params.thread_start, 0.0)),
    solid=NotMeasured("the screw's solid is smooth from the butt on"),
)
def thread_starts(d: ScrewDims) -> Bound:
    return at_most(d.params.thread_start, d.stick.params.mortise_from_butt)


@rule(
    "screw.thread_reaches",
    "the thread is long enough for the whole travel",
    dims=ScrewDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.params.thread_end, 0.0)),
    solid=Along(("stick: slot front", "screw: shaft end"), limit=-1.0),
)
def thread_reaches(d: ScrewDims) -> Bound:
    return at_least(d.params.thread_end, d.stick.mortise_front - 1.0)


@rule(
    "screw.thread_stops",
    "the thread ends before the narrower front bore",
    dims=ScrewDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.params.thread_end, 0.0)),
    solid=Along(("screw: shaft end", "stick: slot front"), limit=0.0),
)
def thread_stops(d: ScrewDims) -> Bound:
    return at_most(d.params.thread_end, d.stick.mortise_front)


@rule(
    "screw.in_rear_bore",
    "the screw turns freely in the rear bore",
    dims=ScrewDims,
    basis=PRACTICE,
    place=(
        "stick-handle",
        lambda d: (d.stick.params.mortise_from_butt / 2, d.stick.params.rear_bore / 2),
    ),
    solid=gap("screw: thread", "stick: rear bore", times=2.0, limit=0.0),
)
def in_rear_bore(d: ScrewDims) -> Bound:
    return at_least(d.stick.params.rear_bore, d.params.diameter)
