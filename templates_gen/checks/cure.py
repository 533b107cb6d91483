"""Find what would cure a failed check: one declared number, moved as little as may be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from templates_gen.checks.corners import Floats, corners, margins_along
from templates_gen.checks.judge import Result, judge, numbers_read
from templates_gen.checks.rule import Rule
from templates_gen.parameters import Parameter, Pattern
from templates_gen.parameters.families import bands
from templates_gen.parameters.value import too_wide
from templates_gen.tolerances import SAME_POINT

#: What the maker has stated is moved only where it need move this much less than a usual number.
OWN_COUNTS = 3.0

#: Places looked at on each side of the present value, and how often the nearest is narrowed down.
_LOOKS = 48
_NARROWINGS = 6
#: How often it is looked for again because another corner turned out worse there.
_SEARCHES = 4

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

    @property
    def change(self) -> float:
        """How far it moves, relative to what it is; near nought, relative to 0.1."""
        return abs(self.value - self.was) / max(abs(self.was), 0.1)


def cure(
    failed: Result,
    p: Pattern,
    results: Sequence[Result],
    faults: Callable[[Pattern], Sequence[object]] = lambda _: (),
) -> Cure | None:
    """The smallest relative change of one number that passes and breaks nothing that held.

    What the maker has stated counts as moved farther than it is, so that a usual number gives way
    first, or one beyond what is usual in the family; what was measured on the wood or the stock,
    which cannot be changed at will, comes last.
    One that would make another failing error-check worse is proposed only if there is no other.

    Args:
        failed: what is to be cured.
        p: the pattern it failed on.
        results: every rule judged on that pattern.
        faults: what a pattern would be refused for; a cure must not be.
    """
    known, usual = p.schema.parameters, bands(p.family.name)

    def own(c: Cure) -> bool:
        band = usual.get(c.key)
        if band is None or band.low is None or band.high is None:
            return band is None or band.usual != c.was
        return band.usual != c.was and band.low <= c.was <= band.high

    found = list(_passing(failed.rule, p))

    def cost(c: Cure) -> tuple[bool, float]:
        return known[c.key].measured, c.change * (OWN_COUNTS if own(c) else 1.0)

    found.sort(key=cost)
    others = [r for r in results if r.rule.id != failed.rule.id]
    second = None
    for c in found:
        if faults(p.with_(c.key, c.value)) or _breaks(c, p, others):
            continue
        if not _worsens(c, p, others):
            return c
        second = second or c
    return second


def _breaks(candidate: Cure, p: Pattern, others: Sequence[Result]) -> bool:
    """Whether an error-check that held would fail."""
    return any(new.stops and not old.stops for old, new in _touched(candidate, p, others))


def _worsens(candidate: Cure, p: Pattern, others: Sequence[Result]) -> bool:
    """Whether an error-check that fails would fail by more."""
    return any(old.stops and new.margin < old.margin for old, new in _touched(candidate, p, others))


def _touched(
    candidate: Cure, p: Pattern, others: Sequence[Result]
) -> Iterator[tuple[Result, Result]]:
    """Results that may change, each with what becomes of it."""
    changed = p.with_(candidate.key, candidate.value)
    return ((r, judge(r.rule, changed)) for r in others if candidate.key in r.reads)


def _passing(rule: Rule, p: Pattern) -> Iterator[Cure]:
    """For each number read and each way it may move, the nearest figure that passes."""
    read = numbers_read(rule, p)
    signs = corners(rule, p, read)
    for parameter in read:
        was = float(p.values[parameter.key])
        for limit in (parameter.low, parameter.high):
            figure = _nearest_figure(rule, p, read, signs, parameter, limit)
            if figure is not None:
                yield Cure(parameter.key, figure, was)


def _nearest_figure(
    rule: Rule,
    p: Pattern,
    read: Sequence[Parameter],
    signs: Floats,
    parameter: Parameter,
    limit: float,
) -> float | None:
    """The nearest figure toward the end of the range that passes at every corner.

    It is looked for at the corners that are worst now. Where another turns out worse in the
    place found, that one is looked at as well, and the search goes on.
    """
    for _ in range(_SEARCHES):
        near = _nearest(rule, p, read, signs, parameter.key, limit)
        if near is None:
            return None
        figure = _rounded(rule, p, parameter, near)
        if figure is not None:
            return figure
        there = corners(rule, p.with_(parameter.key, near), read)
        signs = np.unique(np.vstack([signs, there]), axis=0)
    return None


def _nearest(
    rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats, key: str, limit: float
) -> float | None:
    """The nearest value that passes at some corners, toward the end of the range."""
    # Closer looks near the present value: a cure is a small change.
    was = float(p.values[key])
    looks: Floats = was + (limit - was) * np.linspace(0.0, 1.0, _LOOKS) ** 2
    good = limit
    for _ in range(_NARROWINGS):
        margins = margins_along(rule, p, read, signs, key, looks)
        passes = np.isfinite(margins) & (margins >= -SAME_POINT)
        if not passes.any():
            return None
        first = int(np.argmax(passes))
        good = float(looks[first])
        if first == 0:
            break
        looks = np.linspace(looks[first - 1], good, _LOOKS)
    return good


def _rounded(rule: Rule, p: Pattern, parameter: Parameter, value: float) -> float | None:
    """A round figure no nearer than ``value``, hardly farther than it need be."""
    way = 1.0 if value > p.values[parameter.key] else -1.0
    steps = (1.0,) if parameter.whole else _STEPS
    for step in steps:
        # What was found a hair's breadth beyond a figure is that figure, if it passes.
        first = math.ceil(round(way * value / step, 4))
        for count in (first, first + 1):
            figure = round(way * count * step, 6)
            close = abs(figure - value) <= 0.004 * abs(value) or step == steps[-1]
            if close and _may_be(parameter, p, figure):
                margin = judge(rule, p.with_(parameter.key, figure)).margin
                if math.isfinite(margin) and margin >= -SAME_POINT:
                    return figure
    return None


def _may_be(parameter: Parameter, p: Pattern, figure: float) -> bool:
    """Whether a file that states the figure would be read."""
    in_range = parameter.low <= figure <= parameter.high
    return in_range and too_wide(parameter, figure, p.tolerance(parameter.key)) is None
