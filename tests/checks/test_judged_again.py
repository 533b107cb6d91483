"""Judging a changed pattern from earlier results gives the results of a full judgement."""

import random

import pytest
from outside.maker import stated

from templates_gen import registry
from templates_gen.checks.judge import judge, judge_anew
from templates_gen.parameters import UNTRACKED, Pattern


def every(p):
    return [judge(rule, p) for rule in registry.rules()]


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_reuses_only_results_that_cannot_have_changed(family):
    """Change some numbers (seeded) by two per cent, and one ±; the rules of mass and tension depend
    on more than a cure may move, and are judged again."""
    p = stated(family)
    known = every(p)
    numbers = [key for key, q in p.schema.parameters.items() if q.numeric and p.values[key]]
    for key in ["material.stick_modulus", *random.Random(5).sample(numbers, 12)]:
        q = p.schema.parameters[key]
        value = p.values[key] + (1 if q.whole else 0.02 * p.values[key])
        then = p.with_(key, value)
        # Another, equal pattern: a judged one remembers its results.
        assert judge_anew(known, p, then) == every(p.with_(key, value)), key
    looser = Pattern(p.schema, p.identity, p.values, {**p.tolerances, "frog.clear_height": 0.3})
    found = judge_anew(known, p, looser)
    assert found == every(looser.with_many({}))
    assert found != known


def test_reuses_most_results():
    p = stated("violin")
    known = every(p)
    anew = judge_anew(known, p, p.with_("screw.diameter", 2.6))
    kept = sum(a is b for a, b in zip(known, anew, strict=True))
    assert kept > len(known) / 2
    unwatched = [r.rule.id for r in known if UNTRACKED in r.depends_on]
    assert {"bow.mass", "bow.balance", "bow.pull", "bow.hair_clears_in_play"} <= {*unwatched}


def test_judges_everything_for_another_family():
    violin, bass = stated("violin"), stated("bass-french")
    assert judge_anew(every(violin), violin, bass) == every(stated("bass-french").with_many({}))
