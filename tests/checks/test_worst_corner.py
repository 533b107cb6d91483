"""The reported corner is the worst one, and arrays give the results of single numbers."""

from itertools import product

import numpy as np
import pytest
from checks.drive import shipped, some_patterns

from templates_gen import registry
from templates_gen.checks.judge import judge
from templates_gen.tolerances import BOUND

#: Up to this count every corner is tried; beyond it, this many random ones.
EVERY, DRAWN = 12, 4096

RULES = pytest.mark.parametrize("rule", registry.rules(), ids=lambda r: r.id)


def near(seed):
    return [*shipped().values(), *some_patterns(seed, 4, spread=0.05)]


def toleranced(rule, p):
    return [k for k in p.reads(rule.bound) if p.tolerance(k) > 0]


def margins(rule, p, keys, moves):
    """Return the margin with some numbers moved by multiples of their tolerance."""
    at = {k: p.values[k] + p.tolerance(k) * moves[:, i] for i, k in enumerate(keys)}
    with np.errstate(all="ignore"):
        bound = rule.bound(p.with_many(at))
    low = bound.measured - bound.limit
    return np.broadcast_to(low if bound.sense == ">=" else -low, len(moves))


@RULES
def test_no_corner_is_worse_than_the_one_judged(rule):
    rng = np.random.default_rng(3)
    for p in near(1):
        keys = toleranced(rule, p)
        if len(keys) <= EVERY:
            corners = np.array(list(product((-1.0, 1.0), repeat=len(keys)))).reshape(
                -1 if keys else 1, len(keys)
            )
        else:
            corners = rng.choice((-1.0, 1.0), (DRAWN, len(keys)))
        worst = margins(rule, p, keys, corners).min()
        judged = judge(rule, p)
        if np.isnan(worst):  # at some corner the shape does not exist, which is the worst
            assert judged.verdict == "fail"
            continue
        assert judged.margin <= worst + 1e-9
        if len(keys) <= EVERY:
            assert judged.margin == pytest.approx(worst, abs=1e-9)
        apart = judged.measured - judged.limit
        assert judged.margin == pytest.approx(apart if judged.sense == ">=" else -apart, abs=1e-12)


@RULES
def test_nowhere_between_the_corners_is_worse(rule):
    """Judging only corners is enough only if no rule is worst in between."""
    rng = np.random.default_rng(4)
    for p in near(2):
        keys = toleranced(rule, p)
        within = rng.uniform(-1, 1, (500, len(keys)))
        least, judged = margins(rule, p, keys, within).min(), judge(rule, p)
        assert least >= judged.margin - BOUND or judged.verdict == "fail"


@RULES
def test_arrays_give_the_results_of_single_numbers(rule):
    for seed, p in enumerate(some_patterns(5, 10)):
        rng = np.random.default_rng(seed)
        known = p.schema.parameters
        with np.errstate(all="ignore"):
            keys = [k for k in p.reads(rule.bound) if known[k].numeric]
        at = {k: rng.uniform(known[k].low, known[k].high, 5) for k in keys}
        with np.errstate(all="ignore"):
            many = rule.bound(p.with_many(at))
            single = [
                rule.bound(p.with_many({k: np.float64(v[i]) for k, v in at.items()}))
                for i in range(5)
            ]
        assert all(s.sense == many.sense for s in single)
        for figure in ("measured", "limit"):
            found = np.broadcast_to(getattr(many, figure), 5)
            expected = [float(getattr(s, figure)) for s in single]
            np.testing.assert_allclose(found, expected, rtol=1e-9, atol=1e-12)


@RULES
def test_every_rule_can_be_judged_anywhere(rule):
    """Every rule can be judged anywhere in the possible range; NaN fails."""
    for p in some_patterns(6, 12):
        found = judge(rule, p)
        assert np.isfinite(found.margin) or found.verdict == "fail" or not found.applies
