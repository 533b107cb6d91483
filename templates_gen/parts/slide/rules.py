"""The clearances of the slide."""

import numpy as np

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, rule
from templates_gen.checks.solid import Along, NotMeasured
from templates_gen.parameters import Pattern
from templates_gen.parts.slide.dims import SlideDims

PRACTICE = "common practice, no source"


@rule(
    "slide.passes_step",
    "the slide passes under the step of the tongue",
    basis=PRACTICE,
    place=at("slide-dovetail", SlideDims, lambda d: (0.0, d.params.thickness)),
    solid=Along(("slide: top", "frog: tongue step"), limit=0.1, axis="z"),
)
def passes_step(p: Pattern) -> Bound:
    d = p.derive(SlideDims)
    return at_least(d.ferrule.rebate_step, d.params.thickness + 0.1)


@rule(
    "slide.fits_channel",
    "the slide is as wide as its channel",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at(
        "slide-outline",
        SlideDims,
        lambda d: (d.params.length / 2, (d.params.width_front + d.width_heel) / 4),
    ),
    solid=NotMeasured("the difference of two widths that are stated, not a wall"),
)
def fits_channel(p: Pattern) -> Bound:
    return at_most(np.abs(p.derive(SlideDims).params.channel_fit), 0.05)


@rule(
    "slide.taper",
    "the slide's taper is near 0.30, so that it wedges at the very end",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("slide-outline", SlideDims, lambda d: (d.params.length, d.width_heel / 2)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper(p: Pattern) -> Bound:
    return at_most(np.abs(p.derive(SlideDims).params.width_taper - 0.30), 0.05)


RULES = (passes_step, fits_channel, taper)
