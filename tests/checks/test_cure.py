"""The cure is the smallest change of one number that passes and breaks nothing."""

from importlib import import_module

import pytest
from checks import toy_rules
from checks.toy_rules import pattern, results
from toy_parameters import Ferrule

from templates_gen.checks.cure import cure
from templates_gen.checks.judge import judge
from templates_gen.checks.rule import Severity, at_least, at_most, rule
from templates_gen.parameters import Pattern
from templates_gen.parameters.families import Band

#: The module; the package gives its name to the function.
cures = import_module("templates_gen.checks.cure")
EXACT = {"ferrule.outer_width": 0.0, "hair.width": 0.0, "ferrule.height": 0.0}


@pytest.fixture(autouse=True)
def nothing_is_usual(monkeypatch):
    """Usual values of bows do not apply to the toy."""
    monkeypatch.setattr(cures, "bands", lambda family: {})


def cured(p, broken, *others):
    judged = results(p, broken, *others)
    assert judged[0].verdict == "fail"
    return cure(judged[0], p, judged)


def test_a_free_number_changes_before_a_measured_one():
    """The width must reach 21: from 20.5 by 0.5, or the measured ribbon must shrink."""
    found = cured(pattern(EXACT, outer_width=20.5), toy_rules.spare)
    assert (found.key, found.value, found.was) == ("ferrule.outer_width", 21.0, 20.5)
    assert found.description == "make ferrule.outer_width 21 (it is 20.5)"


def test_the_tolerances_are_in_the_cure():
    """With ± 0.3 and ± 0.2 the width must reach 20.2 + 1 + 0.3."""
    p = pattern({"ferrule.outer_width": 0.3, "hair.width": 0.2}, outer_width=20.5)
    assert cured(p, toy_rules.spare).value == 21.5


def test_takes_the_next_choice_where_the_first_breaks_another_rule():
    @rule("toy.narrow", "the width is no more than 20.8", dims=Pattern, basis="a toy")
    def narrow(p):
        return at_most(p[Ferrule].outer_width, 20.8)

    found = cured(pattern(EXACT, outer_width=20.5), toy_rules.spare, narrow)
    assert (found.key, found.value) == ("hair.width", 19.5)


@rule("toy.sum", "width and height together are at least 33.5", dims=Pattern, basis="a toy")
def toy_sum(p):
    return at_least(p[Ferrule].outer_width + p[Ferrule].height, 33.5)


def usually(monkeypatch, **figures):
    """Give the toy's family these usual values of the ferrule."""
    table = {f"ferrule.{name}": Band(usual, None, None, "M") for name, usual in figures.items()}
    monkeypatch.setattr(cures, "bands", lambda family: table)


def test_a_number_at_its_usual_value_changes_before_one_the_maker_chose(monkeypatch):
    """33 must become 33.5: the width by 0.5 of 22.5 is the smaller change, the height that of 10.5.

    So without the table the width; where only the height is usual, that.
    """
    p = pattern(EXACT)
    usually(monkeypatch)
    assert cured(p, toy_sum).key == "ferrule.outer_width"
    usually(monkeypatch, outer_width=22.4, height=10.5)
    found = cured(p, toy_sum)
    assert (found.key, found.value) == ("ferrule.height", 11.0)
    usually(monkeypatch, outer_width=22.5, height=10.5)
    assert cured(p, toy_sum).key == "ferrule.outer_width"


def test_a_number_the_maker_chose_changes_where_no_usual_one_can(monkeypatch):
    @rule("toy.low", "the height is at most 10.6", dims=Pattern, basis="a toy")
    def low(p):
        return at_most(p[Ferrule].height, 10.6)

    usually(monkeypatch, outer_width=22.4, height=10.5)
    found = cured(pattern(EXACT), toy_sum, low)
    assert found.description == "make ferrule.outer_width 23 (it is 22.5)"


def test_a_measured_number_changes_last_even_at_its_usual_value(monkeypatch):
    table = {"hair.width": Band(20.0, None, None, "M")}
    monkeypatch.setattr(cures, "bands", lambda family: table)
    assert cured(pattern(EXACT, outer_width=20.5), toy_rules.spare).key == "ferrule.outer_width"


def test_no_cure_where_the_reader_would_reject_it():
    p = pattern(EXACT, outer_width=20.5)
    judged = results(p, toy_rules.spare)
    found = cure(judged[0], p, judged, lambda q: ["no"] if q[Ferrule].outer_width > 20.9 else [])
    assert (found.key, found.value) == ("hair.width", 19.5)


def test_takes_the_shorter_way_or_the_longer_if_that_breaks_something():
    """9 must leave the band from 8 to 9.4: up by 0.4, or down by 1."""

    @rule("toy.outside", "the height is out of the band", dims=Pattern, basis="a toy")
    def outside(p):
        return at_least(abs(p[Ferrule].height - 8.7), 0.7)

    @rule("toy.low", "the height is at most 9.2", dims=Pattern, basis="a toy")
    def low(p):
        return at_most(p[Ferrule].height, 9.2)

    p = pattern(EXACT, height=9.0)
    assert cured(p, outside).value == 9.4
    assert cured(p, outside, low).value == 8.0


