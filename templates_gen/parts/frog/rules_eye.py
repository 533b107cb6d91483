"""Rules of the frog's eye. Part of ``rules``."""

from templates_gen.checks import Bound, NotMeasured, at_least, gap, rule
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.eye_to_mortise",
    "enough ebony remains between the eye and the hair mortise",
    dims=FrogWalls,
    basis=PRACTICE,
    place=("frog-eye-locator", lambda w: (w.frog.eye[0], w.frog.eye[1])),
    applies=lambda w: w.frog.has_eye,
    solid=gap("frog: eye", "frog: mortise"),
)
def eye_to_mortise(w: FrogWalls) -> Bound:
    """Less than the solid's where they stand apart along the bow: it takes the recess as square."""
    return at_least(w.eye_to_mortise, 0.6)


@rule(
    "frog.eye_to_throat",
    "enough ebony remains between the rim of the eye and the throat",
    dims=FrogWalls,
    basis=PRACTICE,
    place=(
        "frog-eye-locator",
        lambda w: (w.frog.eye[0] + w.frog.params.eye_diameter / 2, w.frog.eye[1]),
    ),
    applies=lambda w: w.frog.has_eye,
    solid=gap("frog: eye", "frog: throat"),
)
def eye_to_throat(w: FrogWalls) -> Bound:
    """Less than the solid's: it treats the leaning recess as round from the side."""
    return at_least(w.recess.to_throat, 2.0)


@rule(
    "frog.eye_to_edge",
    "enough of the flank remains between the rim of the eye and the top edge",
    dims=FrogWalls,
    basis=PRACTICE,
    place=(
        "frog-eye-locator",
        lambda w: (w.frog.eye[0], w.frog.eye[1] + w.frog.params.eye_diameter / 2),
    ),
    applies=lambda w: w.frog.has_eye,
    solid=gap("frog: eye", "frog: top"),
)
def eye_to_edge(w: FrogWalls) -> Bound:
    """Less than the solid's: it compares heights, not lengths along the flank."""
    d = w.frog
    wall = d.params.overall_height - w.recess.reach[1]
    return at_least(wall, 2.0)


@rule(
    "frog.eye_to_bottom",
    "enough of the flank remains between the rim of the eye and the bottom plane",
    dims=FrogWalls,
    basis=PRACTICE,
    place=(
        "frog-eye-locator",
        lambda w: (w.frog.eye[0], w.frog.eye[1] - w.frog.params.eye_diameter / 2),
    ),
    applies=lambda w: w.frog.has_eye,
    solid=gap("frog: eye", "frog: bottom"),
)
def eye_to_bottom(w: FrogWalls) -> Bound:
    """Less than the solid's: it compares heights, not lengths along the flank."""
    return at_least(w.recess.reach[0], 2.0)


@rule(
    "frog.eye_to_heel",
    "enough of the flank remains between the rim of the eye and the heel",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-eye-locator", lambda d: (d.eye[0] - d.params.eye_diameter / 2, d.eye[1])),
    applies=lambda d: d.has_eye,
    solid=gap("frog: eye", "frog: rear + frog: plate rear"),
)
def eye_to_heel(d: FrogDims) -> Bound:
    """Less than the solid's: it takes the heel's lean at the height of the edges."""
    wall = d.eye[0] - d.heel_lean - d.heel.sheet - d.params.eye_diameter / 2
    return at_least(wall, 2.0)


@rule(
    "frog.eye_over_band",
    "the eye lies within the hollow: its rim ends above the straight band",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-eye-locator", lambda d: (d.eye[0], d.eye[1] - d.params.eye_diameter / 2)),
    applies=lambda d: d.has_eye,
    solid=NotMeasured("where the hollow ends on the flank, not a wall"),
)
def eye_over_band(d: FrogDims) -> Bound:
    foot = d.flank.meets(d.half_width(d.eye[0]))
    return at_least(d.eye_rim - foot, 0.3)
