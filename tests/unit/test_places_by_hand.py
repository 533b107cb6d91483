"""Check where a failed check points: at its template, on or between the lines that it judges.

Source: geometry; places that follow from the stated numbers alone are calculated here again.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from outside.by_hand import Bow
from outside.maker import PARAMS

from templates_gen.bow import catalogue
from templates_gen.checks.rule import Rule
from templates_gen.drawing.view import View
from templates_gen.pipeline import rendering

RULES = {rule.id: rule for rule in catalogue.rules()}
PLACED = [rule for rule in RULES.values() if rule.place is not None]
TEMPLATES = {t.name: t for t in catalogue.templates()}
#: These point into the wood between two lines, or at a place that has no line of its own.
BETWEEN = {
    "frog.mortise_to_throat",
    "frog.plug",
    "frog.hollow_runs_out",
    "frog.dovetail_wall",
    "head.mortise_to_back",
    "underslide.wings",
    "bow.leather",
}


@pytest.fixture(scope="module", params=["violin", "bass-french"])
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


def shown(b: Bow, rule: Rule) -> tuple[View, tuple[float, float], str]:
    """The view that is pointed at, the point, and the template's name."""
    if not np.isfinite(float(np.max(rule.bound(b.p).measured))):
        pytest.skip("this bow has no such part")
    assert rule.place is not None
    place = rule.place(b.p)
    assert place is not None
    name, (x, y) = place
    assert TEMPLATES[name].wanted(b.p)
    return TEMPLATES[name].views(b.p)[0], (float(x), float(y)), name


@pytest.mark.parametrize("rule", PLACED, ids=[rule.id for rule in PLACED])
def test_a_check_points_at_a_line_of_its_template(bow: Bow, rule: Rule) -> None:
    view, at, _ = shown(bow, rule)
    off = min(s.path.distance(at) for s in view.strokes)
    if rule.id in BETWEEN:
        left, low, right, high = view.box
        assert left <= at[0] <= right
        assert low <= at[1] <= high
    else:
        assert off < 0.15, at


def _at(key: str) -> Callable[[Bow], float]:
    return lambda b: float(b(key))


def _zero(b: Bow) -> float:
    return 0.0


def _half(key: str) -> Callable[[Bow], float]:
    return lambda b: float(b(key)) / 2


