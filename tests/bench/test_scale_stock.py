"""Screws by thread, sheet by gauge, bores by drill: whatever moves comes in sizes there are."""

import json

import pytest
from bench.test_scale import pattern

import templates_gen
from templates_gen import registry
from templates_gen.bench.weigh.levers import NUMBERS
from templates_gen.bench.weigh.reach import reach_target
from templates_gen.bench.weigh.target import Target
from templates_gen.bench.weigh.weighing import weigh
from templates_gen.bow import catalogue
from templates_gen.checks.cure import candidate_cures, cure
from templates_gen.checks.judge import judge
from templates_gen.cli import main
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parameters.stock import DRILL, SHEET, THREAD
from templates_gen.pipeline import judging, rendering

#: ISO 261, coarse pitch: first choice, then second, from 2 to 8 mm. Checked against two lists
#: of thread designations in public repositories: M2x0.4, M2.2x0.45 … M8x1.25.
ISO_261 = {2, 2.5, 3, 4, 5, 6, 8} | {2.2, 3.5, 4.5, 7}

KNOWN = registry.SCHEMA.parameters
STOCKED = {key: q for key, q in KNOWN.items() if q.stock is not None}


def test_screw_sheet_and_bores_declare_their_series():
    assert set(THREAD.sizes) == ISO_261
    assert STOCKED["screw.diameter"].stock is THREAD
    assert {key for key, q in STOCKED.items() if q.stock is DRILL} == {
        "stick.rear_bore",
        "stick.front_bore",
        "form.hole_diameter",
    }
    assert {"underslide.thickness", "heel.plate_thickness", "button.ring_sheet"} <= {
        key for key, q in STOCKED.items() if q.stock is SHEET
    }


@pytest.mark.parametrize("family", FAMILIES)
def test_what_is_usual_is_sold(family):
    for key, q in STOCKED.items():
        assert q.stock.holds(bands(family)[key].figure), (family, key)


@pytest.mark.parametrize("to", [f for f in FAMILIES if f != "cello"])
@pytest.mark.parametrize("diameter", [2.85, 3.15, 3.3, 3.4])
def test_a_screw_of_ones_own_becomes_one_a_tap_cuts(tmp_path, to, diameter):
    """3.15 on a cello was 4.15 on a bass."""
    p = pattern(tmp_path, "cello", screw__diameter=diameter)
    p = p.with_("stick.rear_bore", diameter + 0.15)
    scaled = templates_gen.scale(p, to)
    made = scaled.pattern.values
    was, now = (bands(f)["screw.diameter"].figure for f in ("cello", to))
    assert was == now or made["screw.diameter"] in ISO_261
    assert made["stick.rear_bore"] > made["screw.diameter"]
    assert scaled.failing == ()


@pytest.mark.parametrize("family", ["cello", "bass-french", "bass-german"])
def test_bores_follow_a_screw_that_is_set_and_the_eyelet_goes_round_it(tmp_path, family):
    p = pattern(tmp_path, family)
    diameter = p.values["screw.diameter"] + 0.5
    scaled = templates_gen.scale(p, settings={"screw.diameter": diameter})
    made, why = scaled.pattern.values, {c.key: c.why for c in scaled.changes}
    assert scaled.failing == ()
    for key in ("stick.rear_bore", "stick.front_bore"):
        assert made[key] == pytest.approx(p.values[key] + 0.5)
        assert why[key] == "diameter +0.5"
    # Metal beside the thread: the eyelet and its mortise are wide enough for it.
    assert made["eyelet.width"] - diameter >= (1.0 if "bass" in family else 0.7)
    assert 0.1 <= made["stick.mortise_width"] - made["eyelet.width"] <= 0.3


