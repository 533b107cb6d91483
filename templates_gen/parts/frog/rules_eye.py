"""The clearances of the frog's eye. Part of ``rules``."""

from templates_gen.checks.rule import Bound, at, at_least, nothing_asked, rule
from templates_gen.checks.solid import NotMeasured, gap
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.eye_to_mortise",
    "ebony between the eye and the hair mortise",
    basis=PRACTICE,
    place=at("frog-eye-locator", FrogDims, lambda d: (d.eye[0], d.eye[1])),
    solid=gap("frog: eye", "frog: mortise"),
)
def eye_to_mortise(p: Pattern) -> Bound:
    """Less than the solid's where they stand apart along the bow: it takes the recess as square."""
    d = p.derive(FrogDims)
    return at_least(p.derive(FrogWalls).eye_to_mortise, 0.6) if d.has_eye else nothing_asked()


@rule(
    "frog.eye_to_throat",
    "ebony between the eye's rim and the throat",
    basis=PRACTICE,
    place=at(
        "frog-eye-locator", FrogDims, lambda d: (d.eye[0] + d.params.eye_diameter / 2, d.eye[1])
    ),
    solid=gap("frog: eye", "frog: throat"),
)
def eye_to_throat(p: Pattern) -> Bound:
    """Less than the solid's: it treats the leaning recess as round from the side."""
    d = p.derive(FrogDims)
    return at_least(p.derive(FrogWalls).recess.to_throat, 2.0) if d.has_eye else nothing_asked()


@rule(
    "frog.eye_to_edge",
    "flank between the eye's rim and the top edge",
    basis=PRACTICE,
    place=at(
        "frog-eye-locator", FrogDims, lambda d: (d.eye[0], d.eye[1] + d.params.eye_diameter / 2)
    ),
    solid=gap("frog: eye", "frog: top"),
)
def eye_to_edge(p: Pattern) -> Bound:
    """Less than the solid's: it compares heights, not lengths along the flank."""
    d = p.derive(FrogDims)
    wall = d.params.overall_height - p.derive(FrogWalls).recess.reach[1]
    return at_least(wall, 2.0) if d.has_eye else nothing_asked()


@rule(
    "frog.eye_to_bottom",
    "flank between the eye's rim and the bottom plane",
    basis=PRACTICE,
    place=at(
        "frog-eye-locator", FrogDims, lambda d: (d.eye[0], d.eye[1] - d.params.eye_diameter / 2)
    ),
    solid=gap("frog: eye", "frog: bottom"),
)
def eye_to_bottom(p: Pattern) -> Bound:
    """Less than the solid's: it compares heights, not lengths along the flank."""
    d = p.derive(FrogDims)
    return at_least(p.derive(FrogWalls).recess.reach[0], 2.0) if d.has_eye else nothing_asked()


@rule(
    "frog.eye_to_heel",
    "flank between the eye's rim and the heel",
    basis=PRACTICE,
    place=at(
        "frog-eye-locator", FrogDims, lambda d: (d.eye[0] - d.params.eye_diameter / 2, d.eye[1])
    ),
    solid=gap("frog: eye", "frog: rear + frog: plate rear"),
)
def eye_to_heel(p: Pattern) -> Bound:
    """Less than the solid's: it takes the heel's lean at the height of the edges."""
    d = p.derive(FrogDims)
    wall = d.eye[0] - d.heel_lean - d.heel.sheet - d.params.eye_diameter / 2
    return at_least(wall, 2.0) if d.has_eye else nothing_asked()


@rule(
    "frog.eye_over_band",
    "the eye lies wholly in the hollow: its rim ends above the straight band",
    basis=PRACTICE,
    place=at(
        "frog-eye-locator", FrogDims, lambda d: (d.eye[0], d.eye[1] - d.params.eye_diameter / 2)
    ),
    solid=NotMeasured("where the hollow ends on the flank, not a wall"),
)
def eye_over_band(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    foot = d.flank.meets(d.half_width(d.eye[0]))
    return at_least(d.eye_rim - foot, 0.3) if d.has_eye else nothing_asked()


RULES = (eye_to_mortise, eye_to_throat, eye_to_edge, eye_to_bottom, eye_to_heel, eye_over_band)
