"""Judge a rule at the worst corner of the tolerances of everything it reads."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from templates_gen.checks.corners import bound_at, corners, plain
from templates_gen.checks.rule import Rule, Severity
from templates_gen.parameters import Parameter, Pattern
from templates_gen.tolerances import BOUND

Verdict = Literal["holds", "tight", "fails"]


@dataclass(frozen=True)
class Result:
    """A rule judged: the figures of its worst corner, in its unit; margin negative if it fails."""

    rule: Rule
    measured: float
    limit: float
    margin: float
    sense: Literal[">=", "<="]
    reads: tuple[str, ...]

    @property
    def asked(self) -> bool:
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
    known = p.schema.parameters
    with np.errstate(all="ignore"):
        return [known[k] for k in p.reads(rule.bound) if known[k].numeric]


def judge(rule: Rule, p: Pattern) -> Result:
    """The verdict at the worst corner."""
    read = numbers_read(rule, p)
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
    )