@pytest.mark.parametrize(
    ("family", "failing"),
    [
        # The bore of 3.6 needs a nipple of 3.6 + 2 × 0.85 and its ±0.1, 5.4; the counterbore of
        # 5.55 that runs on it leaves too little of the core in a button of 8.6, not in one of 9.
        ("violin", {"eyelet.ring_wall", "stick.nipple_wall"}),
        ("viola", {"eyelet.ring_wall"}),
    ],
)
def test_a_screw_too_thick_for_the_handle_is_reported(tmp_path, family, failing):
    """3.5 + 2 × 0.35 of metal and 0.1 of play leave less than a quarter of 8.6 on either side."""
    scaled = templates_gen.scale(pattern(tmp_path, family), settings={"screw.diameter": 3.5})
    assert {r.rule.id for r in scaled.failing} == failing
    # No one number cures the nipple: with one wide enough, the button's core is too weak.
    wider = {"stick.nipple_diameter": 5.4, "button.counterbore_diameter": 5.55}
    then = {r.rule.id for r in judging.results(scaled.pattern.with_many(wider)) if r.stops}
    assert "stick.nipple_wall" not in then
    assert ("button.core" in then) == ("stick.nipple_wall" in failing)


@pytest.mark.parametrize(
    ("family", "key", "value", "check"),
    [
        ("violin", "stick.rear_bore", 2.9, "screw.in_rear_bore"),
        ("violin", "button.ring_sheet", 0.4, "button.ring_sheet"),
        ("bass-french", "screw.diameter", 4.8, "eyelet.ring_wall"),
    ],
)
def test_a_cure_names_a_size_that_is_sold(tmp_path, family, key, value, check):
    p = pattern(tmp_path, family).with_(key, value)
    rule = next(r for r in catalogue.rules() if r.id == check)
    failed = judge(rule, p)
    assert failed.stops
    offered = {c.key: c.value for c in candidate_cures(failed, p) if c.key in STOCKED}
    assert key in offered
    for each, size in offered.items():
        assert STOCKED[each].stock.holds(size), (each, size)
        assert judge(rule, p.with_(each, size)).verdict != "fail"
    results = [judge(r, p) for r in catalogue.rules()]
    assert cure(failed, p, results) is not None


@pytest.mark.parametrize(
    ("value", "nearest"), [(4.15, 4.0), (4.24, 4.0), (4.26, 4.5), (1.0, 2.0), (30.0, 8.0)]
)
def test_the_nearest_thread(value, nearest):
    assert THREAD.nearest(value) == nearest


def test_sizes_beyond_a_value_come_nearest_first():
    assert list(THREAD.beyond(4.0, 1.0))[:2] == [4.0, 4.5]
    assert list(THREAD.beyond(3.9, -1.0))[:2] == [3.5, 3.0]
    assert not list(THREAD.beyond(8.1, 1.0))


def test_explain_names_the_series(capsys):
    assert main(["explain", "screw.diameter"]) == 0
    description = " ".join(capsys.readouterr().out.split())
    assert "steps to the nearest coarse-thread size" in description
    assert "3, 3.5, 4, 4.5, 5" in description
    assert "ISO 261" in description


def test_the_table_of_scaling_names_the_kind_of_size(tmp_path, capsys):
    out = tmp_path / "bass.toml"
    start = tmp_path / "violin.toml"
    assert main(["new", "violin", "-o", str(start)]) == 0
    capsys.readouterr()
    assert main(["scale", str(start), "--to", "bass-french", "-o", str(out), "--json"]) == 0
    why = {c["key"]: c["why"] for c in json.loads(capsys.readouterr().out)["changes"]}
    assert why["screw.diameter"] == "coarse-thread size +1"
    assert why["underslide.thickness"] == "sheet size +0.15"
    assert why["stick.rear_bore"] == "drill size +1.1"
    assert rendering.read(str(out)).values["screw.diameter"] == 4.0


@pytest.mark.parametrize("change", [-0.8, -0.5, 0.6])
def test_weight_is_tuned_with_sheet_that_is_sold(tmp_path, change):
    """With sheet alone to move, or with the lapping that makes up for the rest."""
    p = pattern(tmp_path, "violin")
    sheet = [key for key, q in STOCKED.items() if q.stock is SHEET and key in NUMBERS]
    weighed = weigh(p)
    target = Target(mass=weighed.total + change)
    found = [reach_target(weighed, target, keys) for keys in (sheet, [*sheet, "lapping.length"])]
    assert found[0].changes.keys() & set(sheet)
    for each in found:
        for key in each.changes.keys() & set(sheet):
            assert SHEET.holds(float(each.changes[key])), (key, each.changes[key])
    assert found[1].met
