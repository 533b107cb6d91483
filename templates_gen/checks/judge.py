"""Judge a rule at the worst corner of the tolerances of everything it reads."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import partial
from typing import Any, Literal

import numpy as np

from templates_gen.checks.corners import bound_at, corners, round_margins
from templates_gen.checks.rule import Rule, Severity
from templates_gen.parameters import UNTRACKED, Parameter, Pattern
from templates_gen.tolerances import BOUND

Verdict = Literal["holds", "tight", "fails"]


@dataclass(frozen=True)
class Result:
    """A rule judged: the figures of its worst corner, in its unit; margin negative if it fails.

    Args:
        rule: the clearance.
        measured, limit, margin, sense: its worst corner.
        reads: the numbers a maker may move for it.
        looks: every key it hangs on, ``UNTRACKED`` among them where it hangs on more.
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
        """Whether anything is asked of this pattern at all."""
        return self.margin != math.inf

    @property
    def verdict(self) -> Verdict:
        # Put so that what cannot be worked out (not a number) fails too.
        if not self.margin >= -BOUND:
            return "fails"
        return "tight" if self.margin < self.rule.room(self.limit) - BOUND else "holds"

    @property
    def stops(self) -> bool:
        """Whether it forbids cutting."""
        return self.verdict == "fails" and self.rule.severity is Severity.ERROR


def numbers_read(rule: Rule, p: Pattern) -> list[Parameter]:
    """The numeric parameters a rule looks at."""
    return _numbers(p, _looks(rule, p))


def _looks(rule: Rule, p: Pattern) -> frozenset[str]:
    with np.errstate(all="ignore"):
        return p.depends_on(rule.bound)


def _numbers(p: Pattern, depends_on: frozenset[str]) -> list[Parameter]:
    return [q for key, q in p.schema.parameters.items() if key in depends_on and q.numeric]


def judge(rule: Rule, p: Pattern) -> Result:
    """The verdict at the worst corner."""
    return p.once(rule, partial(_judged, rule))


def _judged(rule: Rule, p: Pattern) -> Result:
    depends_on = _looks(rule, p)
    read = _numbers(p, depends_on)
    bound = bound_at(rule, p, read, corners(rule, p, read))
    margins = np.atleast_1d(bound.margin)
    worst = int(
        np.argmin(round_margins(margins))
    )  # the first that is not a number, if there is one

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


def rejudge(known: Iterable[Result], was: Pattern, now: Pattern) -> list[Result]:
    """The verdicts on a changed pattern; of what hangs on nothing that changed they stay.

    Args:
        known: the verdicts on the pattern as it was.
        was, now: the pattern before and after.
    """
    if was.family != now.family:
        return [judge(r.rule, now) for r in known]
    changed = changed_keys(was, now)
    return [r if changed.isdisjoint(r.depends_on) else judge(r.rule, now) for r in known]


def changed_keys(was: Pattern, now: Pattern) -> frozenset[str]:
    """What a verdict may have changed by: each key of another value or ±, and what is unwatched."""
    keys = (
        key
        for key, value in now
        if value != was.values[key] or now.tolerance(key) != was.tolerance(key)
    )
    return frozenset((UNTRACKED, *keys))
