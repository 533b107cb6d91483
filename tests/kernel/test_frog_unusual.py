"""Frogs that pass the checks but whose roundings and tapers meet in unusual ways.

Each was once a solid that did not show the outlines on the sheets.
"""

import math

import pytest
from kernel.bench import BUILDERS, pattern
from kernel.test_frog_cuts import flank, seat
from kernel.test_frog_features import wood_of

from templates_gen.tolerances import SECTION

pytestmark = pytest.mark.kernel

CLOSE = 1e-6


def made(stem, changes):
    """A frog with some values changed: its values and its solid."""
    p = pattern(stem).with_many(changes)
    return p.values, BUILDERS["frog"].build(BUILDERS["frog"].recipe(p))


def error(frog):
    from templates_gen.kernel import solids

    return solids.section_error(frog)


TALL_AND_THICK = {
    "frog.overall_height": 40.08528523718592,
    "frog.thumb_tip_thickness": 5.41497597903741,
}


@pytest.mark.parametrize("kind", ["lined", "none"])
def test_seat_floor_cuts_into_the_rounding_of_a_thick_thumb_tip(kind):
    """The rounding starts half a tip's thickness below the edges; here the floor is higher."""
    v, frog = made("bass-german", {**TALL_AND_THICK, "underslide.kind": kind})
    r, tip, top = (
        v["frog.thumb_tip_thickness"] / 2, v["frog.length_top"], v["frog.overall_height"]
    )  # fmt: skip
    level, _, lining, _ = seat(v, tip)
    z = level - lining - 0.01
    assert z > top - r
    rounded = tip - r + math.sqrt(r**2 - (z - top + r) ** 2)
    assert rounded < tip - 0.002
    (*_, (_, end)) = wood_of(frog.solid, (40.0, 0.0, z), (80.0, 0.0, z))
    assert 40.0 + end == pytest.approx(rounded, abs=CLOSE)
    assert error(frog) <= SECTION


@pytest.mark.parametrize(
    ("stem", "changes"),
    [
        ("violin", {"heel.top_radius": 2.5}),
        ("violin", {"heel.top_radius": 2.5, "underslide.kind": "none", "heel.kind": "none"}),
        ("bass-german", {"heel.top_radius": 5.0}),
    ],
)
def test_seat_floor_cuts_into_the_rounding_of_the_heel(stem, changes):
    """The rounding touches the edges' horizontal and the leaning heel, its centre r from both."""
    v, frog = made(stem, changes)
    r, top, lean = v["heel.top_radius"], v["frog.overall_height"], math.radians(v["heel.lean_deg"])
    level, _, lining, _ = seat(v, 0.0)
    z = level - lining - 0.02
    # x = 0 is the foot's rearmost point; the heel's line is extended to its sharp corner.
    foot = v["heel.bottom_radius"]
    corner = foot - foot * math.tan((math.pi / 2 + lean) / 2)
    centre = corner + (top - r) * math.tan(lean) + r / math.cos(lean)
    assert z > top - r
    rounded = centre - math.sqrt(r**2 - (z - top + r) ** 2)
    ((start, _), *_) = wood_of(frog.solid, (-5.0, 0.0, z), (25.0, 0.0, z))
    assert start - 5.0 == pytest.approx(rounded, abs=CLOSE)
    assert error(frog) <= SECTION


@pytest.mark.parametrize("wide", [21.4, 24.0])
def test_flanks_are_hollowed_on_a_frog_wider_at_the_heel(wide):
    """The cutter extends beyond the block at both ends, so that no thin skin is left."""
    v, frog = made("bass-german", {"frog.width_heel": wide})
    radius, waist = flank(v)
    for x in (2.0, 9.5, 19.0):
        for z in (waist, v["frog.overall_height"] - 1.5):
            y = v["frog.width_waist"] / 2 + radius - math.sqrt(radius**2 - (z - waist) ** 2)
            (*_, (_, end)) = wood_of(frog.solid, (x, 0.0, z), (x, 40.0, z))
            # In the eye's recess the flank is deeper.
            assert end == pytest.approx(y, abs=CLOSE) or y - v["frog.eye_thickness"] - 1 < end < y
    assert error(frog) <= SECTION


@pytest.mark.parametrize("thick", [1.5, 1.7])
def test_lips_rounding_is_long_where_its_ramp_climbs(thick):
    """A rounding by an angle φ starts r tan(φ / 2) above the corner, level with its centre."""
    v, frog = made("bass-german", {"slide.thickness": thick})
    front = v["frog.hair_mortise_from_heel"] + v["frog.hair_mortise_length"]
    shoulder, r = v["frog.length_bottom"] - v["ferrule.length"], v["frog.lip_radius"]
    (start, _), *_ = wood_of(frog.solid, (shoulder - 1e-7, 0.0, 0.0), (shoulder - 1e-7, 0.0, 60.0))
    climb = math.atan((start - thick) / (shoulder - front))
    assert climb > 0.05
    middle = thick + r * math.tan(math.pi / 4 + climb / 2)
    for ahead in (0.2 * r, 0.7 * r, r + 0.9 * r * math.sin(climb)):
        ((low, _), *_) = wood_of(frog.solid, (front + ahead, 0.0, 0.0), (front + ahead, 0.0, 60.0))
        assert low == pytest.approx(middle - math.sqrt(r**2 - (ahead - r) ** 2), abs=CLOSE)
    assert error(frog) <= SECTION
