"""Weighing: what it adds up to, against sums done another way."""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from mechanics.elements import buckling_load, height_under_tension
from outside.maker import FAMILIES, PARAMS, stated
from scipy.optimize import minimize

from templates_gen import weigh
from templates_gen.bench.weigh.levers import NUMBERS, WORDS, changes_of, levers, reach_of
from templates_gen.bench.weigh.reach import reach_target
from templates_gen.bench.weigh.target import Target
from templates_gen.bow import catalogue
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.tension import Tension
from templates_gen.checks.judge import judge
from templates_gen.mechanics.beam import beam
from templates_gen.mechanics.columns import buckling_loads, heights_under_tension
from templates_gen.mechanics.materials import materials
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.stick.dims_sections import StickSections
from templates_gen.pipeline import rendering
from templates_gen.shapes.stick_section import d_section_properties


def test_the_balance_is_the_sum_of_moments_over_the_sum_of_masses(bow):
    mass = sum(float(q.mass) for q in bow.pieces)
    moment = sum(float(q.mass) * float(q.x) for q in bow.pieces)
    assert bow.total == pytest.approx(mass, rel=1e-12)
    assert bow.from_butt == pytest.approx(moment / mass, rel=1e-12)
    assert bow.from_ferrule == pytest.approx(moment / mass - 54.0, rel=1e-12)


def test_a_gram_moves_the_balance_by_its_arm_over_the_new_mass(bow):
    """(x − x̄) / (M + 1), from Σ m x / Σ m: a lapping whose length weighs one gram more."""
    longer = bow.changed({"lapping.gauge": 0.5 + 0.37})
    gained = longer.total - bow.total
    (lapping,) = (q for q in bow.pieces if q.name == "lapping")
    arm = float(lapping.x) - bow.from_butt
    expected = gained * arm / (bow.total + gained)
    assert gained == pytest.approx(1.0, abs=0.1)
    assert longer.from_butt - bow.from_butt == pytest.approx(expected, rel=1e-9)


def test_one_diameter_changes_the_stick_by_what_the_integral_says():
    """Two per cent on the thickness at the head, against a sum over thin round slices."""
    p = stated("violin")
    more = p.with_("stick.diameter_head", 5.3 * 1.02)

    def ahead(q):
        """Grams of the round stick from where the octagon has run out, in slices of 0.05 mm."""
        d = q.derive(StickSections).dims
        edges = np.linspace(140.0, float(d.face_rear), 11301)
        x = (edges[1:] + edges[:-1]) / 2
        return float((np.pi / 4 * d.diameter(x) ** 2 * np.diff(edges)).sum()) * 1050e-6

    def stick(q):
        return float(q.derive(StickSections).bulk[0]) * 1050e-6

    # Between handle's end and there the section is between octagon and circle: 0.5 % of the change.
    assert stick(more) - stick(p) == pytest.approx(ahead(more) - ahead(p), rel=0.01)
    assert stick(more) - stick(p) > 0.2


def test_the_d_section_is_half_an_octagon_and_half_a_disc():
    """Sections worked out in the plane: area 0.80691 a², I 0.05185 a⁴, centroid 0.0089 a low."""
    d = d_section_properties(10.0)
    assert d.area == pytest.approx(80.691, rel=1e-4)
    assert d.inertia == pytest.approx(518.5, rel=1e-3)
    assert d.centroid == pytest.approx(-0.089, abs=1e-3)


def test_the_lapping_weighs_its_turns():
    """70 mm of 0.28 mm silver wire round 8.4 mm: turns times the length of one times its area."""
    p = stated("violin", {"lapping.kind": "silver wire", "lapping.gauge": 0.28})
    turns = 70 / 0.28
    wire = turns * np.pi * (8.4 + 0.28) * np.pi / 4 * 0.28**2
    expected = wire * 10360e-6
    m = p.derive(MaterialDims)
    found = m.density(m.lapping_material) * 1e-6 * m.lapping_area(8.4) * 70
    assert found == pytest.approx(expected, rel=1e-12)
    assert expected == pytest.approx(4.34, abs=0.01)


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_many_columns_at_once_are_as_one(family):
    """The quick calculation of the checks against the beam's."""
    t = stated(family).derive(Tension)
    pull = float(t.hair.tension_n)

    def between_hinges(length):
        x = np.linspace(0.0, length, len(t.places))
        return x, beam((0, length), lambda at: np.interp(at, x, t.stiffness), lambda at: 0 * at, 60)

    # It buckles as a straight stick, and is drawn up from the bent one.
    _, straight = between_hinges(float(t.travel.stick.run))
    assert t.buckling == pytest.approx(buckling_load(straight), rel=2e-3)
    x, bent = between_hinges(float(t.travel.stick.chord))
    heights = height_under_tension(bent, lambda at: np.interp(at, x, t.unstrung), pull)
    drawn = np.interp(x, bent.nodes, heights) - t.thickness / 2
    assert np.abs(drawn - t.in_play).max() < 0.05


