"""Reach a mass and a balance by the least change of what one may move: numbers, then words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import product

import numpy as np

from templates_gen.bench.weigh import Weighed
from templates_gen.bench.weigh_levers import NUMBERS, WORDS, Changes, chosen, other_words
from templates_gen.bench.weigh_numbers import Numbers, Reached, Target, effort, every, few
from templates_gen.errors import Fault, InputError
from templates_gen.parameters.words import nearest

__all__ = ["Reached", "Target", "named", "reach"]

#: Of the sets of so many words, so many are tried in earnest.
_EARNEST = 3
#: Looking ahead, a miss of so much (g) may yet be none.
_SLACK = 1.0

_Way = Callable[[Numbers, Changes], Reached | None]


def reach(w: Weighed, target: Target, move: Sequence[str]) -> Reached:
    """The least change that reaches the target, or comes nearest to it.

    Few changes are less than many, a changed number less than a changed word, and any of them less
    than a stick of other thickness: wood taken off it weakens it, so weight is tuned with frog,
    button and lapping (common practice, no source). Numbers stay within their family's usual band.

    Args:
        w: the bow as it is.
        target: what is wanted.
        move: keys that may move (``lapping.length``); all there are if empty.

    Raises:
        InputError: a key that is no lever.
    """
    keys = named(move) or [*WORDS, *NUMBERS]
    numbers = [key for key in keys if key in NUMBERS]
    sets = _word_sets(w, target, [k for k in keys if k in WORDS], numbers)
    bows = [[(_after(w, target, numbers, c), c) for c in row] for row in sets]
    ways: tuple[_Way, ...] = (partial(few, stick=False), partial(few, stick=True), every)
    for way in ways:
        for row in bows:
            tried = [(n, found) for n, c in row if (found := way(n, c)) and found.met]
            if tried:
                return min(tried, key=lambda each: effort(each[0], each[1].changes))[1]
    nearest = [every(n, c) for row in (bows[0], bows[-1]) for n, c in row]
    return min(
        nearest, key=lambda r: (float(np.hypot.reduce(target.misses(r.then))), len(r.changes))
    )


def _after(w: Weighed, target: Target, numbers: Sequence[str], changes: Changes) -> Numbers:
    return Numbers.of(w.changed(changes) if changes else w, target, numbers)


def named(move: Sequence[str]) -> list[str]:
    """The levers named, each once.

    Raises:
        InputError: a key that is no lever.
    """
    faults = []
    for key in move:
        if key not in WORDS and key not in NUMBERS:
            like = nearest(key, (*WORDS, *NUMBERS))
            guess = f"; the nearest is {like}" if like else ""
            cure = f"choose from {', '.join((*WORDS, *NUMBERS))}{guess}"
            faults.append(Fault("--move", None, key, "nothing a bow is weighed by", cure))
    if faults:
        raise InputError(faults)
    return list(dict.fromkeys(move))


def _word_sets(
    w: Weighed, target: Target, keys: Sequence[str], numbers: Sequence[str]
) -> Iterator[list[Changes]]:
    """None changed; of sets of one word, of two …, those that look likeliest; and of all sets.

    What a word does is taken to be the same whatever else changes, which is near enough to look
    ahead by.
    """
    n = Numbers.of(w, target, numbers)
    told = {
        (key, word): target.misses(w.changed(chosen(w.pattern, key, word))) - n.miss
        for key in keys
        for word in other_words(w.pattern, key)
    }
    choices = ([None, *((k, v) for k, v in told if k == key)] for key in keys)
    looks: dict[int, list[tuple[float, float, int, Changes]]] = {}
    for i, picked in enumerate(product(*choices)):
        words = [each for each in picked if each is not None]
        miss = n.miss + sum((told[each] for each in words), np.zeros(len(n.miss)))
        step = n.step(range(len(n.keys)), miss)
        left = float(np.hypot.reduce(miss + n.slopes @ step))
        changes: dict[str, float | str] = {}
        for key, word in words:
            changes |= chosen(w.pattern, key, word)
        look = (max(0.0, left - _SLACK), float(np.linalg.norm(step)), i, changes)
        looks.setdefault(len(words), []).append(look)
    yield [{}]
    for count in sorted(looks.keys() - {0}):
        likely = [each for each in sorted(looks[count], key=lambda e: e[:3]) if each[0] == 0.0]
        if likely:
            yield [each[-1] for each in likely[:_EARNEST]]
    every = sorted((each for row in looks.values() for each in row), key=lambda e: e[:3])
    yield [each[-1] for each in every[:_EARNEST]]
