"""Check that every clearance has the trade's limit, the right sense and the right severity.

Source: each limit and each measured length is written here a second time, from the list of
clearances that makers keep (common practice, no source, but where a line names one), in the
numbers a maker states (``outside.by_hand``). No formula of the package is used.
"""

from __future__ import annotations

from collections.abc import Callable
from math import sqrt
from typing import NamedTuple

import numpy as np
import pytest
from outside.by_hand import FACET, Bow
from outside.maker import FAMILIES, PARAMS

from templates_gen.bow import catalogue
from templates_gen.pipeline import rendering

RULES = {rule.id: rule for rule in catalogue.rules()}


class Limit(NamedTuple):
    """A clearance: its sense, whether it stops the cutting, its limit, and what is measured."""

    sense: str
    severity: str
    limit: Callable[[Bow], float]
    measured: Callable[[Bow], float] | None = None


E, W = "error", "warning"


def _bass(basses: float, others: float) -> Callable[[Bow], float]:
    return lambda b: basses if b.bass else others


def _of(key: str) -> Callable[[Bow], float]:
    return lambda b: float(b(key))


def _is(number: float) -> Callable[[Bow], float]:
    return lambda b: number


LIMITS = {
    "hair.thickness": Limit("<=", W, _is(0.9), lambda b: b.ribbon),
    # Handle, screw, button.
    "stick.mortise_roof": Limit(
        ">=",
        E,
        lambda b: 0.22 * b.handle(b.slot_end),
        lambda b: b.handle(b.slot_end) - b("stick.mortise_depth"),
    ),
    "stick.mortise_cheeks": Limit(
        ">=",
        E,
        lambda b: b.handle(b.slot_end) / 4,
        lambda b: (b.handle(b.slot_end) - b("stick.mortise_width")) / 2,
    ),
    "stick.mortise_mouth": Limit(
        "<=", W, lambda b: (FACET + 0.06) * b.handle(b.slot_end), _of("stick.mortise_width")
    ),
    "stick.facet_planed": Limit(
        "<=", W, lambda b: 1.1 * FACET * b.handle(0.0), _of("stick.bottom_facet")
    ),
    "stick.wood_behind_mortise": Limit(
        ">=", E, lambda b: 2 * b("stick.across_flats_butt"), _of("stick.mortise_from_butt")
    ),
    "stick.nipple_wall": Limit(
        ">=", E, _is(0.85), lambda b: (b("stick.nipple_diameter") - b("stick.rear_bore")) / 2
    ),
    "stick.nipple_shoulder": Limit(
        ">=",
        E,
        _is(1.0),
        lambda b: (b("stick.across_flats_butt") - b("stick.nipple_diameter")) / 2,
    ),
    "stick.never_thickens": Limit(
        ">=",
        E,
        _is(-0.1),
        lambda b: min(
            b("stick.across_flats_butt") - b("stick.across_flats_handle_end"),
            b("stick.across_flats_handle_end") - b("stick.diameter_head"),
        ),
    ),
    "stick.bend_radius": Limit(
        ">=",
        E,
        lambda b: 33 * (b("stick.across_flats_handle_end") + b("stick.bent_oversize")),
    ),
    "eyelet.clears_roof": Limit(
        ">=",
        E,
        lambda b: b.handle(b("stick.mortise_from_butt")) / 2 + b("eyelet.height_above_axis") + 0.15,
        _of("stick.mortise_depth"),
    ),
    "eyelet.runs_free": Limit(
        ">=", E, _is(0.1), lambda b: b("stick.mortise_width") - b("eyelet.width")
    ),
    "eyelet.no_rattle": Limit(
        "<=", E, _is(0.3), lambda b: b("stick.mortise_width") - b("eyelet.width")
    ),
    "eyelet.ring_wall": Limit(
        ">=", E, _bass(0.5, 0.35), lambda b: (b("eyelet.width") - b("screw.diameter")) / 2
    ),
    "screw.does_not_bottom": Limit(
        "<=", E, lambda b: b.slot_end + b("screw.bearing_depth") - 0.5, _of("screw.length")
    ),
    "screw.tip_in_bearing": Limit(">=", E, _is(6.0), lambda b: b("screw.length") - b.slot_end),
    "screw.thread_starts": Limit(
        "<=", E, _of("stick.mortise_from_butt"), _of("screw.thread_start")
    ),
    "screw.thread_reaches": Limit(">=", E, lambda b: b.slot_end - 1, _of("screw.thread_end")),
    "screw.thread_stops": Limit("<=", E, lambda b: b.slot_end, _of("screw.thread_end")),
    "screw.in_rear_bore": Limit(">=", E, _of("screw.diameter"), _of("stick.rear_bore")),
    "button.bears_on_shoulder": Limit(
        ">=", E, lambda b: b("stick.nipple_length") + 0.2, _of("button.counterbore_depth")
    ),
    "button.runs_free": Limit(
        ">=",
        E,
        _is(0.05),
        lambda b: b("button.counterbore_diameter") - b("stick.nipple_diameter"),
    ),
    "button.runs_true": Limit(
        "<=",
        E,
        _is(0.25),
        lambda b: b("button.counterbore_diameter") - b("stick.nipple_diameter"),
    ),
    "button.core": Limit(">=", E, lambda b: 0.9 if b("button.kind") == "three-piece" else 0.7),
    "button.ring_sheet": Limit(
        ">=",
        E,
        lambda b: (
            (0.0412 * b("button.across_flats") if b("button.kind") == "three-piece" else 0) + 0.15
        ),
        _of("button.ring_sheet"),
    ),
    "button.flats": Limit(
        "<=",
        W,
        _is(0.12),
        lambda b: abs(b("button.across_flats") - b("stick.across_flats_butt")),
    ),
    # Frog on stick.
    "frog.does_not_rock": Limit(">=", E, _is(0.05), _of("frog.land_relief")),
    "frog.seat_over_travel": Limit(
        "<=",
        E,
        _is(0.05),
        lambda b: abs(b.handle(1.0) - b.handle(0.0)) * (b.foremost - b.rearmost) / 4,
    ),
    "frog.edges_height": Limit(
        "<=",
        E,
        lambda b: 0.27 * b.handle(b.tip_foremost),
        lambda b: b("frog.overall_height") - b("frog.clear_height"),
    ),
    "frog.edges_thickness": Limit(">=", E, _is(0.3)),
    "frog.edges_in_block": Limit(">=", E, _of("frog.width_top")),
    "frog.seat_over_plate": Limit(">=", E, _is(0.3)),
    "frog.edges_rise": Limit(
        ">=", E, _is(0.0), lambda b: b("frog.overall_height") - b("frog.clear_height")
    ),
    "bow.travel": Limit(
        ">=",
        E,
        lambda b: 0.011 * b("hair.length") + 4,
        lambda b: b("stick.mortise_length") - b("eyelet.length"),
    ),
    "bow.tightens": Limit(">=", E, lambda b: b.rearmost + 2, lambda b: b.in_play),
    "bow.slackens": Limit("<=", E, lambda b: b.foremost),
    "bow.no_overhang": Limit(">=", E, _is(0.0), lambda b: b.rearmost - b("eyelet.from_heel")),
    "bow.slot_covered": Limit(">=", W, _is(0.0)),
    "bow.leather": Limit(">=", W, lambda b: b.tip_foremost + 0.5, _of("leather.from_butt")),
    "bow.handle": Limit(
        ">=",
        W,
        lambda b: b.slot_end - b("eyelet.from_heel") + b("frog.length_top") + 5,
        _of("stick.handle_length"),
    ),
    # Ferrule and slide.
    "ferrule.ribbon_fits": Limit(
        ">=",
        E,
        lambda b: b("hair.ribbon_width_frog") + 0.6,
        lambda b: b("ferrule.outer_width") - 2 * b("ferrule.arch_thickness"),
    ),
    "ferrule.wedge_spreads": Limit(">=", E, lambda b: b("hair.ribbon_width_frog") - 0.5),
    "ferrule.tongue_height": Limit(
        ">=",
        E,
        _bass(4.0, 2.4),
        lambda b: b("ferrule.height") - b("ferrule.arch_thickness") - 0.1 - b.step,
    ),
    "ferrule.plate": Limit(
        ">=",
        W,
        lambda b: (b("ferrule.outer_width") - 2 * b("ferrule.arch_thickness")) / 17,
        _of("ferrule.plate_thickness"),
    ),
    "ferrule.tongue_slides": Limit(">=", E, _is(0.05), _of("ferrule.tongue_fit")),
    "ferrule.tongue_holds": Limit("<=", E, _is(0.15), _of("ferrule.tongue_fit")),
    "ferrule.taper_enters": Limit(">=", E, _is(0.1), _of("ferrule.tongue_taper")),
    "ferrule.taper_holds": Limit("<=", E, _is(0.2), _of("ferrule.tongue_taper")),
    "ferrule.flush": Limit("<=", E, _is(0.05), lambda b: b("ferrule.tongue_fit") / 2),
    "slide.passes_step": Limit(">=", E, lambda b: b("slide.thickness") + 0.1, lambda b: b.step),
    "slide.fits_channel": Limit("<=", W, _is(0.05), lambda b: abs(b("slide.channel_fit"))),
    "slide.taper": Limit("<=", W, _is(0.05), lambda b: abs(b("slide.width_taper") - 0.3)),
    "heel.leg_least": Limit(">=", E, _is(4.0), lambda b: b.leg_zone),
    "heel.leg_most": Limit("<=", E, _is(9.0), lambda b: b.leg_zone),
    "heel.meets_slide": Limit("<=", W, _is(0.3), lambda b: b.leg_zone - b("heel.leg_length")),
    "heel.overlaps_slide": Limit("<=", W, _is(1.5), lambda b: b("heel.leg_length") - b.leg_zone),
    "heel.leg_straight": Limit(">=", E, _is(1.5)),
    "heel.rear_straight": Limit(">=", E, _is(3.0)),
    "heel.rear_top": Limit(
        ">=",
        E,
        _of("heel.rear_leg"),
        lambda b: b("frog.overall_height") - b("heel.top_radius"),
    ),
    "heel.pin_edge": Limit(
        ">=", E, _is(1.5), lambda b: b("heel.pin_from_edge") - b("heel.pin_diameter") / 2
    ),
    "underslide.corner": Limit("<=", E, lambda b: b("frog.land_relief") / sqrt(2)),
    "underslide.wings": Limit(">=", E, _is(1.0)),
    # The frog's throat, flank and pockets.
    "frog.throat_undercut": Limit(
        ">=",
        E,
        _of("frog.throat_depth"),
    ),
    "frog.throat_arcs": Limit(">=", E, _is(2.0)),
    "frog.thumb_line": Limit(">=", E, lambda b: 1.5 * b("frog.thumb_tip_thickness")),
    "frog.waist_behind_throat": Limit(
        ">=",
        E,
        lambda b: max(8.0, b("frog.throat_depth")),
    ),
    "frog.waist_to_top": Limit(
        ">=", E, lambda b: b("frog.width_waist") + 0.1, _of("frog.width_top")
    ),
    "frog.waist_to_heel": Limit(
        ">=", E, lambda b: b("frog.width_waist") + 0.1, _of("frog.width_heel")
    ),
    "frog.band": Limit(">=", E, lambda b: b("slide.thickness") + 0.8, _of("frog.flank_band")),
    "frog.hollow_runs_out": Limit(">=", W, lambda b: b.throat),
    "frog.mortise_to_throat": Limit(">=", E, _is(2.0)),
    "frog.mortise_to_shoulder": Limit(">=", E, _is(3.0), lambda b: b.shoulder - b.front_wall),
    # The wall behind it, less the heel plate's bed, is measured on the solid.
    "frog.mortise_to_heel": Limit(">=", E, _is(4.0)),
    "frog.mortise_to_flank": Limit(">=", E, _is(0.9)),
    "frog.mortise_to_seat": Limit(">=", E, _is(2.0)),
    "frog.hair_mortise_depth": Limit(
        ">=", E, lambda b: b.knot + 2.5, _of("frog.hair_mortise_depth")
    ),
    "frog.hair_mortise_width": Limit(">=", E, lambda b: b.knot + 1, _of("frog.hair_mortise_width")),
    "frog.hair_mortise_length": Limit(
        ">=", E, lambda b: b.knot + 4, _of("frog.hair_mortise_length")
    ),
    "frog.slide_spans_mortise": Limit(
        "<=",
        E,
        lambda b: b("slide.width_front") - b("slide.width_taper") - 0.4,
        _of("frog.hair_mortise_width"),
    ),
    "frog.dovetail_wall": Limit(">=", E, _is(1.8)),
    "frog.lip": Limit(">=", W, _is(1.0), _of("frog.lip_radius")),
    "frog.plug": Limit(">=", E, _is(2.0), lambda b: b("frog.hair_mortise_depth") - b.knot),
    "frog.shank_to_mortise": Limit(">=", E, _is(1.0)),
    "frog.shank_to_throat": Limit(">=", E, _is(2.0)),
    "frog.eye_to_mortise": Limit(">=", E, _is(0.6)),
    "frog.eye_to_throat": Limit(">=", E, _is(2.0)),
    "frog.eye_to_edge": Limit(">=", E, _is(2.0)),
    "frog.eye_to_bottom": Limit(">=", E, _is(2.0)),
    "frog.eye_to_heel": Limit(">=", E, _is(2.0)),
    # Head.
    "head.mortise_sides": Limit(">=", E, _is(1.2)),
    "head.mortise_side_rear": Limit(
        ">=", E, lambda b: (0.10 if b.bass else 0.16) * b("head.width")
    ),
    "head.mortise_to_back": Limit(">=", E, _is(4.0)),
    # How near its undercut front wall comes to the nose's curve is measured on the solid.
    "head.mortise_to_nose": Limit(">=", E, _is(8.0)),
    "head.mortise_roof": Limit(
        ">=",
        E,
        lambda b: 1.8 * b("stick.diameter_head"),
        lambda b: b("head.height") - b("head.mortise_depth"),
    ),
    "head.mortise_to_ridge": Limit(">=", E, lambda b: 0.8 * b("stick.diameter_head")),
    "head.mortise_to_facets": Limit(">=", E, _is(1.2)),
    "head.mortise_holds_knot": Limit(
        ">=",
        E,
        lambda b: b.knot + 1.5,
        lambda b: b("head.mortise_depth") - b("head.plate_thickness") - b("head.liner_thickness"),
    ),
    "head.mortise_over_knot": Limit(">=", E, lambda b: b.knot + 1, lambda b: b.head_narrowest),
    "head.ridge_radii": Limit(">=", E, _is(4.0)),
    "head.back_straight": Limit(">=", E, _is(1.0)),
    "head.nose_curve": Limit(
        ">=", E, _is(3.0), lambda b: b("head.face_length") - b("head.face_width_front_at")
    ),
    "head.nose_narrows": Limit(
        ">=",
        E,
        _is(0.5),
        lambda b: (
            b("head.width")
            + (b("head.face_width_front") - b("head.width"))
            * b("head.face_length")
            / b("head.face_width_front_at")
            - b("head.nose_width")
        ),
    ),
    "head.ribbon": Limit(
        "<=", W, lambda b: b("head.mortise_width") + 1.2, _of("hair.ribbon_width_tip")
    ),
    "head.face_narrows": Limit(">=", W, _of("head.face_width_front"), _of("head.width")),
    "head.plate": Limit(
        ">=",
        W,
        lambda b: 0.5 if b("head.plate_kind") == "metal" else 0.7,
        _of("head.plate_thickness"),
    ),
    "head.wider_than_ribbon": Limit(
        ">=", E, _is(1.8), lambda b: b("head.width") - b("hair.ribbon_width_tip")
    ),
    "head.narrower_than_ferrule": Limit(
        ">=", W, _is(1.5), lambda b: b("ferrule.outer_width") - b("head.width")
    ),
    "head.ribbon_least": Limit(
        ">=",
        W,
        _bass(0.75, 0.68),
        lambda b: b("hair.ribbon_width_tip") / b("hair.ribbon_width_frog"),
    ),
    "head.ribbon_most": Limit(
        "<=",
        W,
        _bass(0.90, 0.80),
        lambda b: b("hair.ribbon_width_tip") / b("hair.ribbon_width_frog"),
    ),
    # The whole bow. Saint-George, The Bow: the slack hair meets the stick, read as 0 to 3.
    "bow.hair_clears": Limit(">=", E, _is(0.0)),
    "bow.hair_near": Limit("<=", W, _bass(9.0, 3.0)),
    "bow.length_adds_up": Limit(
        "<=",
        E,
        _is(5.0),
        lambda b: abs(
            b("stick.length") - b("frog.front_at_play") - b("hair.length") - b("head.face_length")
        ),
    ),
    "bow.hair_clears_in_play": Limit(
        ">=",
        E,
        lambda b: {"violin": 6, "viola": 7, "cello": 8}.get(b.p.identity.family.name, 10),
    ),
    "bow.camber_in_play": Limit(">=", W, _is(3.0)),
    "bow.hair_strength": Limit("<=", W, _is(1.0), lambda b: b("hair.tension_n") / b("hair.count")),
}


