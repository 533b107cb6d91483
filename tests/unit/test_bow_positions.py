"""Check the frog over its travel: contact on the diagonals, slackening, rules."""

import math

import numpy as np
import pytest
import shapely
from readers.corpus import FILES, pattern

from templates_gen.bow import catalogue, rules
from templates_gen.bow.dims.frames import frog_at, of_group, positions
from templates_gen.bow.dims.travel import Travel
from templates_gen.mechanics.assembly import FROG

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])
FACET = math.sqrt(2) - 1


def flats(v, x):
    """Handle across flats at x from the butt: it tapers evenly."""
    thins = v["stick.across_flats_handle_end"] - v["stick.across_flats_butt"]
    return v["stick.across_flats_butt"] + thins * x / v["stick.handle_length"]


def octagon(a):
    """Across the stick at a place; the eight corners at the across-corners radius."""
    radius = a / 2 / math.cos(math.pi / 8)
    turns = (math.pi / 8 + k * math.pi / 4 for k in range(8))
    return shapely.Polygon([(radius * math.cos(t), radius * math.sin(t)) for t in turns])


def seat(p, x):
    """Both diagonals of the seat at x from the heel in the frog's frame, as one bent line."""
    d = p.derive(Travel).frog.seat
    half, level = float(d.land_at(x)) / 2, float(d.land_height(x))
    rise = float(d.trench_height(x))
    right = [(half, level), (half + rise, level + rise)]
    return shapely.LineString([*((-y, z) for y, z in right[::-1]), *right])


@every_file
@pytest.mark.parametrize("where", ["rearmost", "play", "foremost"])
def test_frog_hangs_on_the_diagonals_everywhere(stem, where):
    """Under any place of the frog the stick's octagon touches both diagonals, and nothing else.

    Independent: shapely's distance between the octagon and the seat.
    """
    p = pattern(stem)
    v = p.values
    heel, bottom = positions(p)[where]
    for x in (1.0, v["eyelet.from_heel"], v["frog.length_top"]):
        stick = octagon(flats(v, heel + x))
        line = shapely.affinity.translate(seat(p, x), 0.0, bottom)
        assert line.distance(stick) == pytest.approx(0.0, abs=1e-9)
        # Nothing of the stick lies below the seat: what they share is two lines of no area.
        below = shapely.Polygon([*line.coords, (99.0, -99.0), (-99.0, -99.0)])
        assert below.intersection(stick).area == pytest.approx(0.0, abs=1e-9)
        (left, *_, right) = (shapely.Point(q) for q in list(line.coords)[1:-1])
        land = shapely.LineString([left, right])
        assert land.distance(stick) > 0.01


@every_file
def test_in_play_the_facet_over_the_eyelet_is_at_the_clear_height(stem):
    p = pattern(stem)
    v = p.values
    heel, bottom = positions(p)["play"]
    facet = -flats(v, heel + v["eyelet.from_heel"]) / 2
    assert facet - bottom == pytest.approx(v["frog.clear_height"], abs=1e-9)
    assert heel == pytest.approx(v["frog.front_at_play"] - v["frog.length_bottom"], abs=1e-9)


@every_file
def test_ends_of_the_travel_are_the_slots_ends(stem):
    p = pattern(stem)
    v, at = p.values, positions(p)
    half, start = v["eyelet.length"] / 2, v["stick.mortise_from_butt"]
    eyelets = {where: x + v["eyelet.from_heel"] for where, (x, _) in at.items()}
    assert eyelets["rearmost"] - half == pytest.approx(start, abs=1e-9)
    assert eyelets["foremost"] + half == pytest.approx(start + v["stick.mortise_length"], abs=1e-9)
    assert eyelets["rearmost"] < eyelets["play"] < eyelets["foremost"]


def test_on_a_handle_that_thins_forward_the_frog_rises_as_it_goes():
    """Half the flats' change, and as much again of the land's: a′ / √2 for each millimetre."""
    p = pattern("violin").with_("stick.across_flats_handle_end", 8.05)
    taper = (8.05 - p.values["stick.across_flats_butt"]) / p.values["stick.handle_length"]
    (rear, low), (_, play), (fore, high) = (
        positions(p)[w] for w in ("rearmost", "play", "foremost")
    )
    assert low < play < high
    assert (high - low) / (fore - rear) == pytest.approx(-taper / math.sqrt(2), rel=1e-12)
    straight = pattern("violin").with_("stick.across_flats_handle_end", 8.6)
    assert len({z for _, z in positions(straight).values()}) == 1


