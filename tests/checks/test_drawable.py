"""What passes its checks can be drawn: no shape fails that the checks should have rejected."""

import math

import numpy as np
import pytest
from checks.drive import shipped

from templates_gen import registry
from templates_gen.checks.corners import corners, margins_along
from templates_gen.checks.judge import judge, numbers_read
from templates_gen.checks.rule import Severity
from templates_gen.pipeline import rendering, selection
from templates_gen.tolerances import BOUND

#: A small bow and a large one; the rest lie between them.
TWO = ("violin.toml", "bass-french.toml")
#: So many steps are tried from each, moving a few numbers at once.
STEPS, AT_ONCE = 25, 3
#: Places looked at between a number as it ships and each end of its range.
LOOKS = 10


def bases():
    """Yield two shipped patterns, and one of them with each other choice."""
    yield from (pytest.param(name, {}, id=name) for name in TWO)
    name = TWO[0]
    p = shipped()[name]
    for key, q in p.schema.parameters.items():
        for word in q.choices or ():
            if word != p.values[key]:
                yield pytest.param(name, {key: word}, id=f"{key}-{word}")


def ends(p, keys):
    """Yield each number moved as far as its error-checks allow, one at a time."""
    errors = [r for r in registry.rules() if r.severity is Severity.ERROR]
    read = {r.id: numbers_read(r, p) for r in errors}
    signs = {r.id: corners(r, p, read[r.id]) for r in errors}
    for q in (p.schema.parameters[key] for key in keys):
        for end in (q.low, q.high):
            places = p.values[q.key] + (end - p.values[q.key]) * np.linspace(0, 1, LOOKS)
            if q.whole:
                places = np.round(places)
            holds = np.full(LOOKS, True)
            for r in errors:
                if q in read[r.id]:
                    holds &= margins_along(r, p, read[r.id], signs[r.id], q.key, places) >= -BOUND
            if holds.any():
                yield q.key, float(places[holds][-1])


@pytest.mark.parametrize(("name", "words"), list(bases()))
def test_each_number_as_far_as_the_checks_let_it_go(name, words):
    p = shipped()[name].with_many(words)
    if any(judge(rule, p).stops for rule in registry.rules()):
        pytest.skip("with this word alone a check fails")
    looks_at = {t: set(p.reads(t.views)) for t in selection.templates(p)}
    drawn = [t for t in looks_at if set(words) <= looks_at[t]]
    numbers = {k for t in drawn for k in looks_at[t] if p.schema.parameters[k].numeric}
    cannot = []
    for key, value in ends(p, sorted(numbers)):
        far = p.with_(key, value)
        if registry.faults(far):
            continue  # the reader rejects such a file
        for template in drawn:
            if key in looks_at[template] and (fault := fault_of(template, far)):
                cannot.append(f"{template.name} at {key} = {value:g}: {fault}")
    assert not cannot, "\n".join(cannot)


def fault_of(template, p):
    """Return what prevents a template from being drawn, or None."""
    try:
        boxes = [view.box for view in template.views(p)]
    except Exception as e:
        return repr(e)
    return None if all(math.isfinite(x) for box in boxes for x in box) else "no size"


def wander(p, seed):
    """Yield patterns farther and farther from a shipped one, none failing an error-check."""
    rng = np.random.default_rng(seed)
    known = p.schema.parameters
    for _ in range(STEPS):
        changes = {}
        for key in rng.choice(list(known), AT_ONCE, replace=False):
            q = known[key]
            if q.choices is not None:
                words = list(q.choices)
                changes[key] = words[rng.integers(len(words))]
            elif q.numeric:
                value = p.values[key] + rng.choice([0.05, 0.2, 1.0]) * (
                    rng.uniform(q.low, q.high) - p.values[key]
                )
                changes[key] = float(np.round(value)) if q.whole else float(value)
        next_one = p.with_many(changes)
        if registry.faults(next_one):
            continue
        if not any(judge(rule, next_one).stops for rule in registry.rules()):
            p = next_one
            yield p


@pytest.mark.parametrize("name", TWO)
def test_every_shape_can_be_made(name):
    reached = 0
    for p in wander(shipped()[name], seed=len(name)):
        reached += 1
        for template in selection.templates(p):
            assert fault_of(template, p) is None, template.name
    assert reached >= 3, "hardly anywhere was reached"


def sheets_of(p):
    """Every sheet, composed and held to the rules of a good one."""
    checked = [rendering.Checked(judge(rule, p), None) for rule in registry.rules()]
    return rendering.sheets(p, checked, only=(), stamps=[])


@pytest.mark.parametrize("name", list(shipped()))
def test_what_ships_is_drawn_without_a_fault(name):
    p = shipped()[name]
    assert [r.id for r in registry.rules() if judge(r, p).stops] == []
    assert [s.name for s in sheets_of(p)] == [t.name for t in selection.templates(p)]


@pytest.mark.parametrize("name", TWO)
def test_other_numbers_than_those_that_ship_are_drawn_without_a_fault(name):
    """Text that fits with the shipped numbers must also fit with a maker's own."""
    last = list(wander(shipped()[name], seed=7))[-1]
    for p in (last, _little_changed(shipped()[name])):
        sheets_of(p)


def _little_changed(p):
    """Change every number by a hundredth of its range, where its checks allow it."""
    for key, q in p.schema.parameters.items():
        if not q.numeric or q.whole:
            continue
        value = p.values[key] + 0.0123 * (q.high - q.low)
        moved = p.with_(key, min(value, q.high))
        if not any(judge(r, moved).stops for r in registry.rules() if key in p.reads(r.bound)):
            p = moved
    return p
