"""Read a pattern and judge it: what needs no drawing and no solid."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from templates_gen import registry
from templates_gen.checks.cure import Cure, cure
from templates_gen.checks.judge import Result, judge
from templates_gen.errors import InputError
from templates_gen.parameters import UNTRACKED, Pattern
from templates_gen.parameters import read as reading


def read(file: str) -> Pattern:
    """A pattern from its parameter file.

    Raises:
        InputError: everything wrong with the file, at once.
    """
    p = reading.read(file, registry.SCHEMA)
    faults = registry.faults(p)
    if faults:
        raise InputError(faults)
    return p


@dataclass(frozen=True)
class Checked:
    """A check's result, and what would cure it if it failed."""

    result: Result
    cure: Cure | None


def results(p: Pattern) -> list[Result]:
    """Every clearance judged, in the order of the parts."""
    return [judge(rule, p) for rule in registry.rules()]


def check(p: Pattern) -> list[Checked]:
    """Every clearance this pattern has, at the worst corner of its tolerances."""
    judged = results(p)
    return [
        Checked(r, cure(r, p, judged, registry.faults) if r.verdict == "fail" else None)
        for r in judged
        if r.applies
    ]


def cured_first(c: Checked, checked: Iterable[Checked]) -> list[str]:
    """Of a check whose shape does not exist: the failed checks that say why.

    They fail with figures, and look at nothing but what it looks at.
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


def stops(checked: Iterable[Checked]) -> bool:
    """Whether an error-check fails."""
    return any(c.result.stops for c in checked)


def verdict(checked: Sequence[Checked]) -> str:
    """Count the verdicts in one line, for sheets, page and command."""
    words = [c.result.verdict for c in checked]
    failed = failing(checked)
    warned = words.count("fail") - failed
    counts = f"{len(words)} checks: {words.count('pass')} pass, {words.count('close')} close"
    warnings = "1 warning fails" if warned == 1 else f"{warned} warnings fail"
    return ", ".join([counts, f"{failed} fail", *([warnings] if warned else [])])


def failing(checked: Iterable[Checked]) -> int:
    """How many error-checks fail."""
    return sum(c.result.stops for c in checked)


def check_json(c: Checked) -> dict[str, Any]:
    """One check as the plain data of ``check --json``."""
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
    """A number as JSON has it, which knows none that is not finite."""
    return number if math.isfinite(number) else None
