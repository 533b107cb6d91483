"""Compare closed forms of checks with solids, on walks through every family.

The closed forms are sums in the plane; the solids' finished faces are measured by the kernel. At
nominal values they agree within 0.005 mm, or the closed form is the smaller one and its rule says
why.
"""

import json
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest
from referee import campaign, results, walk

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.checks.rule import Severity
from templates_gen.checks.solid import Measure, NotMeasured

TESTS = Path(__file__).parents[1]

AGREE = campaign.AGREE
#: A chunk that takes longer (s) than this hangs.
PATIENCE = 1500
RULES = {rule.id: rule for rule in catalogue.rules()}
CHUNKS = [(family, number) for family in walk.FAMILIES for number in range(walk.CHUNKS)]


def _claims_too_much(rows):
    return {f"{c['rule']} at {c['where']}": round(c["over"], 4) for c in rows if c["over"] > AGREE}


def _unexplained(rows):
    """List rules whose closed form is smaller than the solid without a stated reason."""
    smaller = {c["rule"] for c in rows if -c["over"] > AGREE}
    return {name for name in smaller if not _explained(name)}


def _explained(name):
    return "Less than the solid's" in (RULES[name].bound.__doc__ or "")


@cache
def _chunk(family, number):
    """One chunk, judged in a process of its own: the modeller may crash."""
    call = [sys.executable, "-m", "referee.campaign", family, str(number), str(walk.PATTERNS)]
    done = subprocess.run(
        call, cwd=TESTS, capture_output=True, text=True, timeout=PATIENCE, check=False
    )
    assert done.returncode == 0, f"{family} {number}: {done.returncode}\n{done.stderr[-2000:]}"
    return json.loads(done.stdout)


def test_every_rule_agrees_with_the_solid_or_says_why_not():
    for name, rule in RULES.items():
        assert isinstance(rule.solid, Measure | NotMeasured)
        if isinstance(rule.solid, NotMeasured):
            assert rule.solid.why, name
    measured = [r for r in RULES.values() if isinstance(r.solid, Measure)]
    assert len(measured) > 60
    # Every wall of frog and head stops the cutting; none of them goes unmeasured.
    walls = [r for r in RULES.values() if "_to_" in r.id and r.part in ("frog", "head")]
    unmeasured = {r.id for r in walls if isinstance(r.solid, NotMeasured)}
    assert unmeasured == {"frog.waist_to_top", "frog.waist_to_heel"}
    assert all(r.severity is Severity.ERROR for r in walls)


def test_every_target_is_in_one_chunk():
    for family in walk.FAMILIES:
        shared = [t for number in range(walk.CHUNKS) for t in walk.share(family, number)]
        assert sorted(shared) == sorted(walk.targets(family))
    assert len(CHUNKS) * walk.PATTERNS >= 300


@pytest.mark.slow
def test_stored_differences_cover_the_walk_without_overclaims():
    """The table in the docs is of all patterns and of every rule that is measured.

    It is kept by the whole campaign, which the slow tier runs; after a new rule both must run.
    """
    kept = results.kept()
    assert kept.keys() == {r.id for r in RULES.values() if isinstance(r.solid, Measure)}
    assert max(patterns for patterns, _, _ in kept.values()) == len(CHUNKS) * walk.PATTERNS
    assert {name: over for name, (_, over, _) in kept.items() if over > AGREE} == {}
    smaller = {name for name, (_, _, under) in kept.items() if under > AGREE}
    assert {name for name in smaller if not _explained(name)} == set()


@pytest.mark.kernel
def test_starter_and_first_steps_do_not_overclaim():
    solids = campaign.Solids()
    rows = list(campaign.compare("violin", walk.starter("violin"), solids))
    assert len(rows) > 60
    step = next(walk.walk("violin", 3))
    assert step.reached
    rows += campaign.compare("violin 3.0", step.pattern, solids)
    rows = [{"where": c.where, "rule": c.rule, "over": c.over} for c in rows]
    assert _claims_too_much(rows) == {}
    assert _unexplained(rows) == set()


@pytest.mark.kernel
def test_detects_an_overclaim():
    """The bass whose mortise ends beside the nose: extending the straight cheek overclaims."""
    p = walk.starter("bass-french").with_many(
        {
            "head.mortise_undercut_deg": 12.0,
            "head.mortise_depth": 14.0,
            "head.face_width_front": 17.36,
        }
    )
    builder = next(b for b in registry.builders() if b.part == "head")
    shown = campaign.walls.alone("head", builder.build(builder.recipe(p)))
    rule = RULES["head.mortise_sides"]
    v = p.values
    foot = 6.0 + 12.0 + 14.0 * 0.2125565617
    grows = (v["head.face_width_front"] - v["head.width"]) / v["head.face_width_front_at"]
    straight = (v["head.width"] + grows * foot) / 2 - 14.0 * 0.0436609429
    width = 14.5 + (13.5 - 14.5) / 12.0 * (foot - 6.0)
    assert straight - width / 2 > shown[rule.id] + 10 * AGREE
    assert abs(campaign.over(rule, rule.solid, p, shown[rule.id])) <= AGREE


@pytest.mark.slow
@pytest.mark.kernel
@pytest.mark.parametrize(("family", "number"), CHUNKS)
def test_walk_does_not_overclaim(family, number):
    found = _chunk(family, number)
    assert found["broken"] == {}
    assert found["refused"] == {}
    reached = [tuple(t) for t in found["reached"]]
    missed = [t for t in walk.share(family, number) if t not in reached]
    assert [t for t in missed if t not in results.IMPOSSIBLE.get(family, ())] == []
    assert _claims_too_much(found["compared"]) == {}
    assert _unexplained(found["compared"]) == set()
    assert results.worse_than_kept(found["compared"]) == {}