@pytest.fixture(scope="module", params=FAMILIES)
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


@pytest.mark.parametrize("name", LIMITS)
def test_sense_and_limit_match_the_trade(bow: Bow, name: str) -> None:
    meant, found = LIMITS[name], RULES[name].bound(bow.p)
    if not np.isfinite(found.measured):
        pytest.skip("this bow has no such part")
    assert found.sense == meant.sense
    assert RULES[name].severity.value == meant.severity
    assert float(found.limit) == pytest.approx(meant.limit(bow), abs=1e-9)


@pytest.mark.parametrize("name", [name for name, limit in LIMITS.items() if limit.measured])
def test_what_is_measured_follows_from_the_stated_numbers(bow: Bow, name: str) -> None:
    measured, found = LIMITS[name].measured, RULES[name].bound(bow.p)
    if not np.isfinite(found.measured):
        pytest.skip("this bow has no such part")
    assert measured is not None
    assert float(found.measured) == pytest.approx(measured(bow), abs=1e-9)


@pytest.mark.parametrize("name", LIMITS)
def test_bound_is_met_from_the_right_side(bow: Bow, name: str) -> None:
    """The margin is the distance to the limit, negative beyond it."""
    found = RULES[name].bound(bow.p)
    more = float(found.measured) - float(found.limit)
    assert float(found.margin) == pytest.approx(more if LIMITS[name].sense == ">=" else -more)


def test_most_rules_are_in_the_table() -> None:
    assert {*LIMITS} <= {*RULES}
    assert len(LIMITS) > 0.85 * len(RULES)
