"""Test clearances whose closed form once overclaimed, each on a pattern that shows it."""

import pytest
from referee import campaign, walk

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.parts.heel.params import HeelKind
from templates_gen.pipeline import walls

pytestmark = pytest.mark.kernel

RULES = {rule.id: rule for rule in catalogue.rules()}
BUILDERS = {b.part: b for b in registry.builders()}
#: A deep eye, a frog that widens toward its ferrule: what one plane of a section does not show.
WIDENS = {
    "frog.width_heel": 18.6,
    "frog.width_top": 20.0,
    "frog.width_waist": 12.4,
    "frog.hair_mortise_width": 11.7,
    "frog.hair_mortise_length": 20.5,
    "frog.eye_thickness": 2.5,
}
NARROWS = {
    "frog.width_heel": 14.0,
    "frog.width_waist": 10.0,
    "frog.width_top": 10.2,
    "frog.hair_mortise_depth": 3.0,
    "ferrule.outer_width": 11.5,
}
BLUNT = {"heel.kind": HeelKind.NONE, "heel.bottom_radius": 10.0}
LEANS = {"heel.lean_deg": 8.0}
THICKENS = {"stick.across_flats_butt": 8.5, "stick.across_flats_handle_end": 8.6}
#: A long mortise near a shallow throat: its front corner is nearer to the throat than to the flank.
REACHES = {
    "frog.hair_mortise_length": 24.779296875,
    "frog.hair_mortise_width": 4.89921875,
    "frog.throat_depth": 2.705078125,
    "frog.width_heel": 12.6728515625,
}
#: Family, what is changed, the part to build, and the clearances that claimed too much there.
CASES = (
    ("violin", {}, "head", ("mortise_to_nose", "mortise_over_knot")),
    ("violin", {}, "frog", ("thumb_line", "waist_behind_throat", "mortise_to_heel")),
    ("violin", {}, "frog", ("eye_to_heel", "eye_to_bottom")),
    ("violin", {}, "button", ("core",)),
    # The hollow comes out of the block's side below the edges; once it gave no valid solid.
    ("violin", {"frog.width_top": 20.0}, "frog", ("edges_thickness",)),
    # Told apart from the bend though the plate leans far.
    ("violin", {"heel.lean_deg": 15.0, "heel.leg_length": 4.5}, "heel", ("rear_straight",)),
    ("violin", NARROWS, "frog", ("mortise_to_flank",)),
    ("violin", LEANS, "frog", ("mortise_to_heel",)),
    ("bass-french", BLUNT, "frog", ("mortise_to_heel",)),
    ("bass-german", WIDENS, "frog", ("edges_thickness", "dovetail_wall", "eye_to_mortise")),
    ("cello", REACHES, "frog", ("mortise_to_flank", "mortise_to_throat")),
    ("violin", THICKENS, "stick", ("mortise_roof", "mortise_cheeks")),
    ("violin", THICKENS, "underslide", ("wings",)),
)


@pytest.mark.parametrize(("family", "changes", "part", "names"), CASES, ids=range(len(CASES)))
def test_clearance_does_not_overclaim(family, changes, part, names):
    p = walk.starter(family).with_many(changes)
    builder = BUILDERS[part]
    shown = walls.alone(part, builder.build(builder.recipe(p)))
    for name in names:
        rule = RULES[f"{part}.{name}"]
        over = campaign.over(rule, rule.solid, p, shown[rule.id])
        assert over <= campaign.AGREE, name
        # It is not far off the other way either: a limit is not kept by claiming nothing.
        assert over >= -0.25, name


def test_pins_of_a_leaning_heel_clear_the_mortise():
    """A pin driven square to a leaning plate: the upper edge of its end comes nearest."""
    p = walk.starter("violin").with_many({**LEANS, "heel.rear_leg": 8.0})
    built = {part: BUILDERS[part].build(BUILDERS[part].recipe(p)) for part in ("heel", "frog")}
    shown = walls.together(p, built)
    rule = RULES["heel.pin_to_mortise"]
    over = campaign.over(rule, rule.solid, p, shown[rule.id])
    assert -0.005 <= over <= campaign.AGREE


def test_leg_of_a_plate_thicker_than_the_slide_is_as_long_as_claimed():
    """The plate's bed is deeper than the slide's channel, whose rear end is gone."""
    changes = {"slide.thickness": 0.8, "heel.plate_thickness": 1.5}
    p = walk.starter("bass-french").with_many(changes)
    built = {
        part: BUILDERS[part].build(BUILDERS[part].recipe(p)) for part in ("heel", "frog", "slide")
    }
    shown = walls.together(p, built)
    for rule in (RULES["heel.leg_least"], RULES["heel.leg_most"]):
        assert abs(campaign.over(rule, rule.solid, p, shown[rule.id])) <= campaign.AGREE