PLACES: dict[str, tuple[str, Callable[[Bow], float], Callable[[Bow], float]]] = {
    "stick.wood_behind_mortise": ("stick-handle", _half("stick.mortise_from_butt"), _zero),
    "stick.mortise_roof": (
        "stick-handle",
        lambda b: b.slot_end,
        lambda b: b("stick.mortise_depth") - b.handle(b.slot_end) / 2,
    ),
    "stick.mortise_mouth": (
        "stick-mortise-card",
        lambda b: b.slot_end,
        _half("stick.mortise_width"),
    ),
    "stick.facet_planed": ("stick-butt", _zero, lambda b: -b.handle(0.0) / 2),
    "stick.nipple_wall": (
        "stick-butt",
        lambda b: (b("stick.nipple_diameter") + b("stick.rear_bore")) / 4,
        _zero,
    ),
    "stick.nipple_shoulder": (
        "stick-butt",
        lambda b: (b("stick.across_flats_butt") + b("stick.nipple_diameter")) / 4,
        _zero,
    ),
    "screw.does_not_bottom": (
        "stick-handle",
        lambda b: b.slot_end + b("screw.bearing_depth"),
        _zero,
    ),
    "screw.tip_in_bearing": ("stick-handle", _at("screw.length"), _zero),
    "screw.thread_starts": ("stick-handle", _at("screw.thread_start"), _zero),
    "screw.thread_reaches": ("stick-handle", _at("screw.thread_end"), _zero),
    "screw.thread_stops": ("stick-handle", _at("screw.thread_end"), _zero),
    "screw.in_rear_bore": (
        "stick-handle",
        _half("stick.mortise_from_butt"),
        _half("stick.rear_bore"),
    ),
    "slide.passes_step": ("slide-dovetail", _zero, _at("slide.thickness")),
    "slide.taper": (
        "slide-outline",
        _at("slide.length"),
        lambda b: (b("slide.width_front") - b("slide.width_taper")) / 2,
    ),
    "heel.leg_least": ("frog-bottom", lambda b: b.leg_zone / 2, _zero),
    "heel.leg_most": ("frog-bottom", lambda b: b.leg_zone / 2, _zero),
    "heel.rear_top": ("frog-rear", _zero, _at("heel.rear_leg")),
    "frog.seat_over_plate": ("frog-rear", _zero, _at("heel.rear_leg")),
    "head.wider_than_ribbon": ("head-face", _zero, _half("head.width")),
    "head.narrower_than_ferrule": ("head-face", _zero, _half("head.width")),
    "head.ribbon": ("head-face", _at("head.mortise_from_rear"), _zero),
    "head.ribbon_least": ("head-face", _at("head.mortise_from_rear"), _zero),
    "head.ribbon_most": ("head-face", _at("head.mortise_from_rear"), _zero),
    "head.nose_narrows": ("head-face", _at("head.face_length"), _half("head.nose_width")),
    "head.nose_curve": (
        "head-face",
        _at("head.face_width_front_at"),
        _half("head.face_width_front"),
    ),
    "head.face_narrows": (
        "head-face",
        _at("head.face_width_front_at"),
        _half("head.face_width_front"),
    ),
    "head.mortise_straight": (
        "head-face",
        _at("head.face_width_front_at"),
        _half("head.face_width_front"),
    ),
    "head.mortise_over_knot": (
        "head-face",
        _at("head.mortise_from_rear"),
        _half("head.mortise_width"),
    ),
    "head.mortise_sides": (
        "head-face",
        _at("head.mortise_from_rear"),
        lambda b: (
            b("head.width") / 2
            - (b("head.width") - b("head.face_width_front"))
            / 2
            * b("head.mortise_from_rear")
            / b("head.face_width_front_at")
        ),
    ),
    "head.mortise_holds_knot": (
        "head-side",
        _at("head.mortise_from_rear"),
        _at("head.mortise_depth"),
    ),
    "head.mortise_roof": ("head-side", _at("head.mortise_from_rear"), _at("head.mortise_depth")),
    "head.mortise_to_back": (
        "head-side",
        _half("head.mortise_from_rear"),
        _half("head.mortise_depth"),
    ),
    "head.mortise_to_nose": (
        "head-side",
        lambda b: (b.head_mortise_front + b("head.face_length")) / 2,
        _at("head.nose_rise"),
    ),
    "head.ridge_ends_at_nose": (
        "head-side",
        _at("head.face_length"),
        lambda b: b("head.nose_rise") + b("head.nose_thickness"),
    ),
    "frog.mortise_to_heel": ("frog-bottom", _half("frog.hair_mortise_from_heel"), _zero),
    "frog.mortise_to_shoulder": (
        "frog-bottom",
        lambda b: (b.front_wall + b.shoulder) / 2,
        _zero,
    ),
    "frog.hair_mortise_length": ("frog-mortise-card", lambda b: b.front_wall, _zero),
    "frog.hair_mortise_depth": (
        "frog-section-mortise",
        _zero,
        lambda b: b("slide.thickness") + b("frog.hair_mortise_depth"),
    ),
    "frog.hair_mortise_width": (
        "frog-mortise-card",
        lambda b: (b("frog.hair_mortise_from_heel") + b.front_wall) / 2,
        _half("frog.hair_mortise_width"),
    ),
    "frog.slide_spans_mortise": (
        "frog-bottom",
        lambda b: (b("frog.hair_mortise_from_heel") + b.front_wall) / 2,
        _half("frog.hair_mortise_width"),
    ),
    "frog.slide_covers_mortise": ("frog-bottom", _at("frog.hair_mortise_from_heel"), _zero),
    "frog.lip": ("frog-bottom", lambda b: b.front_wall, _zero),
    "frog.throat_undercut": ("frog-side", lambda b: b.shoulder, _at("ferrule.height")),
    "frog.throat_arcs": ("frog-side", lambda b: b.throat, _at("frog.throat_centre_height")),
    "frog.edges_height": ("frog-side", _half("frog.length_top"), _at("frog.overall_height")),
    "frog.edges_rise": ("frog-side", _half("frog.length_top"), _at("frog.clear_height")),
    "frog.edges_in_block": ("frog-rear", _half("frog.width_top"), _at("frog.overall_height")),
    "frog.edges_thickness": ("frog-rear", _half("frog.width_top"), _at("frog.overall_height")),
    "frog.band": ("frog-rear", _half("frog.width_heel"), _at("frog.flank_band")),
    "frog.waist_to_top": (
        "frog-section-waist",
        _half("frog.width_top"),
        _at("frog.overall_height"),
    ),
    "ferrule.ribbon_fits": (
        "ferrule-mandrel",
        lambda b: b("ferrule.outer_width") / 2 - b("ferrule.arch_thickness"),
        _zero,
    ),
    "ferrule.plate": ("ferrule-mandrel", _zero, lambda b: -b("ferrule.plate_thickness") / 2),
    "ferrule.tongue_slides": (
        "ferrule-mandrel",
        _zero,
        lambda b: b("ferrule.height") - b("ferrule.plate_thickness") - b("ferrule.arch_thickness"),
    ),
    "button.bears_on_shoulder": ("button-turning", _at("button.counterbore_depth"), _zero),
    "button.runs_free": (
        "button-turning",
        _at("button.counterbore_depth"),
        _half("button.counterbore_diameter"),
    ),
    "button.core": ("button-turning", _zero, _half("button.counterbore_diameter")),
    "button.flats": ("button-facets", _half("button.across_flats"), _zero),
    "eyelet.ring_wall": ("bow-frog-on-stick", lambda b: b.foremost, _zero),
    "bow.travel": ("bow-frog-on-stick", lambda b: (b.rearmost + b.foremost) / 2, _zero),
    "bow.tightens": ("bow-frog-on-stick", lambda b: b.rearmost, _zero),
    "bow.slot_covered": (
        "bow-frog-on-stick",
        lambda b: b.slot_end,
        lambda b: -b.handle(b.tip_foremost) / 2,
    ),
    "bow.slackens": ("bow-frog-on-stick", lambda b: b.foremost, _zero),
    "bow.no_overhang": ("bow-frog-on-stick", _zero, lambda b: -b.handle(0.0) / 2),
}


@pytest.mark.parametrize("name", PLACES)
def test_a_check_points_where_the_stated_numbers_say(bow: Bow, name: str) -> None:
    _, at, template = shown(bow, RULES[name])
    meant, x, y = PLACES[name]
    assert template == meant
    assert at == pytest.approx((x(bow), y(bow)), abs=1e-6)
