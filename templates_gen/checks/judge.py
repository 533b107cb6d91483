"""Judge a rule at the worst corner of the tolerances of everything it reads."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from templates_gen.checks.rule import Bound, Rule, Severity
from templates_gen.parameters import Parameter, Pattern
from templates_gen.tolerances import BOUND

Verdict = Literal["holds", "tight", "fails"]
Floats = NDArray[np.float64]

#: Beyond this many toleranced dimensions each is moved only the way that hurts.
_ALL_CORNERS = 8


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
        # Put so that what cannot be worked out (not a number) fails too.
        if not self.margin >= -BOUND:
            return "fails"
        spare = self.rule.spare * max(1.0, abs(self.limit))
        return "tight" if self.margin < spare - BOUND else "holds"

    @property
    def stops(self) -> bool:
        """Whether it forbids cutting."""
        return self.verdict == "fails" and self.rule.severity is Severity.ERROR


def numbers_read(rule: Rule, p: Pattern) -> list[Parameter]:
    """The numeric parameters a rule looks at."""
    known = p.schema.parameters
    with np.errstate(all="ignore"):
        return [known[k] for k in p.reads(rule.bound) if known[k].choices is None]


def judge(rule: Rule, p: Pattern) -> Result:
    """The verdict at the worst corner."""
    read = numbers_read(rule, p)
    bound = _at_corners(rule, p, read, {}, 1)
    margins = np.atleast_1d(bound.margin)
    worst = int(np.argmin(margins))  # the first that is not a number, if there is one

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


def margins_along(
    rule: Rule, p: Pattern, read: Sequence[Parameter], key: str, values: Floats
) -> Floats:
    """The worst margin at each of many values of one parameter, all in one call.

    Args:
        rule: the clearance.
        p: the pattern.
        read: the numeric parameters the rule looks at.
        key: the parameter that takes the values.
        values: in its unit.
    """
    size = len(values)
    margins = np.asarray(_at_corners(rule, p, read, {key: values}, size).margin)
    whole = np.broadcast_to(margins, (margins.size if margins.ndim else size,))
    worst: Floats = whole.reshape(size, -1).min(axis=1)
    return worst


def _at_corners(
    rule: Rule, p: Pattern, read: Sequence[Parameter], at: dict[str, Floats], size: int
) -> Bound:
    """The clearance at the corners about each of ``size`` places: one place after another."""
    count = len(_toleranced(p, read))
    if count <= _ALL_CORNERS:
        every = 1.0 - 2.0 * ((np.arange(2**count)[:, None] >> np.arange(count)) & 1)
        return _bound(rule, p, read, at, np.broadcast_to(every, (size, 2**count, count)))
    eye = np.eye(count)
    each = np.broadcast_to(np.vstack([eye, -eye]), (size, 2 * count, count))
    margins = np.broadcast_to(_bound(rule, p, read, at, each).margin, (size * 2 * count,))
    up, down = np.split(margins.reshape(size, 2 * count), 2, axis=1)
    worse = np.where(up <= down, 1.0, -1.0)
    return _bound(rule, p, read, at, np.stack([worse, np.zeros_like(worse)], axis=1))


def _toleranced(p: Pattern, read: Sequence[Parameter]) -> list[Parameter]:
    return [q for q in read if p.tolerance(q.key) > 0]


def _bound(
    rule: Rule, p: Pattern, read: Sequence[Parameter], at: dict[str, Floats], signs: Floats
) -> Bound:
    """The clearance with every toleranced parameter moved by signs[place, corner, parameter].

    All that is read goes in as an array, so that a division by nothing gives a margin that is
    no number, and fails, where one float would end the call.
    """
    moves = {q.key: p.tolerance(q.key) * signs[:, :, i] for i, q in enumerate(_toleranced(p, read))}
    still = np.zeros(signs.shape[:2])
    laid: dict[str, Any] = {}
    for q in read:
        centres = np.broadcast_to(at.get(q.key, np.float64(p.values[q.key])), signs.shape[:1])
        laid[q.key] = (centres[:, None] + moves.get(q.key, still)).ravel()
    with np.errstate(all="ignore"):
        return rule.bound(p.with_many(laid))
