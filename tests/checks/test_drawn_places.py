"""Rules of form, heel and eye compared with the same places on the drawing, read from DXF."""

import math

import pytest
from outside.maker import FAMILIES, drawn, on, stated

from templates_gen import registry
from templates_gen.checks.judge import judge
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims

RULES = {r.id: r for r in registry.rules()}


def measured(p, rule_id):
    """Return what a rule measures without tolerances."""
    return float(RULES[rule_id].bound(p).measured)


def holes(p, template):
    """Centre and radius of each drilled hole."""
    found = [e for e in on(drawn(p, template), "DRILL") if e.kind == "CIRCLE"]
    assert found
    return [(complex(e.number(10), e.number(20)), e.number(40)) for e in found]


@pytest.mark.parametrize("camber", ["uniform", "even-strain"])
@pytest.mark.parametrize("family", FAMILIES)
def test_wood_between_the_holes_and_the_forms_edge(family, camber):
    """Measure from the holes' lower rims to the highest point of the curved edge."""
    p = stated(family, {"stick.camber": camber})
    (board,) = on(drawn(p, "form-bending"), "OUTLINE")
    bent = [z.imag for z, bulge in board.corners if bulge]
    rim = min(at.imag - r for at, r in holes(p, "form-bending"))
    # The rule offsets the thickness vertically and reads the ends: a fifth of a millimetre.
    assert measured(p, "form.holes") == pytest.approx(rim - max(bent), abs=0.2)


@pytest.mark.parametrize("family", FAMILIES)
def test_wood_between_the_heels_pins(family):
    p = stated(family)
    (one, r), (other, _) = sorted(holes(p, "heel-plate"), key=lambda hole: hole[0].real)
    between = other.real - one.real - 2 * r
    assert measured(p, "heel.pins_apart") == pytest.approx(between, abs=1e-5)


def test_rejects_pins_that_overlap():
    for family in FAMILIES:
        p = stated(family, {"heel.pin_from_edge": 12.0})
        assert judge(RULES["heel.pins_apart"], p).stops, family


@pytest.mark.parametrize("family", FAMILIES)
def test_the_eyes_lower_rim_is_on_the_hollow_as_far_from_its_axis_as_its_radius(family):
    """Geometry: a cylinder square to the hollow at the eye's middle meets it at its rim."""
    d = stated(family).derive(FrogDims)
    z0, lean = float(d.eye[1]), float(d.eye_lean)
    y0, z = float(d.flank.half_width(z0)), float(d.eye_rim)
    y = float(d.flank.half_width(z))
    # From the axis, square to it: the component along (-sin, cos).
    aside = -(y - y0) * math.sin(lean) + (z - z0) * math.cos(lean)
    assert aside == pytest.approx(-float(d.params.eye_diameter) / 2, abs=1e-9)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_eyes_rim_and_the_hollows_foot_are_where_the_section_has_them(family):
    """Across the frog at the eye's middle: the right edge goes up the band, then the hollow."""
    p = stated(family)
    section = outline.across(p, float(p.derive(FrogDims).eye[0]))
    (hollow,) = sorted(
        (s for s in section.segments if s.start[0] > 0 and not s.is_line),
        key=lambda s: s.start[1],
    )[:1]
    low, high = sorted((hollow.start[1], hollow.end[1]))
    assert measured(p, "frog.eye_over_band") == pytest.approx(high - low, abs=1e-6)


def test_rejects_an_eye_that_reaches_the_band():
    p = stated("bass-french", {"frog.flank_band": 10.0})
    assert judge(RULES["frog.eye_over_band"], p).stops
    without = stated("bass-french", {"frog.flank_band": 10.0, "frog.eye_kind": "none"})
    assert not judge(RULES["frog.eye_over_band"], without).applies


@pytest.mark.parametrize("family", FAMILIES)
def test_rejects_edges_wider_than_the_block(family):
    """The section from the button, in the file, is no wider than the heel where the check holds."""
    rule = RULES["frog.edges_in_block"]
    heel = min(float(stated(family).values["frog.width_heel"]), 18.0)
    for beyond, refused in ((-0.4, False), (0.4, True)):
        edges = {"frog.width_heel": heel, "frog.width_top": heel + beyond}
        p = stated(family, {**edges, "frog.eye_kind": "none"})
        (section,) = on(drawn(p, "frog-rear"), "OUTLINE")
        wide = 2 * max(abs(z.real) for z, _ in section.corners)
        assert wide == pytest.approx(max(heel, heel + beyond), abs=1e-5)
        assert judge(rule, p).stops == refused
