"""Find the smallest change of one parameter that makes a failed check pass."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np

from templates_gen.checks.corners import corners, margins_along
from templates_gen.checks.judge import Result, changed_keys, judge, numbers_read
from templates_gen.checks.rule import Rule
from templates_gen.geometry import Floats
from templates_gen.parameters import FINE_STEP, Band, Parameter, Pattern, bands, too_wide
from templates_gen.tolerances import SAME_POINT

#: A value the maker has set counts as changed by this factor more than a usual value.
OWN_VALUE_WEIGHT = 3.0

#: Greatest distance of a cure outside the usual band, relative to the band's width.
_MOST_OUTSIDE = 0.5

#: Samples on each side of the present value, and refinements round the nearest that passes.
_SAMPLES = 48
_REFINEMENTS = 6
#: Searches repeated because another corner is worse at the value found.
_SEARCHES = 4

#: A cure is rounded to the coarsest of these steps that still passes.
_STEPS = (0.5, 0.1, 0.05, 0.01, 0.001)


@dataclass(frozen=True)
class Cure:
    """A change of one parameter.

    Args:
        key: the parameter.
        value: the new value, in its unit.
        was: the present value.
        beyond: the usual band of the family, if the new value is outside it.
    """

    key: str
    value: float
    was: float
    beyond: Band | None = None

    def __str__(self) -> str:
        return self.description

    @property
    def description(self) -> str:
        """Instruction to the maker, with a remark if the value is outside the usual band."""
        text = f"make {self.key} {self.value:g} (it is {self.was:g})"
        if self.beyond is None:
            return text
        return f"{text}; outside the usual {self.beyond.span}"

    @property
    def outside_by(self) -> float:
        """Distance outside the usual band, or farther outside, relative to the band's width."""
        band = self.beyond
        if band is None or band.low is None or band.high is None:
            return 0.0
        low, high = min(self.was, band.low), max(self.was, band.high)
        outside = max(low - self.value, self.value - high, 0.0)
        return outside and outside / max(band.high - band.low, SAME_POINT)

    @property
    def change(self) -> float:
        """Size of the change relative to the present value, or to 0.1 if that is smaller."""
        return abs(self.value - self.was) / max(abs(self.was), 0.1)


def cure(
    failed: Result,
    p: Pattern,
    results: Sequence[Result],
    faults: Callable[[Pattern], Sequence[object]] = lambda _: (),
) -> Cure | None:
    """Find the best cure that does no harm; see ``candidate_cures`` and ``first_harmless``.

    Args:
        failed: the failed check.
        p: the pattern it failed on.
        results: the results of all rules on that pattern.
        faults: function that lists why a pattern is refused; a cured one must not be.
    """
    return first_harmless(candidate_cures(failed, p), failed, p, results, faults)


def candidate_cures(failed: Result, p: Pattern, *, least: bool = False) -> list[Cure]:
    """List the changes of one parameter that would pass, the smallest relative change first.

    Values outside the usual band of the family come last; before them what was measured on the wood
    or the stock, which cannot be changed at will. A value the maker has set counts as changed more
    than it is, so that values that are usual, or outside the band, change first. Values outside the
    band by more than half its width are left out.

    Args:
        failed: the failed check.
        p: the pattern it failed on.
        least: ignore what is usual, for a pattern that leaves its family anyway.
    """
    known, usual = p.schema.parameters, bands(p.family.name)

    def cost(c: Cure) -> tuple[bool, bool, float]:
        band = usual.get(c.key)
        own = band is None or (band.usual != c.was and not band.excludes(c.was))
        change = c.change * (OWN_VALUE_WEIGHT if own else 1.0)
        return c.outside_by > 0.0 and not least, known[c.key].measured, change

    def remarked(c: Cure) -> Cure:
        band = usual.get(c.key)
        return c if band is None or not band.excludes(c.value) else replace(c, beyond=band)

    found = map(remarked, _passing(failed.rule, p))
    return sorted((c for c in found if least or c.outside_by <= _MOST_OUTSIDE), key=cost)


def _apply(p: Pattern, c: Cure) -> Pattern:
    return p.with_(c.key, c.value)


def first_harmless(
    found: Sequence[Cure],
    failed: Result,
    p: Pattern,
    results: Sequence[Result],
    faults: Callable[[Pattern], Sequence[object]] = lambda _: (),
    *,
    gently: bool = False,
    change: Callable[[Pattern, Cure], Pattern] = _apply,
) -> Cure | None:
    """Find the first cure with which no other error check starts to fail.

    A cure that makes another failing error check worse is taken only if there is no better one; a
    cure with which a warning starts to fail only if there is no other at all.

    Args:
        found: the cures.
        failed, p, results, faults: as for ``cure``.
        gently: do not accept a cure with which a warning starts to fail.
        change: function that applies a cure to a pattern, with what depends on it.
    """
    others = [r for r in results if r.rule.id != failed.rule.id]
    next_best: dict[_Harm, Cure] = {}
    for c in found:
        changed = change(p, c)
        if faults(changed):
            continue
        harm = _harm(p, changed, others)
        if harm is _Harm.NONE:
            return c
        next_best.setdefault(harm, c)
    taken = [_Harm.WORSENS] if gently else [_Harm.WORSENS, _Harm.WARNS]
    return next((next_best[harm] for harm in taken if harm in next_best), None)


