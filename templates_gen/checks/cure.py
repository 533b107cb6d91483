"""Find what would cure a failed check: one declared number, moved as little as may be."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np

from templates_gen.checks.corners import corners, margins_along
from templates_gen.checks.judge import Result, judge, moved, numbers_read
from templates_gen.checks.rule import Rule
from templates_gen.geometry.arrays import Floats
from templates_gen.parameters import Parameter, Pattern
from templates_gen.parameters.declare import FINE_STEP
from templates_gen.parameters.families import Band, bands
from templates_gen.parameters.value import too_wide
from templates_gen.tolerances import SAME_POINT

#: What the maker has stated is moved only where it need move this much less than a usual number.
OWN_COUNTS = 3.0

#: A cure leads so far out of what is usual at most, in parts of the width of what is.
_ASTRAY = 0.5

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
        beyond: what is usual in the family, where the new value is outside it.
    """

    key: str
    value: float
    was: float
    beyond: Band | None = None

    @property
    def description(self) -> str:
        told = f"make {self.key} {self.value:g} (it is {self.was:g})"
        if self.beyond is None:
            return told
        return f"{told}; outside what is usual, {self.beyond.span}"

    @property
    def astray(self) -> float:
        """How far it leads out of what is usual, or farther away, in parts of the band's width."""
        band = self.beyond
        if band is None or band.low is None or band.high is None:
            return 0.0
        low, high = min(self.was, band.low), max(self.was, band.high)
        out = max(low - self.value, self.value - high, 0.0)
        return out and out / max(band.high - band.low, SAME_POINT)

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
    """The first lever that breaks nothing that held; see ``levers`` and ``sound``.

    Args:
        failed: what is to be cured.
        p: the pattern it failed on.
        results: every rule judged on that pattern.
        faults: what a pattern would be refused for; a cure must not be.
    """
    return sound(levers(failed, p), failed, p, results, faults)


def levers(failed: Result, p: Pattern, *, least: bool = False) -> list[Cure]:
    """Every change of one number that would pass, the best first: the smallest relative one.

    What leads out of what is usual in the family comes last, and before it what was measured on
    the wood or the stock, which cannot be changed at will. What the maker has stated counts as
    moved farther than it is, so that a usual number gives way first, or one beyond what is usual.
    What leads out by more than half the width of what is usual is none: no maker would do it.

    Args:
        failed: what is to be cured.
        p: the pattern it failed on.
        least: ask not what is usual, for the pattern is carried out of it anyway.
    """
    known, usual = p.schema.parameters, bands(p.family.name)

    def cost(c: Cure) -> tuple[bool, bool, float]:
        band = usual.get(c.key)
        own = band is None or (band.usual != c.was and not band.left_by(c.was))
        change = c.change * (OWN_COUNTS if own else 1.0)
        return c.astray > 0.0 and not least, known[c.key].measured, change

    def told(c: Cure) -> Cure:
        band = usual.get(c.key)
        return c if band is None or not band.left_by(c.value) else replace(c, beyond=band)

    found = map(told, _passing(failed.rule, p))
    return sorted((c for c in found if least or c.astray <= _ASTRAY), key=cost)


def _alone(p: Pattern, lever: Cure) -> Pattern:
    return p.with_(lever.key, lever.value)


def sound(
    found: Sequence[Cure],
    failed: Result,
    p: Pattern,
    results: Sequence[Result],
    faults: Callable[[Pattern], Sequence[object]] = lambda _: (),
    *,
    gently: bool = False,
    change: Callable[[Pattern, Cure], Pattern] = _alone,
) -> Cure | None:
    """The first of some levers with which no error-check fails that held.

    One that would make another failing error-check worse is taken only if there is no better, and
    one with which a warning fails that held only if there is no other at all.

    Args:
        found: the levers.
        failed, p, results, faults: as for ``cure``.
        gently: take none of the last.
        change: the pattern with a lever moved, and with it what goes along.
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
    """What a change does to the other checks at worst."""

    NONE = 0
    WORSENS = 1  # an error-check that fails, fails by more
    WARNS = 2  # a warning fails that held
    BREAKS = 3  # an error-check fails that held


def _harm(p: Pattern, changed: Pattern, others: Sequence[Result]) -> _Harm:
    """What a change does to the other checks."""
    worst = _Harm.NONE
    keys = moved(p, changed)
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
    """A round figure no nearer than ``value``, hardly farther than it need be.

    What is bought or drilled becomes the next size there is.
    """
    way = 1.0 if value > p.values[parameter.key] else -1.0
    if parameter.stock is not None:
        sizes = parameter.stock.beyond(value, way)
        return next((size for size in sizes if _cures(rule, p, parameter, size)), None)
    steps: tuple[float, ...] = (1.0,) if parameter.whole else _STEPS
    if parameter.fine and _even(p.values[parameter.key]):
        steps = tuple(step for step in _STEPS if step >= FINE_STEP)
    for step in steps:
        # What was found a hair's breadth beyond a figure is that figure, if it passes.
        first = math.ceil(round(way * value / step, 4))
        for count in (first, first + 1):
            figure = round(way * count * step, 6)
            close = abs(figure - value) <= 0.004 * abs(value) or step == steps[-1]
            if close and _cures(rule, p, parameter, figure):
                return figure
    return None


def _cures(rule: Rule, p: Pattern, parameter: Parameter, figure: float) -> bool:
    """Whether a figure may be stated, and the rule holds with it."""
    if not _may_be(parameter, p, figure):
        return False
    margin = judge(rule, p.with_(parameter.key, figure)).margin
    return math.isfinite(margin) and margin >= -SAME_POINT


def _even(value: float) -> bool:
    """Whether it is set in even steps, and so stays."""
    return math.isclose(value, round(value / FINE_STEP) * FINE_STEP, abs_tol=1e-9)


def _may_be(parameter: Parameter, p: Pattern, figure: float) -> bool:
    """Whether a file that states the figure would be read."""
    in_range = parameter.low <= figure <= parameter.high
    return in_range and too_wide(parameter, figure, p.tolerance(parameter.key)) is None
