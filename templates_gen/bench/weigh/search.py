"""Search for the least change that gives a bow a mass and a balance."""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from itertools import product

import numpy as np

from templates_gen.bench.weigh.levers import (
    NUMBERS,
    PARTNERS,
    WORDS,
    Changes,
    applies,
    changes_of,
    other_words,
    possible_values,
    reach_of,
    words_in,
)
from templates_gen.bench.weigh.moves import MISS_COST, Cut, Number, least_moves, lower_bound
from templates_gen.bench.weigh.target import Target
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.geometry import Floats

#: A number costs 1 because it changes, and its move; a word as much as three numbers, each moved
#: across its whole band.
NUMBER_COST, WORD_COST = 1.0, 6.0
#: Sets of words whose numbers are worked out on the bow itself, before the cheapest is taken.
EXACT = 3
#: Then a number costs in inverse proportion to its last move (in bands) plus this, so that few
#: change. Source: Candès, Wakin and Boyd, Enhancing Sparsity by Reweighted l1 Minimization, 2008.
EASE = 0.1
#: Rounds in which the slopes follow the numbers before the next number is set to its step.
ROUNDS = 2
#: A number whose whole band changes each miss by less than this has no effect (g).
FELT = 1e-3

#: Levers and their settings, in an order that serves as a key.
Frozen = tuple[tuple[str, float | str], ...]


