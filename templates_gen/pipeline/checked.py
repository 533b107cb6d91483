"""Judge the rules on a pattern, and find what cures those that fail."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.checks import Cure, Result, candidate_cures, cure, first_harmless, judge
from templates_gen.parameters import UNTRACKED, Pattern
from templates_gen.pipeline.progress import tracked


@dataclass(frozen=True, repr=False)
class Checked:
    """One check of a pattern, at the worst corner of its tolerances.

    Args:
        result: the rule and its numbers.
        cure: one number to change where the check fails, or None.
    """

    result: Result
    cure: Cure | None

    @property
    def id(self) -> str:
        """``part.what``, as ``templates-gen explain`` takes it."""
        return self.result.rule.id

    @property
    def description(self) -> str:
        """The sentence that is true where the check passes."""
        return self.result.rule.description

    @property
    def measured(self) -> float:
        """What was measured, in ``unit``; NaN where the dimensions give no valid shape."""
        return self.result.measured

    @property
    def limit(self) -> float:
        """The limit, in ``unit``."""
        return self.result.limit

    @property
    def margin(self) -> float:
        """How far inside the limit, in ``unit``; negative where the check fails."""
        return self.result.margin

    @property
    def unit(self) -> str:
        """The unit of the three numbers."""
        return self.result.rule.unit

    @property
    def verdict(self) -> str:
        """The verdict in one word."""
        return self.result.verdict

    def __repr__(self) -> str:
        return f"<Check {self.id}: {self.verdict}, margin {self.margin:+.3f} {self.unit}>"

    def __str__(self) -> str:
        from templates_gen.pipeline.table import table

        return table([self])


def results(p: Pattern) -> list[Result]:
    """Judge every clearance, in the order of the parts."""
    return [judge(rule, p) for rule in tracked(catalogue.rules(), "check")]


def with_cures(p: Pattern) -> list[Checked]:
    """Judge every clearance that applies, at the worst corner of the tolerances, with cures."""
    judged = results(p)
    failed = [r for r in judged if r.verdict == "fail"]
    cures = {r.rule.id: cure(r, p, judged, registry.faults) for r in tracked(failed, "cure")}
    checked = [Checked(r, cures.get(r.rule.id)) for r in judged if r.applies]
    for key in dict.fromkeys(c.cure.key for c in checked if c.cure):
        checked = _one_value(checked, key, p, judged)
    return checked


def _one_value(
    checked: Sequence[Checked], key: str, p: Pattern, judged: Sequence[Result]
) -> list[Checked]:
    """Let the cures that change one number agree on a value.

    The value is the one with which most of these checks pass, and of several the least change. A
    check that still fails with it is cured by another number, if one can.
    """
    cures = [c.cure for c in checked if c.cure and c.cure.key == key]
    if len({c.value for c in cures}) < 2:
        return list(checked)
    rules = [c.result.rule for c in checked if c.cure and c.cure.key == key]
    passed = {
        c.value: {r.id for r in rules if judge(r, p.with_(key, c.value)).verdict != "fail"}
        for c in cures
    }
    best = max(cures, key=lambda c: (len(passed[c.value]), -c.change))

    def agreed(c: Checked) -> Checked:
        if c.cure is None or c.cure.key != key:
            return c
        if c.result.rule.id in passed[best.value]:
            return replace(c, cure=best)
        others = [lever for lever in candidate_cures(c.result, p) if lever.key != key]
        return replace(c, cure=first_harmless(others, c.result, p, judged, registry.faults))

    return [agreed(c) for c in checked]


def cured_first(c: Checked, checked: Iterable[Checked]) -> list[str]:
    """Find the failed checks to cure before one whose shape does not exist.

    They fail with numbers, and depend on nothing that it does not depend on.
    """
    depends_on = c.result.depends_on
    if math.isfinite(c.result.margin):
        return []
    return [
        r.rule.id
        for r in (other.result for other in checked)
        if r.stops
        and math.isfinite(r.margin)
        and (UNTRACKED in depends_on or r.depends_on <= depends_on)
    ]


def summary(judged: Iterable[Result]) -> str:
    """Count the verdicts in one line; failing warnings are counted apart."""
    verdicts = [(r.verdict, r.stops) for r in judged]
    words = [word for word, _ in verdicts]
    failed = sum(stops for _, stops in verdicts)
    warned = words.count("fail") - failed
    counts = f"{len(words)} checks: {words.count('pass')} pass, {words.count('close')} close"
    warnings = "1 warning" if warned == 1 else f"{warned} warnings"
    return ", ".join([counts, f"{failed} fail", *([warnings] if warned else [])])


def check_json(c: Checked) -> dict[str, Any]:
    """Write one check as the plain data of ``check --json``."""
    r = c.result
    return {
        "id": r.rule.id,
        "part": r.rule.part,
        "says": r.rule.description,
        "measured": figure(r.measured),
        "limit": figure(r.limit),
        "sense": r.sense,
        "margin": figure(r.margin),
        "unit": r.rule.unit,
        "severity": r.rule.severity.value,
        "verdict": r.verdict,
        "basis": r.rule.basis,
        "cure": None
        if c.cure is None
        else {"says": c.cure.description, "set": {c.cure.key: c.cure.value}},
    }


def figure(number: float) -> float | None:
    """Write a number for JSON, which has only finite ones; None for any other."""
    return number if math.isfinite(number) else None
