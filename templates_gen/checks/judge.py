"""Judge a rule at the worst corner of the tolerances of everything it reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from templates_gen.checks.rule import Rule, Severity
from templates_gen.parameters import Parameter, Pattern
from templates_gen.tolerances import BOUND

Verdict = Literal["holds", "tight", "fails"]

#: Beyond this many toleranced dimensions each is moved only the way that hurts.
_ALL_CORNERS = 10


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
    def verdict(self) -> Verdict:
        if self.margin < -BOUND:
            return "fails"
        # Less than a tenth of the limit to spare, or 0.1 of small limits.
        spare = 0.1 * max(1.0, abs(self.limit))
        return "tight" if self.margin < spare - BOUND else "holds"

    @property
    def stops(self) -> bool:
        """Whether it forbids cutting."""
        return self.verdict == "fails" and self.rule.severity is Severity.ERROR


def numbers_read(rule: Rule, p: Pattern) -> list[Parameter]:
    """The numeric parameters a rule looks at."""
    known = p.schema.parameters
    return [known[k] for k in p.reads(rule.bound) if known[k].choices is None]


def judge(rule: Rule, p: Pattern) -> Result:
    """The verdict at the worst corner."""
    read = numbers_read(rule, p)
    bound = rule.bound(p.with_many(corners(rule, p, read)))
    margins = np.atleast_1d(bound.margin)
    worst = int(np.argmin(margins))

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


def corners(rule: Rule, p: Pattern, read: list[Parameter]) -> Mapping[str, NDArray[np.float64]]:
    """For each toleranced parameter its value at every corner worth trying."""
    moved = [q for q in read if p.tolerance(q.key) > 0]
    if not moved:
        return {}
    size = len(moved)
    if size <= _ALL_CORNERS:
        signs = 1.0 - 2.0 * ((np.arange(2**size)[:, None] >> np.arange(size)) & 1)
    else:
        signs = np.vstack([_worse_way(rule, p, moved), np.zeros(size)])
    return {q.key: p.values[q.key] + p.tolerance(q.key) * signs[:, i] for i, q in enumerate(moved)}


def _worse_way(rule: Rule, p: Pattern, moved: list[Parameter]) -> NDArray[np.float64]:
    """The sign of each parameter's move that lessens the margin."""
    eye = np.eye(len(moved))
    steps = np.vstack([eye, -eye])
    changes = {
        q.key: p.values[q.key] + p.tolerance(q.key) * steps[:, i] for i, q in enumerate(moved)
    }
    margins = np.broadcast_to(rule.bound(p.with_many(changes)).margin, (2 * len(moved),))
    up, down = np.split(margins, 2)
    return np.where(up <= down, 1.0, -1.0)