def test_many_columns_against_the_handbooks_column():
    """Euler's π² EI / L², and h / cos(kL/2) for a straight column pulled off its axis: 7.5 mm
    round at 22 GPa, 650 mm, 20 mm arms, 30 N (any handbook)."""
    ei = 22e3 * np.pi / 64 * 7.5**4
    stiffness = np.full((2, 41), ei)
    assert buckling_loads(stiffness, np.full(2, 650.0)) == pytest.approx(
        np.pi**2 * ei / 650**2, rel=1e-6
    )
    heights = heights_under_tension(
        stiffness, np.full((2, 41), 20.0), np.full(2, 650.0), np.full(2, 30.0)
    )
    middle = 20.0 / np.cos(np.sqrt(30.0 / ei) * 650 / 2)
    assert heights[:, 20] == pytest.approx(middle, rel=1e-6)


def test_rules_take_many_bows_at_once():
    p = stated("violin")
    pulls = np.array([20.0, 38.0, 44.0])
    many = p.with_("hair.tension_n", pulls).derive(Tension)
    each = [p.with_("hair.tension_n", float(n)).derive(Tension) for n in pulls]
    assert many.clear_in_play == pytest.approx([float(t.clear_in_play) for t in each])
    wide = p.with_("stick.diameter_head", np.array([5.2, 5.3]))
    assert wide.derive(Masses).total[1] == pytest.approx(float(p.derive(Masses).total))
    assert wide.derive(Masses).total[0] < wide.derive(Masses).total[1]


@pytest.mark.parametrize(
    ("changes", "check"),
    [
        ({"hair.tension_n": 15.0}, "bow.hair_clears_in_play"),
        ({"hair.tension_n": 62.0}, "bow.camber_in_play"),
        ({"hair.tension_n": 72.0}, "bow.pull"),
        ({"hair.count": 60, "hair.tension_n": 65.0}, "bow.hair_strength"),
        ({"stick.diameter_head": 8.0}, "bow.mass"),
        ({"lapping.kind": "silver wire", "lapping.gauge": 0.9}, "bow.balance"),
    ],
)
def test_each_check_can_fail(changes, check):
    (rule,) = (r for r in catalogue.rules() if r.id == check)
    assert judge(rule, stated("violin", changes)).verdict == "fail"
    assert judge(rule, stated("violin")).verdict != "fail"


def test_the_window_is_where_both_limits_hold(bow):
    low, high = bow.stick.window
    t = bow.pattern.derive(Tension)
    for pull, good in (
        (low - 0.5, False),
        (low + 0.1, True),
        (high - 0.1, True),
        (high + 1, False),
    ):
        p = bow.pattern.with_("hair.tension_n", pull)
        then = p.derive(Tension)
        sound = then.clear_in_play >= 6 and then.camber_in_play >= 3
        assert bool(sound and pull <= 0.7 * t.buckling) is good


def test_every_lever_does_what_it_says(bow):
    found = {lever.description: lever for lever in levers(bow)}
    assert found["lapping none"].mass == pytest.approx(
        -next(float(q.mass) for q in bow.pieces if q.name == "lapping")
    )
    assert found["lapping silver wire"].mass > 2
    assert found["stick 0.1 mm thicker behind the head"].balance > 0
    assert found["frog 1 mm higher"].balance < 0
    for lever in found.values():
        then = bow.changed(lever.changes)
        assert then.total - bow.total == pytest.approx(lever.mass, abs=1e-12)


