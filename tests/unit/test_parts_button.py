"""The button: its rules at their limits, its octagon, its counterbore, its volume.

The limits are common practice, no source: a counterbore 0.2 deeper than the nipple is long, a core
of 0.9 in ebony and 0.7 in metal, a ring thick enough that a filed flat (0.0412 of the width over
flats, half of 1/cos 22.5° − 1) leaves 0.15.
"""

import math

import pytest
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.checks.judge import judge
from templates_gen.drawing.sheet import Layer
from templates_gen.parts.button import outline, sheets
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.button.params import ButtonKind

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])
RULES = {r.id.removeprefix("button."): r for r in registry.rules() if r.part == "button"}
METAL = {"button.kind": ButtonKind.FULL_METAL}


def exact(rule, changes):
    """Return the margin of a rule as drawn; negative fails."""
    bound = RULES[rule].bound(pattern("violin").with_many(changes))
    spare = float(bound.measured) - float(bound.limit)
    return spare if bound.sense == ">=" else -spare


#: A rule, what is changed, and the key with its value at the limit.
V = pattern("violin").values
NIPPLE, LONG, ACROSS = (
    V["stick.nipple_diameter"], V["stick.nipple_length"], V["button.across_flats"]
)  # fmt: skip
#: Across flats, by the wood left between the counterbore, which is what is cut, and the sheet.
CORE = {
    wood: V["button.counterbore_diameter"] + 2 * (wood + V["button.ring_sheet"])
    for wood in (0.9, 0.7)
}
TAKEN = (1 / math.cos(math.pi / 8) - 1) / 2
LIMITS = (
    ("bears_on_shoulder", {}, "button.counterbore_depth", LONG + 0.2),
    ("runs_free", {}, "button.counterbore_diameter", NIPPLE + 0.05),
    ("core", {"button.across_flats_end": CORE[0.9]}, "button.across_flats", CORE[0.9]),
    ("core", METAL | {"button.across_flats_end": CORE[0.7]}, "button.across_flats", CORE[0.7]),
    ("ring_sheet", {}, "button.ring_sheet", 0.15 + TAKEN * ACROSS),
    ("ring_sheet", METAL, "button.ring_sheet", 0.15),
)  # fmt: skip


@pytest.mark.parametrize("limit", LIMITS, ids=lambda c: f"{c[0]}-{c[2]}-{len(c[1])}")
def test_rule_passes_at_its_limit_and_fails_a_hundredth_below(limit):
    rule, changes, key, value = limit
    # 0.0412 is 0.04120 to the four figures of the rule.
    assert exact(rule, {**changes, key: value}) == pytest.approx(0.0, abs=2e-4)
    assert exact(rule, {**changes, key: value + 0.01}) > 0
    assert exact(rule, {**changes, key: value - 0.01}) < 0


def test_core_is_measured_where_a_narrowing_button_is_thinnest():
    """By plane geometry: from the edge of the counterbore's floor square to the sloping flat."""
    p = pattern("violin").with_many({"button.across_flats": 9.0, "button.across_flats_end": 7.0})
    deep, long, sheet = (
        V[f"button.{name}"] for name in ("counterbore_depth", "length", "ring_sheet")
    )
    flat = (9.0 - 2.0 * deep / long) / 2 - sheet
    expected = (flat - V["button.counterbore_diameter"] / 2) * math.cos(math.atan(1.0 / long))
    assert float(p.derive(ButtonDims).core_wall) == pytest.approx(expected, abs=1e-9)


def test_a_wide_counterbore_does_not_guide_the_button():
    assert exact("runs_true", {"button.counterbore_diameter": NIPPLE + 0.24}) > 0
    assert exact("runs_true", {"button.counterbore_diameter": NIPPLE + 0.26}) < 0


def test_play_is_judged_at_the_worst_tolerances():
    """Drawn 0.06 wider than the nipple, the counterbore can be less than 0.05 wider."""
    p = pattern("violin").with_("button.counterbore_diameter", NIPPLE + 0.06)
    assert exact("runs_free", {"button.counterbore_diameter": NIPPLE + 0.06}) > 0
    assert judge(RULES["runs_free"], p).stops


def test_warns_of_flats_of_another_width():
    p = pattern("violin").with_("button.across_flats", ACROSS + 0.2)
    result = judge(RULES["flats"], p)
    assert result.verdict == "fail"
    assert not result.stops


@every_file
@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_section_is_a_regular_octagon(stem, share):
    """0.8284271 d², a facet 0.4142136 d (any standard handbook)."""
    v = pattern(stem).values
    wide = v["button.across_flats"] + share * (
        v["button.across_flats_end"] - v["button.across_flats"]
    )
    path = outline.section(pattern(stem), share * v["button.length"])
    assert path.area == pytest.approx(0.8284271 * wide**2, rel=1e-7)
    assert [q.length for q in path.segments] == pytest.approx([0.4142136 * wide] * 8, rel=2e-7)


@every_file
def test_it_is_turned_to_the_corners(stem):
    """1.0823922 across corners (any standard handbook), at the butt end."""
    v, path = pattern(stem).values, outline.turning(pattern(stem))
    left, low, right, high = path.box
    assert (left, right) == pytest.approx((0.0, v["button.length"]), abs=1e-9)
    assert high - low == pytest.approx(1.0823922 * v["button.across_flats"], rel=1e-7)
    corners = float(pattern(stem).derive(ButtonDims).corners)
    assert corners == pytest.approx(high - low, rel=1e-12)


@every_file
def test_facet_card_has_the_octagon(stem):
    v = pattern(stem).values
    (view,) = sheets.facets.views(pattern(stem))
    (hole,) = [s.path for s in view.strokes if s.layer is Layer.POCKET]
    assert len(hole.segments) == 8
    assert hole.area == pytest.approx(0.8284271 * v["button.across_flats"] ** 2, rel=1e-7)


@pytest.mark.kernel
@every_file
def test_solid_is_an_octagonal_frustum_less_counterbore_and_hole(stem):
    """h/3 (A + √(A B) + B), less a cylinder and the part of a second beyond it (any handbook)."""
    from templates_gen.parts.button import solid

    v = pattern(stem).values
    a, b, long = (v["button.across_flats"], v["button.across_flats_end"], v["button.length"])
    whole = (2 * math.sqrt(2) - 2) * long / 3 * (a * a + a * b + b * b)
    bore, deep = v["button.counterbore_diameter"], v["button.counterbore_depth"]
    taken = math.pi / 4 * (bore**2 * deep + v["screw.diameter"] ** 2 * (0.6 * long - deep))
    made = solid.build(solid.recipe(pattern(stem))).solid
    assert made.Volume(1e-9) == pytest.approx(whole - taken, rel=1e-6)
