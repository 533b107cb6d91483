"""Judge a rule at the worst corner of the tolerances of everything it reads."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import Any, Literal

import numpy as np

from templates_gen.checks.corners import bound_at, corners, plain
from templates_gen.checks.rule import Rule, Severity
from templates_gen.parameters import UNTRACKED, Parameter, Pattern
from templates_gen.tolerances import BOUND

Verdict = Literal["pass", "close", "fail"]


@dataclass(frozen=True)
class Result:
    """A judged rule: the numbers of its worst corner, in its unit; the margin is negative if it fails.

    Args:
        rule: the clearance.
        measured, limit, margin, sense: its worst corner.
        reads: the numeric parameters a maker may change for it.
        depends_on: every key it depends on, with ``UNTRACKED`` where it depends on more.
    """

    rule: Rule
    measured: float
    limit: float
    margin: float
    sense: Literal[">=", "<="]
    reads: tuple[str, ...]
    depends_on: frozenset[str] = frozenset((UNTRACKED,))

    @property
    def applies(self) -> bool:
        """Whether the rule applies to this pattern."""
        return self.margin != math.inf

    @property
    def verdict(self) -> Verdict:
        """Pass, close or fail at the worst corner of the tolerances."""
        # Written with "not" so that NaN fails too.
        if not self.margin >= -BOUND:
            return "fail"
        return "close" if self.margin < self.rule.room(self.limit) - BOUND else "pass"

    @property
    def stops(self) -> bool:
        """Whether it is an error and fails: then nothing is cut."""
        return self.verdict == "fail" and self.rule.severity is Severity.ERROR


def headline(results: Iterable[Result]) -> str:
    """Say in a few words whether the pattern is ready to cut."""
    stopped = [r.stops for r in results if r.verdict == "fail"]
    failed, warned = sum(stopped), len(stopped) - sum(stopped)
    if failed:
        return f"{'1 check fails' if failed == 1 else f'{failed} checks fail'}: do not cut"
    if warned:
        return f"Ready to cut, with {'1 warning' if warned == 1 else f'{warned} warnings'}"
    return "All checks pass: ready to cut"


def numbers_read(rule: Rule, p: Pattern) -> list[Parameter]:
    """List the numeric parameters a rule reads."""
    return _numbers(p, _looks(rule, p))


def _looks(rule: Rule, p: Pattern) -> frozenset[str]:
    with np.errstate(all="ignore"):
        return p.depends_on(rule.bound)


def _numbers(p: Pattern, depends_on: frozenset[str]) -> list[Parameter]:
    return [q for key, q in p.schema.parameters.items() if key in depends_on and q.numeric]


def judge(rule: Rule, p: Pattern) -> Result:
    """Judge a rule at the worst corner of the tolerances."""
    return p.once(rule, partial(_judged, rule))


def _judged(rule: Rule, p: Pattern) -> Result:
    depends_on = _looks(rule, p)
    read = _numbers(p, depends_on)
    bound = bound_at(rule, p, read, corners(rule, p, read))
    margins = np.atleast_1d(bound.margin)
    worst = int(np.argmin(plain(margins)))  # the first that is not a number, if there is one

    def there(figures: Any) -> float:
        return float(np.broadcast_to(np.atleast_1d(figures), margins.shape)[worst])

    return Result(
        rule,
        there(bound.measured),
        there(bound.limit),
        float(margins[worst]),
        bound.sense,
        tuple(q.key for q in read),
        depends_on,
    )


def judge_anew(known: Iterable[Result], was: Pattern, now: Pattern) -> list[Result]:
    """Judge a changed pattern, and keep each result that depends on nothing that changed.

    Args:
        known: the results for the pattern before the change.
        was, now: the pattern before and after.
    """
    if was.family != now.family:
        return [judge(r.rule, now) for r in known]
    changed = moved(was, now)
    return [r if changed.isdisjoint(r.depends_on) else judge(r.rule, now) for r in known]


def moved(was: Pattern, now: Pattern) -> frozenset[str]:
    """List the keys whose value or ± changed, and ``UNTRACKED``, which may have changed."""
    keys = (
        key
        for key, value in now
        if value != was.values[key] or now.tolerance(key) != was.tolerance(key)
    )
    return frozenset((UNTRACKED, *keys))
