"""Where the verdicts begin, and which corner is reported.

The bounds are the command's own promise: close is less than a tenth of the limit to spare,
or less than 0.1 where the limit is below 1, and less than half a millimetre.
"""

import math

import pytest
from checks import toy_rules
from checks.toy_rules import pattern
from outside.maker import stated

from templates_gen.checks.cure import cure
from templates_gen.checks.judge import Result, judge
from templates_gen.checks.rule import at_least, rule
from templates_gen.parameters import FloatOrArray, Pattern, Scale, Schema, mm, section
from templates_gen.parts.frog.params import EyeKind
from templates_gen.parts.heel.params import HeelKind
from templates_gen.parts.underslide.params import UnderslideKind
from templates_gen.pipeline import judging
from templates_gen.tolerances import BOUND


def verdict(limit, margin):
    return Result(toy_rules.spare, limit + margin, limit, margin, ">=", ()).verdict


@pytest.mark.parametrize(
    ("limit", "spare"),
    [(5.0, 0.5), (1.0, 0.1), (0.3, 0.1), (0.0, 0.1), (-20.0, 0.5), (250.0, 0.5)],
)
def test_the_bounds(limit, spare):
    assert verdict(limit, math.inf) == "pass"
    assert verdict(limit, spare) == "pass"
    assert verdict(limit, spare - 2 * BOUND) == "close"
    assert verdict(limit, 0.0) == "close"
    # Exactly at its limit it holds, and rounding noise does not change that.
    assert verdict(limit, -0.5 * BOUND) == "close"
    assert verdict(limit, -2 * BOUND) == "fail"
    assert verdict(limit, -math.inf) == "fail"


def test_nan_fails():
    assert verdict(5.0, math.nan) == "fail"
    for p in (pattern(height=9.0), pattern(height=9.96)):
        found = judge(toy_rules.root, p)
        assert math.isnan(found.margin) and found.stops


@pytest.mark.parametrize("tol", [0.0, 0.05])
def test_a_division_by_zero_is_judged(tol):
    p = pattern({"ferrule.height": tol}, height=10.0 + tol)
    found = judge(toy_rules.quotient, p)
    # At +0 the quotient is infinite; at 2 tol it is 10 / 0.1.
    assert found.verdict == "pass"
    assert found.margin == pytest.approx(99.0) if tol else math.isinf(found.margin)


def test_the_worst_corner_by_hand():
    """22.5 ± 0.3 against 20 ± 0.2 + 1: at worst 22.2 against 21.2."""
    p = pattern({"ferrule.outer_width": 0.3, "hair.width": 0.2})
    found = judge(toy_rules.spare, p)
    assert found.measured == pytest.approx(22.2, abs=1e-12)
    assert found.limit == pytest.approx(21.2, abs=1e-12)
    assert found.margin == pytest.approx(1.0, abs=1e-12)
    assert found.reads == ("ferrule.outer_width", "hair.width")
    # The other way round: at most 22, at worst 22.8 against 21.8.
    found = judge(toy_rules.slim, p)
    assert (found.measured, found.limit) == pytest.approx((22.8, 21.8), abs=1e-12)
    assert found.margin == pytest.approx(-1.0, abs=1e-12)
    assert found.sense == "<="


def test_without_tolerances_the_stated_numbers_are_judged():
    p = pattern({"ferrule.outer_width": 0.0, "hair.width": 0.0})
    assert judge(toy_rules.spare, p).margin == pytest.approx(1.5, abs=1e-12)


def test_only_a_failed_error_stops():
    assert judge(toy_rules.few, pattern(count=251.0)).stops
    assert not judge(toy_rules.few, pattern(count=250.0)).stops
    warned = judge(toy_rules.warned, pattern(count=251.0))
    assert warned.verdict == "fail" and not warned.stops


def test_more_numbers_than_all_corners_allow():
    """Twelve numbers of 10 ± 0.1, six counting for and six against: at worst 1.2 apart."""

    @section("many", "Many")
    class Many:
        a: FloatOrArray = _tenth()
        b: FloatOrArray = _tenth()
        c: FloatOrArray = _tenth()
        d: FloatOrArray = _tenth()
        e: FloatOrArray = _tenth()
        f: FloatOrArray = _tenth()
        g: FloatOrArray = _tenth()
        h: FloatOrArray = _tenth()
        i: FloatOrArray = _tenth()
        j: FloatOrArray = _tenth()
        k: FloatOrArray = _tenth()
        m: FloatOrArray = _tenth()

    @rule("many.sum", "the first six outweigh the last", dims=Pattern, basis="a toy")
    def outweigh(p):
        m = p[Many]
        return at_least(m.a + m.b + m.c + m.d + m.e + m.f, m.g + m.h + m.i + m.j + m.k + m.m)

    schema = Schema((Many,))
    p = Pattern(schema, pattern().identity, dict.fromkeys(schema.parameters, 10.0))
    found = judge(outweigh, p)
    assert len(found.reads) == 12
    assert found.margin == pytest.approx(-1.2, abs=1e-9)
    # One number compensates the tolerances of all the others.
    proposed = cure(found, p, [found])
    assert abs(proposed.value - 10.0) == pytest.approx(1.2, abs=1e-9)


def _tenth():
    return mm("One of many", low=1, high=20, scale=Scale.NEVER, tol=0.1)


@pytest.mark.parametrize(
    ("key", "kind", "gone"),
    [
        ("frog.eye_kind", EyeKind.NONE, "frog.eye_"),
        ("heel.kind", HeelKind.NONE, "heel.pin_"),
        ("underslide.kind", UnderslideKind.NONE, "underslide.corner"),
    ],
)
def test_rules_for_absent_parts_do_not_apply(key, kind, gone):
    p = stated("violin")
    had = {c.result.rule.id for c in judging.check(p)}
    has = {c.result.rule.id: c.result for c in judging.check(p.with_(key, kind))}
    assert any(name.startswith(gone) for name in had)
    assert not any(name.startswith(gone) for name in has)
    assert all(math.isfinite(r.margin) for r in has.values())


def test_a_short_bow_is_not_made_long_by_its_button():
    """A violin's stick is 27 mm short; a button of 30 mm would cure it, but no maker wants one."""
    p = stated("violin", {"stick.length": 701.0, "hair.length": 625.0})
    checked = {c.result.rule.id: c for c in judging.check(p)}
    overall = checked["bow.overall"]
    assert overall.result.verdict == "fail" and overall.cure is None
