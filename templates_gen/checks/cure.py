"""Find what would cure a failed check: one declared number, moved as little as may be."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.checks.judge import Result, judge
from templates_gen.checks.rule import Rule
from templates_gen.parameters import Parameter, Pattern

#: Places looked at on each side of the present value, and how the nearest is narrowed down.
_LOOKS = 60
_HALVINGS = 30

#: A cure is a figure a maker can set: the coarsest of these steps that still passes.
_STEPS = (0.5, 0.1, 0.05, 0.01, 0.001)


@dataclass(frozen=True)
class Cure:
    """One number to change.

    Args:
        key: the parameter.
        value: what to make it, in its unit.
        was: what it is.
    """

    key: str
    value: float
    was: float

    @property
    def says(self) -> str:
        return f"make {self.key} {self.value:g} (it is {self.was:g})"


def cure(failed: Result, p: Pattern, rules: Sequence[Rule]) -> Cure | None:
    """The smallest relative change of one number that passes and breaks nothing that held."""
    held = [r for r in rules if r.id != failed.rule.id and not judge(r, p).stops]
    known = p.schema.parameters
    found = [c for key in failed.reads if (c := _move(failed.rule, p, known[key])) is not None]
    # What was measured on the wood or the stock cannot be changed at will: last.
    found.sort(key=lambda c: (known[c.key].measured, abs(c.value - c.was) / max(abs(c.was), 0.1)))
    for candidate in found:
        changed = p.with_(candidate.key, candidate.value)
        if not any(judge(r, changed).stops for r in held):
            return candidate
    return None


def _passes(rule: Rule, p: Pattern, key: str, value: float) -> bool:
    margin = judge(rule, p.with_(key, value)).margin
    return math.isfinite(margin) and margin >= 0


def _move(rule: Rule, p: Pattern, parameter: Parameter) -> Cure | None:
    """The nearest value of one parameter that passes, rounded to a figure one can set."""
    key, was = parameter.key, float(p.values[parameter.key])
    best: float | None = None
    for limit in (parameter.low, parameter.high):
        value = _nearest(rule, p, parameter, was, limit)
        if value is not None and (best is None or abs(value - was) < abs(best - was)):
            best = value
    return None if best is None else Cure(key, best, was)


def _nearest(
    rule: Rule, p: Pattern, parameter: Parameter, was: float, limit: float
) -> float | None:
    key = parameter.key
    bad = was
    for i in range(1, _LOOKS + 1):
        # Closer looks near the present value: a cure is a small change.
        good = was + (limit - was) * (i / _LOOKS) ** 2
        if _passes(rule, p, key, good):
            break
        bad = good
    else:
        return None
    for _ in range(_HALVINGS):
        middle = (bad + good) / 2
        if _passes(rule, p, key, middle):
            good = middle
        else:
            bad = middle
    return _round_outward(rule, p, parameter, was, good)


def _round_outward(
    rule: Rule, p: Pattern, parameter: Parameter, was: float, value: float
) -> float | None:
    """A round figure no nearer than ``value``, hardly farther than it need be."""
    away = math.ceil if value > was else math.floor
    for step in (1.0,) if parameter.whole else _STEPS:
        figure = round(away(round(value / step, 9)) * step, 6)
        close = abs(figure - value) <= 0.004 * abs(value) or step == _STEPS[-1]
        fits = parameter.low <= figure <= parameter.high
        if (close or parameter.whole) and fits and _passes(rule, p, parameter.key, figure):
            return figure
    return None
