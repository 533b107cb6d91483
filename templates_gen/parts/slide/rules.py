"""Rules of the slide."""

import numpy as np

from templates_gen.checks import Along, Bound, NotMeasured, Severity, at_least, at_most, rule
from templates_gen.parts.slide.dims import SlideDims

PRACTICE = "common practice, no source"


@rule(
    "slide.passes_step",
    "the slide passes under the step of the tongue",
    dims=SlideDims,
    basis=PRACTICE,
    place=("slide-dovetail", lambda d: (0.0, d.params.thickness)),
    solid=Along(("slide: top", "frog: tongue step"), limit=0.1, axis="z"),
)
def passes_step(d: SlideDims) -> Bound:
    return at_least(d.ferrule.rebate_step, d.params.thickness + 0.1)


@rule(
    "slide.fits_channel",
    "the slide is as wide as its channel",
    dims=SlideDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=(
        "slide-outline",
        lambda d: (d.params.length / 2, (d.params.width_front + d.width_heel) / 4),
    ),
    solid=NotMeasured("the difference of two given widths, not a wall"),
)
def fits_channel(d: SlideDims) -> Bound:
    return at_most(np.abs(d.params.channel_fit), 0.05)


@rule(
    "slide.taper",
    "the taper of the slide is close to 0.30 mm, so that it wedges only at the very end",
    dims=SlideDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("slide-outline", lambda d: (d.params.length, d.width_heel / 2)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper(d: SlideDims) -> Bound:
    return at_most(np.abs(d.params.width_taper - 0.30), 0.05)