class Search:
    """The levers of one bow that may change, and the least change that reaches a target.

    Args:
        w: the bow before.
        target: the mass and the balance wanted.
        keys: levers that may change.
    """

    def __init__(self, w: Weighed, target: Target, keys: Sequence[str]) -> None:
        self._w, self._target = w, target
        self._choices = [key for key in keys if key in WORDS]
        self.numbers = [key for key in keys if key in NUMBERS and applies(w.pattern, key)]
        self._bow, self._number = cache(self._changed), cache(self._measured)
        self._bounds = self._lower_bounds()

    def bow(self, settings: Changes) -> Weighed:
        """Return the bow with some levers set."""
        return self._bow(tuple(sorted(settings.items()))) if settings else self._w

    def _changed(self, settings: Frozen) -> Weighed:
        return self._w.changed(changes_of(self._w.pattern, dict(settings)))

    def miss(self, settings: Changes) -> Floats:
        """Return how far the bow with some levers set misses the target (g)."""
        return self._target.misses(self.bow(settings))

    def least(self, cuts: Sequence[Cut]) -> Changes:
        """Return the cheapest settings that reach the target, or the nearest to it.

        Sets of words go by their least cost, as in branch and bound: first that of the lower
        bound, then that of a linear programme, then their numbers are worked out on the bow.

        Args:
            cuts: limits that exclude broken bows.
        """
        queue = [(bound, words, False) for words, bound in self._bounds.items()]
        heapq.heapify(queue)
        found: list[tuple[float, Changes]] = [(np.inf, {})]
        while queue and len(found) <= EXACT and queue[0][0] < min(found, key=_first)[0]:
            _, frozen, ranked = heapq.heappop(queue)
            words = words_in(dict(frozen))
            if any(cut.room(words, {}) < 0 for cut in cuts):
                continue
            if ranked:
                settings = self._settled(words, cuts)
                found.append((self.cost(settings), settings))
            else:
                _, cost = self._moved(words, {}, cuts, self._promised(words))
                self._bounds[frozen] = WORD_COST * len(words) + cost
                heapq.heappush(queue, (self._bounds[frozen], frozen, True))
        return min(found, key=_first)[1]

    def cost(self, settings: Changes) -> float:
        """Return the cost of settings: their words, their moves, and what they miss."""
        excess = np.maximum(abs(self.miss(settings)) - self._target.near, 0.0).sum()
        moved = (
            NUMBER_COST + n.cost * abs(float(settings[n.key]) - n.start) / n.band
            for n in self._numbers(settings)
            if n.key in settings
        )
        return float(MISS_COST * excess + WORD_COST * len(words_in(settings)) + sum(moved))

    def _lower_bounds(self) -> dict[Frozen, float]:
        """Return for each set of words a cost that no moves of numbers undercut."""
        miss, p = self.miss({}), self._w.pattern
        alone = {
            (key, word): self.miss({key: word}) - miss
            for key in self._choices
            for word in other_words(p, key)
        }
        found: dict[Frozen, float] = {}
        for picked in product(*([None, *(e for e in alone if e[0] == k)] for k in self._choices)):
            words = tuple(each for each in picked if each is not None)
            left = miss + sum((alone[each] for each in words), 0.0 * miss)
            numbers = self._promised(dict(words))
            bound = lower_bound(numbers, left, self._target.near / 2, _prices(numbers, {}))
            found[words] = WORD_COST * len(words) + bound
        return found

    def _promised(self, words: Changes) -> list[Number]:
        """Return the numbers, each with the word on which the weight of its move depends most."""
        partners = [(key, PARTNERS.get(key.partition(".")[0])) for key in self.numbers]
        found = (
            self._number(key, tuple(each for each in words.items() if each[0] == partner))
            for key, partner in partners
        )
        return [n for n in found if n is not None]

    def _numbers(self, settings: Changes) -> list[Number]:
        """Return the numbers with their slopes about some settings."""
        found = (self._number(key, tuple(settings.items())) for key in self.numbers)
        return [n for n in found if n is not None]

    def _measured(self, key: str, about: Frozen) -> Number | None:
        """Return a number with its slope about some settings; None if it has no effect."""
        settings = dict(about)
        p = self.bow(words_in(settings)).pattern
        n = Number(key, float(p.values[key]), *reach_of(p, key), np.zeros(0))
        nudge = 1e-3 * n.band
        nudged = {**settings, key: float(settings.get(key, n.start)) + nudge}
        slope = (self.miss(nudged) - self.miss(settings)) / nudge
        felt = bool(np.any(abs(slope) * n.band > FELT))
        return Number(key, n.start, n.low, n.high, slope) if felt else None

    def _moved(
        self, settings: Changes, fixed: Changes, cuts: Sequence[Cut], numbers: Sequence[Number]
    ) -> tuple[Changes, float]:
        """Return settings whose free numbers one linear programme moves, and its cost."""
        words = words_in(settings)
        free = [n for n in numbers if n.key not in fixed]
        by = [float(settings.get(n.key, n.start)) - n.start for n in free]
        before = self.miss(settings) - sum(n.slope * x for n, x in zip(free, by, strict=True))
        steps = {n.key: float(fixed[n.key]) - n.start for n in numbers if n.key in fixed}
        limits = [
            ([c.shares.get((n.key, None), 0.0) for n in free], max(c.room(words, steps), 0.0))
            for c in cuts
        ]
        near = self._target.near / 2  # the other half is for rounding, and for bent slopes
        moves, cost = least_moves(free, before, near, _prices(free, settings), limits)
        moved = {n.key: n.start + x for n, x in zip(free, map(float, moves), strict=True)}
        changed = {n.key: moved[n.key] for n in free if abs(moved[n.key] - n.start) > 1e-6}
        return {**words, **fixed, **changed}, cost

    def _settled(self, words: Changes, cuts: Sequence[Cut]) -> Changes:
        """Return the cheapest settings with some words, each number at a value it may be set to.

        Numbers are set one by one, the coarsest first, and the others make up for it.
        """
        p = self.bow(words).pattern
        values = {key: possible_values(p, key) for key in self.numbers}
        settings, fixed = words, dict[str, float | str]()
        while True:
            near = {
                key: float(values[key][np.argmin(abs(values[key] - float(value)))])
                for key, value in settings.items()
                if key in values
            }
            whole = {**words, **{k: v for k, v in near.items() if v != p.values[k]}}
            free = [n for n in self._numbers(settings) if n.key in near and n.key not in fixed]
            if self._met(whole):
                return whole
            if near and not free:
                return next((s for s in self._beside(whole, values) if self._met(s)), whole)
            if free:
                coarsest = max(free, key=lambda n: _coarseness(n, values[n.key]))
                fixed[coarsest.key] = near[coarsest.key]
            for _ in range(ROUNDS):
                settings, _ = self._moved(settings, fixed, cuts, self._numbers(settings))
            if settings == words:
                return words

    def _met(self, settings: Changes) -> bool:
        return self._target.met(self.bow(settings))

    def _beside(self, settings: Changes, values: Mapping[str, Floats]) -> Iterator[Changes]:
        """Yield settings with the finest number one step lower or higher."""
        numbers = [n for n in self._numbers(settings) if n.key in settings]
        if numbers:
            finest = min(numbers, key=lambda n: _coarseness(n, values[n.key])).key
            at = int(np.argmin(abs(values[finest] - float(settings[finest]))))
            for beside in values[finest][max(at - 1, 0) : at + 2]:
                yield {**settings, finest: float(beside)}


def _first(each: tuple[float, Changes]) -> float:
    return each[0]


def _prices(numbers: Sequence[Number], settings: Changes) -> list[float]:
    """Return the cost of each number per mm; after the first moves, less for those that moved."""
    moved = any(n.key in settings for n in numbers)
    shares = [abs(float(settings.get(n.key, n.start)) - n.start) / n.band for n in numbers]
    ease = [share + EASE if moved else 1.0 for share in shares]
    return [(n.cost + NUMBER_COST) / n.band / e for n, e in zip(numbers, ease, strict=True)]


def _coarseness(n: Number, values: Floats) -> float:
    """Return how much one step of a number changes the misses (g)."""
    return float(abs(n.slope).max() * np.diff(values).min(initial=n.band))
