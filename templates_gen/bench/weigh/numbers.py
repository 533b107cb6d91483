"""Reach a mass and a balance by moving numbers: as few as will do, or all that may move."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import combinations

import numpy as np

from templates_gen.bench.weigh.aim import MASS_NEAR, Floats, Reached, Target
from templates_gen.bench.weigh.levers import Changes, at_end, matters, moved, reach_of
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.parameters.stock import Stock

#: How far a lever may go (mm), by its key: from … to.
Limits = Mapping[str, tuple[float, float]]

#: Numbers are set to so many decimals (mm), the coarsest that does.
_DECIMALS = (1, 2)
#: So many numbers are tried together before all are; of each count, so many sets in earnest.
_TOGETHER, _EARNEST = 3, 4
#: Looking ahead in straight lines, a miss of so much (g) may yet be none.
_SLACK = 0.5
_ROUNDS = 6
#: What the length of a step weighs against what it misses: only enough to choose among equals.
_SHORT = 1e-3
#: A band is taken to be so wide (mm) at least; what can move no farther than this (in parts of
#: its band) stands still.
_NARROW, _FIXED = 0.01, 1e-9


@dataclass(frozen=True)
class Numbers:
    """The numbers that may move on a bow, and how they tell.

    Args:
        base: the bow before.
        target: what is wanted of it.
        keys: numbers it has.
        limits: how far some of them may go, where that is less than what is usual.
        known: how the misses change with them, where that is worked out already.
    """

    base: Weighed
    target: Target
    keys: tuple[str, ...]
    limits: Limits = field(default_factory=dict)
    known: Floats | None = None

    @classmethod
    def of(cls, base: Weighed, target: Target, keys: Sequence[str]) -> Numbers:
        return cls(base, target, tuple(k for k in keys if matters(base.pattern, k)))

    @cached_property
    def miss(self) -> Floats:
        """What the bow misses before anything moves (g and their like)."""
        return self.target.misses(self.base)

    @cached_property
    def start(self) -> Floats:
        """Where the numbers stand (mm)."""
        return np.array([float(self.base.pattern.values[k]) for k in self.keys])

    def within(self, limits: Limits) -> Numbers:
        """The same numbers, some of which may go less far."""
        return replace(self, limits=limits, known=self.slopes)

    @cached_property
    def spans(self) -> Floats:
        """How far each may go (mm) as far as is usual with what goes along: from, to."""
        found = [reach_of(self.base.pattern, key) for key in self.keys]
        spans: Floats = np.array([[low for low, _ in found], [high for _, high in found]])
        return spans

    @cached_property
    def ends(self) -> tuple[Floats, Floats]:
        """How far each may go (mm), within its limits too."""
        low, high = self.spans.copy()
        for i, key in enumerate(self.keys):
            least, most = self.limits.get(key, (low[i], high[i]))
            low[i] = min(max(low[i], least), self.start[i])
            high[i] = max(min(high[i], most), self.start[i])
        return low, high

    @cached_property
    def width(self) -> Floats:
        """How wide their bands are (mm)."""
        low, high = self.spans
        wide: Floats = np.maximum(high - low, _NARROW)
        return wide

    @cached_property
    def slopes(self) -> Floats:
        """How each miss changes with each number, told in parts of its band: (misses, numbers)."""
        if self.known is not None:
            return self.known
        columns = [np.zeros(len(self.miss))] * len(self.keys)
        for i, wide in enumerate(self.width):
            nudged = self.start.copy()
            nudged[i] += 1e-3 * wide
            columns[i] = (self.target.misses(self.bow(nudged)) - self.miss) / 1e-3
        return np.array(columns).T.reshape(len(self.miss), len(self.keys))

    def step(self, which: Sequence[int], miss: Floats) -> Floats:
        """The least step of some of the numbers, in parts of their bands, that undoes a miss."""
        low, high = ((end - self.start) / self.width for end in self.ends)
        step = np.zeros(len(self.keys))
        at = [i for i in which if high[i] - low[i] > _FIXED]
        step[at] = _least_within(self.slopes[:, at], -miss, low[at], high[at])
        return step

    @cached_property
    def _most(self) -> tuple[Floats, Floats]:
        """How far each number alone takes each miss down and up: (misses, numbers)."""
        ways = [self.slopes * ((end - self.start) / self.width) for end in self.ends]
        return np.minimum(*ways), np.maximum(*ways)

    def stock(self, i: int) -> Stock | None:
        """Return the series a number is sold in, if any."""
        return self.base.pattern.schema.parameters[self.keys[i]].stock

    def sized(self, i: int, step: float) -> float:
        """Return the step (in parts of its band) to the size nearest to a step, within its ends."""
        stock, start, wide = self.stock(i), float(self.start[i]), float(self.width[i])
        assert stock is not None, "only what is sold in a series has sizes"
        low, high = (float(end[i]) for end in self.ends)
        sizes = [size for size in stock.sizes if low <= size <= high] or [start]
        size = min(sizes, key=lambda size: round(abs(size - start - step * wide), 9))
        return 0.0 if abs(step) < _FIXED else (size - start) / wide

    def falls_short(self, which: Sequence[int]) -> bool:
        """Whether some numbers, all at their ends, still miss by more than the slack."""
        down, up = (most[:, list(which)].sum(axis=1) for most in self._most)
        return bool(np.any(self.miss + down > _SLACK) or np.any(self.miss + up < -_SLACK))

    def changes(self, values: Floats) -> Changes:
        """What is set where numbers have moved."""
        changes: dict[str, float | str] = {}
        for key, value, was in zip(self.keys, values, self.start, strict=True):
            if abs(value - was) > 1e-9:
                changes |= moved(self.base.pattern, key, float(value - was))
        return changes

    def bow(self, values: Floats) -> Weighed:
        """The bow with the numbers at these values (mm)."""
        changes = self.changes(values)
        return self.base.changed(changes) if changes else self.base


def few(n: Numbers, words: Changes, *, stick: bool) -> Reached | None:
    """The fewest numbers, moved least, that reach the target; None if few do not.

    Args:
        n: the numbers that may move.
        words: what has changed before, told along with what changes now.
        stick: whether the stick's own may move too; wood taken off it weakens it.
    """
    if n.target.met(n.base):
        return _reached(n, n.start, words)
    group = [i for i, k in enumerate(n.keys) if stick or not k.startswith("stick.")]
    moved = (_moved(n, which, words) for which in _promising(n, group))
    return next((found for found in moved if found.met), None)


def every(n: Numbers, words: Changes) -> Reached:
    """All numbers, each moved little, to come nearest."""
    return _moved(n, range(len(n.keys)), words)


def _promising(n: Numbers, group: Sequence[int]) -> Iterator[Sequence[int]]:
    """Sets of numbers that may do it by the look of their slopes, the fewest first.

    Of as many, those that look sure come before those that do not, the least moved first.
    """
    for count in range(1, min(_TOGETHER, len(group)) + 1):
        ranked = []
        for which in combinations(group, count):
            if n.falls_short(which):
                continue
            step = n.step(which, n.miss)
            left = float(np.hypot.reduce(n.miss + n.slopes @ step))
            if left < _SLACK:
                ranked.append((left > MASS_NEAR, float(np.linalg.norm(step)), which))
        yield from (which for *_, which in sorted(ranked)[:_EARNEST])


def _moved(n: Numbers, which: Sequence[int], words: Changes) -> Reached:
    """These numbers moved least to come nearest, then set as coarsely as still does it.

    What is bought is set to a size there is, and the others make up for the rest.
    """
    step = _solved(n, which, np.zeros(len(n.keys)))
    bought = [i for i in which if n.stock(i) is not None]
    if bought:
        fixed = np.zeros(len(n.keys))
        fixed[bought] = [n.sized(i, float(step[i])) for i in bought]
        step = _solved(n, [i for i in which if i not in bought], fixed)
    low, high = n.ends
    found = _reached(n, n.start, words)
    for decimals in _DECIMALS:
        values = np.clip(np.round(n.start + step * n.width, decimals), low, high)
        values[bought] = (n.start + step * n.width)[bought]
        values = np.where(np.abs(step) < 1e-9, n.start, values)
        found = _reached(n, values, words)
        if found.met:
            break
    return found


def _solved(n: Numbers, which: Sequence[int], fixed: Floats) -> Floats:
    """Return the step of some numbers that comes nearest, others being moved already."""
    step = fixed.copy()
    for _ in range(_ROUNDS if len(which) else 0):
        miss = n.target.misses(n.bow(n.start + step * n.width))
        # What the numbers would miss if they had not moved, were all as straight as it looks.
        step = fixed + n.step(which, miss - n.slopes @ (step - fixed))
    return step


def _reached(n: Numbers, values: Floats, words: Changes) -> Reached:
    then, (low, high) = n.bow(values), n.ends
    nearest = np.minimum(values - low, high - values)
    ended = [k for k, gap in zip(n.keys, nearest, strict=True) if gap < 10.0 ** -_DECIMALS[-1]]
    stuck = dict.fromkeys(key for lever in ended for key in at_end(then.pattern, lever))
    return Reached({**words, **n.changes(values)}, then, n.target.met(then), tuple(stuck))


def effort(n: Numbers, changes: Changes) -> float:
    """How far numbers have moved, in parts of their bands."""
    now = [float(changes.get(k, was)) for k, was in zip(n.keys, n.start, strict=True)]
    return float(np.linalg.norm((np.array(now) - n.start) / n.width))


def _least_within(slopes: Floats, wanted: Floats, low: Floats, high: Floats) -> Floats:
    """The step within its ends that comes nearest to what is wanted, the shortest of those."""
    from scipy.optimize import lsq_linear

    if not len(low):
        return low
    short = _SHORT * np.eye(len(low))
    rows, sides = np.vstack([slopes, short]), np.concatenate([wanted, np.zeros(len(low))])
    step: Floats = lsq_linear(rows, sides, (low, high), method="bvls").x
    return step