class _Harm(IntEnum):
    """Worst effect of a change on the other checks."""

    NONE = 0
    WORSENS = 1  # a failing error check fails by more
    WARNS = 2  # a warning starts to fail
    BREAKS = 3  # an error check starts to fail


def _harm(p: Pattern, changed: Pattern, others: Sequence[Result]) -> _Harm:
    """Find the worst effect of a change on the other checks."""
    worst = _Harm.NONE
    keys = changed_keys(p, changed)
    for old in (r for r in others if not keys.isdisjoint(r.reads)):
        new = judge(old.rule, changed)
        if new.stops and not old.stops:
            return _Harm.BREAKS
        if new.verdict == "fail" and old.verdict != "fail":
            worst = _Harm.WARNS
        elif old.stops and new.margin < old.margin:
            worst = max(worst, _Harm.WORSENS)
    return worst


def _passing(rule: Rule, p: Pattern) -> Iterator[Cure]:
    """Find, for each parameter read and each direction, the nearest value that passes."""
    read = numbers_read(rule, p)
    signs = corners(rule, p, read)
    for parameter in read:
        was = float(p.values[parameter.key])
        for limit in (parameter.low, parameter.high):
            value = _nearest_round(rule, p, read, signs, parameter, limit)
            if value is not None:
                yield Cure(parameter.key, value, was)


def _nearest_round(
    rule: Rule,
    p: Pattern,
    read: Sequence[Parameter],
    signs: Floats,
    parameter: Parameter,
    limit: float,
) -> float | None:
    """Find the nearest round value toward a limit of the range that passes at every corner.

    The search uses the corners that are worst now. If others are worse at the value found, they are
    added and the search is repeated.
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
    """Find the nearest value toward a limit of the range that passes at some corners."""
    # Sample more densely near the present value: a cure is a small change.
    was = float(p.values[key])
    samples: Floats = was + (limit - was) * np.linspace(0.0, 1.0, _SAMPLES) ** 2
    good = limit
    for _ in range(_REFINEMENTS):
        margins = margins_along(rule, p, read, signs, key, samples)
        passes = np.isfinite(margins) & (margins >= -SAME_POINT)
        if not passes.any():
            return None
        first = int(np.argmax(passes))
        good = float(samples[first])
        if first == 0:
            break
        samples = np.linspace(samples[first - 1], good, _SAMPLES)
    return good


def _rounded(rule: Rule, p: Pattern, parameter: Parameter, value: float) -> float | None:
    """Round a value away from the present one to the coarsest step that passes and is close.

    Parameters with a series of stock sizes get the next size.
    """
    sign = 1.0 if value > p.values[parameter.key] else -1.0
    if parameter.stock is not None:
        sizes = parameter.stock.beyond(value, sign)
        return next((size for size in sizes if _cures(rule, p, parameter, size)), None)
    steps: tuple[float, ...] = (1.0,) if parameter.whole else _STEPS
    if parameter.fine and _is_multiple(p.values[parameter.key]):
        steps = tuple(step for step in _STEPS if step >= FINE_STEP)
    for step in steps:
        # A value within rounding beyond a round figure becomes that figure, if it passes.
        first = math.ceil(round(sign * value / step, 4))
        for count in (first, first + 1):
            figure = round(sign * count * step, 6)
            close = abs(figure - value) <= 0.004 * abs(value) or step == steps[-1]
            if close and _cures(rule, p, parameter, figure):
                return figure
    return None


def _cures(rule: Rule, p: Pattern, parameter: Parameter, figure: float) -> bool:
    """Report whether a value is valid and the rule passes with it."""
    if not _is_valid(parameter, p, figure):
        return False
    margin = judge(rule, p.with_(parameter.key, figure)).margin
    return math.isfinite(margin) and margin >= -SAME_POINT


def _is_multiple(value: float) -> bool:
    """Report whether a value is a multiple of ``FINE_STEP``."""
    return math.isclose(value, round(value / FINE_STEP) * FINE_STEP, abs_tol=1e-9)


def _is_valid(parameter: Parameter, p: Pattern, figure: float) -> bool:
    """Report whether a file with the value would be accepted."""
    in_range = parameter.low <= figure <= parameter.high
    return in_range and too_wide(parameter, figure, p.tolerance(parameter.key)) is None