def test_frames_place_parts_in_the_frog():
    """The ferrule's plate on the bottom plane, the slide's own x toward the heel."""
    p = pattern("violin")
    shoulder = p.values["frog.length_bottom"] - p.values["ferrule.length"]
    frames = of_group(p, FROG)
    assert frames["ferrule"].origin == (shoulder, 0.0, p.values["ferrule.plate_thickness"])
    assert frames["slide"].origin == (shoulder, 0.0, 0.0)
    assert frames["slide"].x == (-1.0, 0.0, 0.0)
    x, z = positions(p)["foremost"]
    assert frog_at(p, "foremost").origin == (x, 0.0, z)
    # No part is turned over: each frame's x and z are square to one another, and of length 1.
    for f in frames.values():
        assert np.dot(f.x, f.z) == 0.0
        assert np.linalg.norm(f.x) == np.linalg.norm(f.z) == 1.0


# --- slackening ------------------------------------------------------------------------------

#: How much the camber rises from slack to play. Common practice, no source.
TIGHTENED = {"violin": 8, "viola": 9, "cello": 10, "bass-french": 12, "bass-german": 12}


@every_file
def test_slackening_follows_the_trade_definition(stem):
    """Δ = (g/cam) [8 cam²/3L + (4 cam/L)(h_f + h_h + a)] + 0.0023 L; common practice, no source."""
    p = pattern(stem)
    v = p.values
    cam, long = v["stick.camber_depth"], v["hair.length"]
    heights = v["frog.clear_height"] + (v["head.height"] - v["stick.diameter_head"])
    heights += v["stick.across_flats_butt"]
    arc = 8 * cam**2 / (3 * long) + 4 * cam / long * heights
    expected = TIGHTENED[p.family.name] / cam * arc + 0.0023 * long
    assert float(p.derive(Travel).slackening) == pytest.approx(expected, rel=1e-12)


def test_share_of_the_arc_is_that_of_a_flat_parabola():
    """An arc is longer than its chord by 8 c²/3L (any handbook); here the arc is summed.

    Taking away the turning of the hair's line and its stretch leaves that share.
    """
    p = pattern("violin").with_("frog.clear_height", 0.0).with_("head.height", 5.3)
    p = p.with_many({"stick.diameter_head": 5.3, "stick.across_flats_butt": 0.0})
    cam, long = p.values["stick.camber_depth"], p.values["hair.length"]
    x = np.linspace(0.0, long, 20001)
    y = 4 * cam * x * (long - x) / long**2
    longer = np.hypot(np.diff(x), np.diff(y)).sum() - long
    share = (float(p.derive(Travel).slackening) - 0.0023 * long) * cam / TIGHTENED["violin"]
    # The handbook's is the first term of a series.
    assert share == pytest.approx(longer, rel=0.01)


# --- rules, many at once ---------------------------------------------------------------------

MANY = {
    "frog.front_at_play": np.linspace(47.0, 60.0, 14),
    "stick.mortise_length": np.linspace(15.0, 20.0, 14),
    "eyelet.from_heel": np.linspace(18.0, 21.0, 14),
}


@pytest.mark.parametrize(
    "rule", [r for r in catalogue.rules() if r.part == "bow"], ids=lambda r: r.id
)
@pytest.mark.parametrize("key", MANY)
def test_arrays_agree_with_single_patterns(rule, key):
    p = pattern("violin")
    whole = np.broadcast_to(rule.bound(p.with_(key, MANY[key])).margin, MANY[key].shape)
    each = [float(rule.bound(p.with_(key, float(v))).margin) for v in MANY[key]]
    assert whole == pytest.approx(each, abs=1e-12)


def test_farther_forward_in_play_it_tightens_better_and_slackens_worse():
    p = pattern("violin").with_("frog.front_at_play", MANY["frog.front_at_play"])
    assert (np.diff(rules.tightens.bound(p).margin) > 0).all()
    assert (np.diff(rules.slackens.bound(p).margin) < 0).all()
    # By a millimetre for each millimetre.
    assert np.diff(rules.tightens.bound(p).margin) == pytest.approx([1.0] * 13, abs=1e-9)
    assert np.diff(rules.slackens.bound(p).margin) == pytest.approx([-1.0] * 13, abs=1e-9)


def test_a_longer_slot_is_more_travel_and_less_cover():
    p = pattern("violin").with_("stick.mortise_length", MANY["stick.mortise_length"])
    step = 5.0 / 13
    assert np.diff(rules.travel.bound(p).margin) == pytest.approx([step] * 13, abs=1e-9)
    t = p.derive(Travel)
    assert np.diff(t.slot_behind) == pytest.approx([-step] * 13, abs=1e-9)
    assert np.diff(t.slot_ahead) == pytest.approx([-step] * 13, abs=1e-9)
