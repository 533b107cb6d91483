"""Reach a mass and a balance by the least change of what one may move: numbers, then words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property, partial
from itertools import product

import numpy as np

from templates_gen.bench.weigh.aim import Floats, Reached, Target
from templates_gen.bench.weigh.ask import named
from templates_gen.bench.weigh.levers import NUMBERS, WORDS, Changes, chosen, other_words
from templates_gen.bench.weigh.numbers import Numbers, effort, every, few
from templates_gen.bench.weigh.sound import (
    Bounds,
    Text,
    judged,
    narrowed,
    refused,
    without,
    words_in,
)
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.checks.judge import Result
from templates_gen.parameters import Pattern
from templates_gen.pipeline import judging

#: Of the sets of so many words, so many are tried in earnest.
_EARNEST = 3
#: Looking ahead, a miss of so much (g) may yet be none.
_SLACK = 1.0
#: So many answers are judged before the soundest of them is told.
_JUDGED = 6

_Way = Callable[[Numbers, Changes], Reached | None]
#: Least change first: numbers of frog, button and lapping, then the stick's too, then all.
_WAYS: tuple[_Way, ...] = (partial(few, stick=False), partial(few, stick=True), every)


def reach(w: Weighed, target: Target, move: Sequence[str]) -> Reached:
    """The least change that reaches the target, or comes nearest to it, judged.

    Few changes are less than many, a changed number less than a changed word, and any of them less
    than a stick of other thickness: wood taken off it weakens it, so weight is tuned with frog,
    button and lapping (common practice, no source). Numbers stay within what is usual, those that
    go along too. What a check forbids to cut stands behind all that may be cut; what no file may
    state is never told.

    Args:
        w: the bow as it is.
        target: what is wanted.
        move: keys that may move (``lapping.length``); all there are if empty.

    Raises:
        InputError: a key that is no lever.
    """
    search = _Search(w, target, named(move) or [*WORDS, *NUMBERS])
    bounds, broken = Bounds(), list[Reached]()
    before = judging.results(w.pattern)
    while len(broken) < _JUDGED and (found := search.least(bounds)) is not None:
        found = judged(w.pattern, before, found)
        if found.sound:
            return found
        broken.append(found)
        bounds = narrowed(w.pattern, found, bounds)
    told = [found for found in broken if not found.refused]
    if told:
        return min(told, key=lambda r: sum(each.stops for each in r.worse))
    return _nearest(search, w.pattern, before)


def _nearest(search: _Search, p: Pattern, before: Sequence[Result]) -> Reached:
    """What comes nearest of all that a file may state; the bow as it is where nothing does."""
    bounds = Bounds()
    for _ in range(_JUDGED):
        found = judged(p, before, search.nearest(bounds))
        if not found.refused:
            return found
        bounds = without(p, found.changes, refused, bounds)
    return search.unchanged


class _Search:
    """What has been tried of one bow for one target, so that nothing is tried twice."""

    def __init__(self, w: Weighed, target: Target, keys: Sequence[str]) -> None:
        self._w, self._target = w, target
        self._words = [key for key in keys if key in WORDS]
        self._numbers = [key for key in keys if key in NUMBERS]
        self._bows: dict[object, Numbers] = {}
        self._hopeless: set[object] = set()
        self._looked: dict[object, list[_Look]] = {}

    def least(self, bounds: Bounds) -> Reached | None:
        """The least change within bounds that reaches the target; None if none does."""
        for i, way in enumerate(_WAYS):
            for row in self._rows(bounds):
                tried = [self._tried(i, way, c, bounds) for c in row]
                met = [each for each in tried if each is not None]
                if met:
                    return min(met, key=lambda each: effort(each[0], each[1].changes))[1]
        return None

    @property
    def unchanged(self) -> Reached:
        """The bow as it is."""
        return Reached({}, self._w, self._target.met(self._w), ())

    def nearest(self, bounds: Bounds) -> Reached:
        """What comes nearest within bounds where nothing reaches the target."""
        likely = [{}, *(look[-1] for look in _likeliest(self._looks(bounds)))]
        found = [every(self._bow(c).within(bounds.limits), c) for c in likely]
        return min(found, key=lambda r: (_far(self._target.misses(r.then)), len(r.changes)))

    def _tried(
        self, i: int, way: _Way, changes: Changes, bounds: Bounds
    ) -> tuple[Numbers, Reached] | None:
        """One way with some words chosen; what led nowhere does not within narrower bounds."""
        tried = (i, words_in(changes))
        if tried in self._hopeless:
            return None
        n = self._bow(changes).within(bounds.limits)
        found = way(n, changes)
        if found is None or not found.met:
            self._hopeless.add(tried)
            return None
        return n, found

    def _bow(self, changes: Changes) -> Numbers:
        """The numbers of the bow with some words chosen."""
        words = words_in(changes)
        if words not in self._bows:
            then = self._w.changed(changes) if changes else self._w
            self._bows[words] = Numbers.of(then, self._target, self._numbers)
        return self._bows[words]

    def _rows(self, bounds: Bounds) -> Iterator[list[Changes]]:
        """No word; of sets of one word, of two …, those that look likeliest; and of all sets."""
        yield [{}]
        looks = [look for look in self._looks(bounds) if look[-1]]
        for count in sorted({look[2] for look in looks}):
            likely = [look for look in looks if look[2] == count and look[0] == 0.0]
            if likely:
                yield [look[-1] for look in _likeliest(likely)]
        if looks:
            yield [look[-1] for look in _likeliest(looks)]

    def _looks(self, bounds: Bounds) -> list[_Look]:
        """Every set of words there may be, and what it promises, worked out once."""
        n = self._bow({}).within(bounds.limits)
        key = (tuple(map(tuple, n.ends)), bounds.banned)
        if key not in self._looked:
            self._looked[key] = list(self._looked_at(n, bounds))
        return self._looked[key]

    def _looked_at(self, n: Numbers, bounds: Bounds) -> Iterator[_Look]:
        """What a word does is taken to be the same whatever else changes: near enough."""
        choices = ([None, *(each for each in self._told if each[0] == k)] for k in self._words)
        for i, picked in enumerate(product(*choices)):
            words = [each for each in picked if each is not None]
            if not bounds.allows(frozenset(words)):
                continue
            miss = n.miss + sum((self._told[each] for each in words), np.zeros(len(n.miss)))
            step = n.step(range(len(n.keys)), miss)
            left = max(0.0, _far(miss + n.slopes @ step) - _SLACK)
            changes: dict[str, float | str] = {}
            for key, word in words:
                changes |= chosen(self._w.pattern, key, word)
            yield left, float(np.linalg.norm(step)), len(words), i, changes

    @cached_property
    def _told(self) -> dict[Text, Floats]:
        """What each word alone would change of the misses."""
        p, miss = self._w.pattern, self._bow({}).miss
        return {
            (key, word): self._target.misses(self._w.changed(chosen(p, key, word))) - miss
            for key in self._words
            for word in other_words(p, key)
        }


#: What words would leave missing (g), how far numbers would move, how many words, their order,
#: and what they set.
_Look = tuple[float, float, int, int, Changes]


def _likeliest(looks: Sequence[_Look]) -> list[_Look]:
    return sorted(looks, key=lambda look: (*look[:2], look[3]))[:_EARNEST]


def _far(miss: Floats) -> float:
    return float(np.hypot.reduce(miss))