def test_lists_a_lever_for_every_number_but_those_of_absent_parts(bow):
    def listed(w):
        return {key for lever in levers(w) for key in lever.changes}

    assert {*NUMBERS, *WORDS} <= listed(bow)
    assert "lapping.length" not in listed(bow.changed({"lapping.kind": "none"}))


def test_a_target_within_reach_is_reached_and_by_little(bow):
    target = Target(59.9, 196.5)
    found = reach_target(bow, target, ["lapping.length", "lapping.gauge", "stick.diameter_head"])
    assert found.met
    assert found.then.total == pytest.approx(59.9, abs=0.05)
    assert found.then.from_ferrule == pytest.approx(196.5, abs=0.3)
    anew = bow.changed(found.changes)
    assert anew.total == pytest.approx(found.then.total, abs=1e-9)
    # Where numbers alone can, no word changes; and what is there already stays as it is.
    assert (
        "lapping.kind"
        not in reach_target(bow, Target(59.6), ["lapping.kind", "lapping.gauge"]).changes
    )
    assert reach_target(bow, Target(bow.total, bow.from_ferrule), []).changes == {}


def test_an_unreachable_target_gives_the_nearest_bow(bow):
    found = reach_target(bow, Target(80.0), ["lapping.length", "lapping.gauge"])
    assert not found.met
    assert set(found.stuck) == {"lapping.length", "lapping.gauge"}
    assert bow.total < found.then.total < 80


def test_few_things_change_and_the_stick_last(bow):
    found = reach_target(bow, Target(bow.total + 0.8, bow.from_ferrule - 1.5), [])
    assert found.met
    assert not any(key.startswith("stick.") for key in found.changes)
    levers_moved = {k for k in found.changes if k in NUMBERS or k in WORDS}
    assert len(levers_moved) <= 3
    # What the lapping can add is not added to the stick.
    only = reach_target(bow, Target(bow.total + 0.5), ["stick.diameter_head"])
    both = reach_target(bow, Target(bow.total + 0.5), ["stick.diameter_head", "lapping.length"])
    assert only.met and both.met
    head = [found.changes["stick.diameter_head"] for found in (only, both)]
    assert 5.3 < head[1] < head[0]
    assert both.changes["lapping.length"] > 70.0


def test_the_nearest_is_no_farther_than_a_general_minimiser_gets(bow):
    """SciPy's L-BFGS-B, from the middle of the bands, on the same bow."""
    keys = ["lapping.length", "lapping.gauge", "button.length", "heel.plate_thickness"]
    target = Target(52.0, bow.from_ferrule + 1.0)
    found = reach_target(bow, target, keys)
    bounds = [reach_of(bow.pattern, key) for key in keys]

    def miss(values):
        changes = changes_of(bow.pattern, dict(zip(keys, values, strict=True)))
        return float(np.sum(target.misses(bow.changed(changes)) ** 2))

    best = minimize(miss, np.mean(bounds, axis=1), bounds=bounds)
    assert not found.met
    assert np.sum(target.misses(found.then) ** 2) <= best.fun * 1.001 + 1e-3


def test_materials_named_are_in_the_table():
    for family in FAMILIES:
        p = stated(family)
        for q in p.derive(Masses).pieces:
            assert q.material in materials() or q.material == "soft wood"


@pytest.mark.kernel
def test_weighing_what_is_known_needs_no_modeller_and_is_quick(tmp_path):
    file = str(PARAMS / "violin.toml")
    weigh(rendering.read(file))
    code = (
        "import sys; from templates_gen.cli import main; s = main(sys.argv[1:]); "
        "print([m for m in sys.modules if m in ('cadquery', 'OCP')], file=sys.stderr); sys.exit(s)"
    )
    call = [sys.executable, "-c", code, "weigh", file, "--json"]
    done = subprocess.run(call, capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"
    told = json.loads(done.stdout)
    assert list(told) == [
        "file",
        "total_g",
        "balance_from_butt_mm",
        "balance_from_ferrule_mm",
        "parts",
        "stick",
        "levers",
    ]
    mass = sum(part["mass_g"] for part in told["parts"])
    moment = sum(part["mass_g"] * part["x_mm"] for part in told["parts"])
    assert told["balance_from_butt_mm"] == pytest.approx(moment / mass, rel=1e-12)
    assert Path(file).is_file()
