"""Rules of the button."""

import numpy as np

from templates_gen.checks import Bound, NotMeasured, Severity, at_least, at_most, gap, rule
from templates_gen.parts.button.dims import ButtonDims

PRACTICE = "common practice, no source"
WIDENED = f"{PRACTICE}: 0.1 to 0.2 as drawn, here with the tolerances of both parts"


@rule(
    "button.bears_on_shoulder",
    "the button bears on the butt, not on the nipple",
    dims=ButtonDims,
    basis=PRACTICE,
    place=("button-turning", lambda d: (d.params.counterbore_depth, 0.0)),
    solid=gap("stick: nipple end", "button: counterbore floor", limit=0.2),
)
def bears_on_shoulder(d: ButtonDims) -> Bound:
    return at_least(d.params.counterbore_depth, d.stick.params.nipple_length + 0.2)


@rule(
    "button.runs_free",
    "the button has enough play to turn on the nipple",
    dims=ButtonDims,
    basis=WIDENED,
    place=(
        "button-turning",
        lambda d: (d.params.counterbore_depth, d.params.counterbore_diameter / 2),
    ),
    solid=gap("stick: nipple", "button: counterbore", times=2.0),
)
def runs_free(d: ButtonDims) -> Bound:
    return at_least(d.play_on_nipple, 0.05)


@rule(
    "button.runs_true",
    "the nipple guides the button with little play",
    dims=ButtonDims,
    basis=WIDENED,
    place=(
        "button-turning",
        lambda d: (d.params.counterbore_depth, d.params.counterbore_diameter / 2),
    ),
    solid=gap("stick: nipple", "button: counterbore", times=2.0),
)
def runs_true(d: ButtonDims) -> Bound:
    return at_most(d.play_on_nipple, 0.25)


@rule(
    "button.core",
    "enough wood remains in the core round the nipple",
    dims=ButtonDims,
    basis=PRACTICE,
    place=("button-turning", lambda d: (0.0, d.params.counterbore_diameter / 2)),
    solid=gap("button: counterbore", "button: core"),
)
def core(d: ButtonDims) -> Bound:
    return at_least(d.core_wall, 0.9 if d.three_piece else 0.7)


@rule(
    "button.ring_sheet",
    "the rings are thick enough to file flats on them",
    dims=ButtonDims,
    basis="common practice, no source: a flat filed on a ring takes 0.0412 of the width over flats",
    place=("button-turning", lambda d: (0.0, d.corners / 2)),
    solid=NotMeasured("the rings are not solids of their own"),
)
def ring_sheet(d: ButtonDims) -> Bound:
    taken = 0.0412 if d.three_piece else 0.0
    return at_least(d.params.ring_sheet, taken * d.params.across_flats + 0.15)


@rule(
    "button.flats",
    "the flats of the button meet those of the handle",
    dims=ButtonDims,
    severity=Severity.WARNING,
    basis=f"{PRACTICE}: 0.05 as drawn, here with the tolerances of both parts",
    place=("button-facets", lambda d: (d.params.across_flats / 2, 0.0)),
    solid=NotMeasured("two given widths, not a wall"),
)
def flats(d: ButtonDims) -> Bound:
    return at_most(np.abs(d.params.across_flats - d.stick.params.across_flats_butt), 0.12)