def test_a_failing_check_is_not_made_worse_if_there_is_another_way():
    @rule("toy.narrow", "the width is no more than 20", dims=Pattern, basis="a toy")
    def narrow(p):
        return at_most(p[Ferrule].outer_width, 20.0)

    p = pattern(EXACT, outer_width=20.5)
    assert cured(p, toy_rules.spare, narrow).key == "hair.width"
    # Where the only cure makes it worse, it is still proposed.
    thin = pattern(EXACT, outer_width=20.5, width=20.0)
    fixed = rule("toy.fixed", "", dims=Pattern, basis="")(
        lambda p: at_least(p[Ferrule].outer_width, 21.0)
    )
    assert cured(thin, fixed, narrow).key == "ferrule.outer_width"


def test_a_count_stays_a_count():
    found = cured(pattern(), toy_rules.few)
    assert (found.key, found.value) == ("hair.count", 250.0)


def test_no_cure_where_one_number_is_not_enough():
    assert cured(pattern(), toy_rules.impossible) is None


def test_cures_a_rule_that_gives_nan():
    """The root of less than nothing; at 10 + 0.04 it is 0.2."""
    found = cured(pattern(EXACT, height=9.0), toy_rules.root)
    assert found.key == "ferrule.height"
    assert 10.04 <= found.value <= 10.1


def test_never_proposes_a_value_that_the_reader_rejects():
    """A tolerance of half the value or more is rejected, so 4 ± 2 cures nothing and 4.1 does."""

    @rule("toy.small", "the height is at most 6.1 at worst", dims=Pattern, basis="a toy")
    def small(p):
        return at_most(p[Ferrule].height, 6.1)

    p = pattern({"ferrule.height": 2.0}, height=9.0)
    found = cured(p, small)
    assert found.value == 4.1
    wider = pattern({"ferrule.height": 2.1}, height=9.0)
    assert cured(wider, small) is None


@pytest.mark.parametrize("start", [8.0, 12.3, 20.99])
def test_the_cure_is_near_the_limit_and_passes(start):
    p = pattern({"ferrule.outer_width": 0.013, "hair.width": 0.0}, outer_width=start)
    found = cured(p, toy_rules.spare)
    assert 21.013 <= found.value <= 21.013 * 1.004 + 0.001
    assert judge(toy_rules.spare, p.with_(found.key, found.value)).margin >= -1e-9


def bands_of_width(monkeypatch, low, high):
    """Set the usual range of the width; the ribbon, which has none, may shrink too."""
    table = {"ferrule.outer_width": Band(20.0, low, high, "M")}
    monkeypatch.setattr(cures, "bands", lambda family: table)


def test_prefers_a_number_that_stays_in_its_usual_range(monkeypatch):
    """The width must reach 21 from 20.5, or the ribbon shrink to 19.5: it is the wider change."""
    p = pattern(EXACT, outer_width=20.5)
    bands_of_width(monkeypatch, 19.0, 21.0)
    assert cured(p, toy_rules.spare).key == "ferrule.outer_width"
    bands_of_width(monkeypatch, 19.0, 20.8)
    assert cured(p, toy_rules.spare).description == "make hair.width 19.5 (it is 20)"


def test_a_cure_outside_the_usual_range_names_that_range(monkeypatch):
    fixed = rule("toy.fixed", "", dims=Pattern, basis="")(
        lambda p: at_least(p[Ferrule].outer_width, 21.0)
    )
    bands_of_width(monkeypatch, 19.0, 20.8)
    found = cured(pattern(EXACT, outer_width=20.5), fixed)
    told = "make ferrule.outer_width 21 (it is 20.5); outside the usual 19–20.8"
    assert found.description == told


@pytest.mark.parametrize(("high", "offered"), [(20.34, True), (20.32, False)])
def test_proposes_nothing_far_outside_the_usual_range(monkeypatch, high, offered):
    """21 is beyond 19 to 20.34 by 0.66, less than half of 1.34; beyond 19 to 20.32 by 0.68."""
    fixed = rule("toy.fixed", "", dims=Pattern, basis="")(
        lambda p: at_least(p[Ferrule].outer_width, 21.0)
    )
    bands_of_width(monkeypatch, 19.0, high)
    found = cured(pattern(EXACT, outer_width=20.0), fixed)
    assert (found is not None) is offered


def test_cures_an_unusual_bow_from_its_own_values(monkeypatch):
    """20.5 stands far beyond 18 to 19; to 21 is half the band's width more."""
    fixed = rule("toy.fixed", "", dims=Pattern, basis="")(
        lambda p: at_least(p[Ferrule].outer_width, 21.0)
    )
    bands_of_width(monkeypatch, 18.0, 19.0)
    assert cured(pattern(EXACT, outer_width=20.5), fixed).value == 21.0
    assert cured(pattern(EXACT, outer_width=20.4), fixed) is None


def test_a_change_toward_the_usual_range_is_preferred(monkeypatch):
    p = pattern(EXACT, outer_width=20.5)
    bands_of_width(monkeypatch, 21.5, 23.0)
    found = cured(p, toy_rules.spare)
    assert (
        found.description == "make ferrule.outer_width 21 (it is 20.5); outside the usual 21.5–23"
    )


def test_avoids_a_cure_that_makes_a_warning_fail():
    @rule(
        "toy.narrow",
        "the width is at most 20.8",
        dims=Pattern,
        basis="a toy",
        severity=Severity.WARNING,
    )
    def narrow(p):
        return at_most(p[Ferrule].outer_width, 20.8)

    assert cured(pattern(EXACT, outer_width=20.5), toy_rules.spare, narrow).key == "hair.width"
