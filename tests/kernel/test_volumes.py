"""Volumes of the solids against closed forms and, for the frog, its integrated sections."""

import math

import pytest
from kernel.bench import built, built_even, even, having, pattern, recipe
from kernel.frog_sums import summed
from kernel.test_stick_solid import blend_volume, frustums
from scipy.integrate import quad

from templates_gen.parts.eyelet.dims import EyeletDims
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.tolerances import VOLUME_EXACT, VOLUME_FREE

pytestmark = pytest.mark.kernel


def volume(stem, part):
    return built(stem, part).solid.Volume()


@pytest.mark.parametrize("stem", having("ferrule"))
def test_ferrule_is_outside_less_opening(stem):
    r = recipe(stem, "ferrule")
    expected = (r.outside.area - r.opening.area) * pattern(stem).values["ferrule.length"]
    assert volume(stem, "ferrule") == pytest.approx(expected, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("slide"))
def test_slide_is_a_tapered_dovetail(stem):
    """L t (mean width + t tan β): the mean of its width along, and half the spread at the floor."""
    v = pattern(stem).values
    length, thick = v["slide.length"], v["slide.thickness"]
    mean = v["slide.width_front"] - v["slide.width_taper"] / 2
    mean += thick * math.tan(math.radians(v["slide.dovetail_deg"]))
    assert volume(stem, "slide") == pytest.approx(length * thick * mean, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("heel"))
def test_heel_plate_is_two_legs_and_a_bend(stem):
    """Its section: two rectangles and a sector of a ring."""
    v = pattern(stem).values
    t, outer = v["heel.plate_thickness"], v["heel.bottom_radius"]
    turn = math.radians(90 + v["heel.lean_deg"])
    straight = v["heel.leg_length"] - outer + v["heel.rear_leg"] - outer * math.tan(turn / 2)
    section = straight * t + turn / 2 * (outer**2 - (outer - t) ** 2)
    expected = section * v["frog.width_heel"]
    assert volume(stem, "heel") == pytest.approx(expected, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("underslide"))
def test_underslide_is_three_strips_less_a_hole(stem):
    """Strips of the sheet's thickness, mitred where two meet: t tan 22.5° less on the outside."""
    p = even(stem)
    v, d = p.values, p.derive(FrogDims).seat
    t, wing = v["underslide.thickness"], float(d.stop) * math.sqrt(2)
    section = (float(d.land) + 2 * wing) * t + 2 * t * t * math.tan(math.pi / 8)
    length = v["frog.length_top"] - v["heel.top_radius"] - v["frog.thumb_tip_thickness"] / 2
    hole = disc(d.shank_hole) * t
    # The hole is entirely in the land, so it removes a cylinder.
    assert float(d.shank_hole) < float(d.land)
    solid = built_even(stem, "underslide").solid
    assert solid.Volume() == pytest.approx(section * length - hole, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("underslide"))
def test_tapered_underslide_is_mean_section_times_length(stem):
    """Ruled between similar sections, so the area of the section changes linearly."""
    r, v = recipe(stem, "underslide"), pattern(stem).values
    mean = (r.at_start.area + r.at_end.area) / 2
    # The sheet's slope along the land is too small to change the hole's vertical thickness.
    expected = mean * (r.end - r.start) - r.hole.area * v["underslide.thickness"]
    assert volume(stem, "underslide") == pytest.approx(expected, rel=VOLUME_EXACT)


def disc(diameter):
    return math.pi / 4 * float(diameter) ** 2


@pytest.mark.parametrize("stem", having("screw"))
def test_screw_is_two_cylinders(stem):
    v = pattern(stem).values
    thread, length = v["screw.thread_end"], v["screw.length"]
    tip = v["stick.front_bore"] - 0.1
    expected = disc(v["screw.diameter"]) * thread + disc(tip) * (length - thread)
    assert tip < v["screw.diameter"]
    assert volume(stem, "screw") == pytest.approx(expected, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("eyelet"))
def test_eyelet_is_a_box_and_a_shank_less_a_bore(stem):
    v, d = pattern(stem).values, pattern(stem).derive(EyeletDims)
    assert v["eyelet.shank_diameter"] < min(v["eyelet.width"], v["eyelet.length"])
    body = (float(d.body_top - d.body_foot)) * v["eyelet.width"]
    bored = (body - disc(v["screw.diameter"] + 0.2)) * v["eyelet.length"]
    shank = disc(v["eyelet.shank_diameter"]) * float(d.body_foot - d.shank_end)
    assert volume(stem, "eyelet") == pytest.approx(bored + shank, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", having("stick"))
def test_stick_is_an_octagon_less_bores_and_slot(stem):
    """Octagon 0.8284271 a² (any handbook); ahead of it the blend, and cones between stations."""
    v = pattern(stem).values
    long, a0 = v["stick.handle_length"], v["stick.across_flats_butt"]
    slope = (v["stick.across_flats_handle_end"] - a0) / long
    whole = (2 * math.sqrt(2) - 2) * quad(lambda x: (a0 + slope * x) ** 2, 0, long)[0]
    nipple = disc(v["stick.nipple_diameter"]) * v["stick.nipple_length"]
    start = v["stick.mortise_from_butt"]
    end, wide = start + v["stick.mortise_length"], v["stick.mortise_width"]

    def slot(x):
        # A mouth wider than the facet loses a 45° triangle on each side.
        beyond = max(0.0, wide - (math.sqrt(2) - 1) * (a0 + slope * x))
        return wide * v["stick.mortise_depth"] - (beyond / 2) ** 2

    assert max(v["stick.rear_bore"], v["stick.front_bore"]) < wide
    bores = disc(v["stick.rear_bore"]) * (v["stick.nipple_length"] + start)
    bores += disc(v["stick.front_bore"]) * v["screw.bearing_depth"]
    expected = whole + nipple - bores - quad(slot, start, end)[0]
    expected += blend_volume("round", pattern(stem)) + frustums("round", pattern(stem))
    assert volume(stem, "stick") == pytest.approx(expected, rel=VOLUME_EXACT)


@pytest.mark.parametrize("stem", ["violin", "bass-french", "bass-german"])
def test_frog_by_integrating_its_sections(stem):
    """Sections by shapely from the recipe's outlines, integrated along the bow by Gauss's rule."""
    expected = summed(recipe(stem, "frog"))
    assert volume(stem, "frog") == pytest.approx(expected, rel=VOLUME_FREE)
