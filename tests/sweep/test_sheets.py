"""Check that ``draw`` draws every pattern that passes ``check``, on sheets without lint faults.

A failing check has a value, or names the check to cure first; with ``--force`` each sheet is
drawn or left out with a reason, and nothing raises.
"""

from __future__ import annotations

import pytest
from sweep.cases import FAMILIES, Starter, has_no_value, named, sheet_fault, starter

from templates_gen import registry
from templates_gen.parameters import Pattern
from templates_gen.pipeline import judging, rendering

#: Keys of the quick slice: each once made a sheet or a check fail.
QUICK = (
    "head.filing_allowance",
    "head.mortise_undercut_deg",
    "form.beyond",
    "form.depth",
    "heel.pin_from_edge",
    "heel.rear_leg",
    "frog.width_waist",
    "frog.width_heel",
)


def faults_of_case(s: Starter, changes, words=None) -> list[str]:
    """List what is wrong with one case; empty if the file would be rejected."""
    p, name = s.pattern.with_many(changes), words or named(changes)
    if registry.faults(p):
        return []
    results = s.judged(p)
    passes = not any(r.stops for r in results)
    checked = [rendering.Checked(r, None) for r in results if r.applies]
    wrong = [f"{name}: {r}" for r in unexplained(p, checked)]
    for t in s.touched(p, changes):
        fault = sheet_fault(p, results, t)
        if fault is not None and passes:
            wrong.append(f"{name}: {t.name}: {fault}")
    return wrong


def unexplained(p: Pattern, checked: list[rendering.Checked]) -> list[str]:
    """List checks without a value that no other failed check explains."""
    return [
        f"{c.result.rule.id} is not measured, and no check says why"
        for c in checked
        if has_no_value(c.result) and not judging.cured_first(c, checked)
    ]


def assert_drawn(s: Starter, cases) -> None:
    """Draw every case; fail with a list of all that is wrong."""
    wrong = [w for name, changes in cases for w in faults_of_case(s, changes, name)]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_some_parameters_at_both_bounds(family):
    s = starter(family)
    assert_drawn(s, ((None, c) for c in s.ends() if c.keys() & set(QUICK)))


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_tables_at_their_limits(family):
    s = starter(family)
    assert_drawn(s, s.tables())


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
def test_every_parameter_at_both_bounds(family):
    s = starter(family)
    assert_drawn(s, ((None, c) for c in s.ends()))


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
def test_every_parameter_up_to_where_checks_fail(family):
    s = starter(family)
    assert_drawn(s, ((None, c) for c in s.farthest()))


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
def test_every_choice_and_every_table(family):
    s = starter(family)
    assert_drawn(s, [(None, c) for c in s.words()] + list(s.tables()))
