"""Reach a mass and a balance by the least change of what one may move."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from templates_gen.bench.weigh import Weighed
from templates_gen.bench.weigh_levers import (
    NUMBERS,
    WORDS,
    chosen,
    matters,
    moved,
    other_words,
)
from templates_gen.errors import Fault, InputError
from templates_gen.parameters.families import bands
from templates_gen.parameters.words import nearest

Floats = NDArray[np.float64]

#: Near enough: mass (g) and balance (mm).
MASS_NEAR, BALANCE_NEAR = 0.05, 0.3
#: A miss of one gram counts as much as one of so many millimetres.
_MM_PER_GRAM = 3.0
#: Numbers are set to so many decimals (mm).
_DECIMALS = 2
_ROUNDS = 6


@dataclass(frozen=True)
class Target:
    """What is wanted; None where anything will do.

    Args:
        mass: g.
        balance: mm from the ferrule's front in play.
    """

    mass: float | None = None
    balance: float | None = None

    @property
    def asked(self) -> bool:
        """Whether anything is wanted."""
        return self.mass is not None or self.balance is not None

    def misses(self, w: Weighed) -> Floats:
        """How far a bow is from it, in grams and their like."""
        found = []
        if self.mass is not None:
            found.append(w.total - self.mass)
        if self.balance is not None:
            found.append((w.from_ferrule - self.balance) / _MM_PER_GRAM)
        return np.array(found)

    def met(self, w: Weighed) -> bool:
        """Whether a bow is near enough."""
        heavy = self.mass is not None and abs(w.total - self.mass) > MASS_NEAR
        off = self.balance is not None and abs(w.from_ferrule - self.balance) > BALANCE_NEAR
        return not (heavy or off)


@dataclass(frozen=True)
class Reached:
    """The bow that comes nearest.

    Args:
        changes: what to set.
        then: the bow with that.
        met: whether it is what was wanted.
        stuck: numbers that have come to the end of their family's usual band.
    """

    changes: Mapping[str, float | str]
    then: Weighed
    met: bool
    stuck: tuple[str, ...]


def reach(w: Weighed, target: Target, move: Sequence[str]) -> Reached:
    """The least change that reaches the target, or comes nearest to it.

    A changed word counts for more than any number. Numbers stay within their family's usual band.

    Args:
        w: the bow as it is.
        target: what is wanted.
        move: keys that may move (``lapping.length``); all there are if empty.

    Raises:
        InputError: a key that is no lever.
    """
    keys = named(move) or [*WORDS, *NUMBERS]
    words = [key for key in keys if key in WORDS]
    numbers = [key for key in keys if key in NUMBERS]
    best: Reached | None = None
    for count, changes in _word_changes(w, words):
        if best is not None and best.met and count > _words_in(best):
            break
        base = w.changed(changes) if changes else w
        found = _by_numbers(base, target, [k for k in numbers if matters(base.pattern, k)], changes)
        if best is None or _better(found, best, w, target):
            best = found
    assert best is not None, "to change nothing is always tried"
    return best


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


def _word_changes(w: Weighed, words: Sequence[str]) -> Iterator[tuple[int, dict[str, float | str]]]:
    """Every set of changed words, the fewest first."""
    kept = [[None, *other_words(w.pattern, key)] for key in words]
    sets = sorted(product(*kept), key=lambda s: sum(word is not None for word in s))
    for each in sets:
        changes: dict[str, float | str] = {}
        for key, word in zip(words, each, strict=True):
            if word is not None:
                changes |= chosen(w.pattern, key, word)
        yield sum(word is not None for word in each), changes


def _words_in(found: Reached) -> int:
    return sum(key in WORDS for key in found.changes)


def _better(found: Reached, best: Reached, w: Weighed, target: Target) -> bool:
    def order(r: Reached) -> tuple[bool, float, float]:
        miss = float(np.hypot.reduce(target.misses(r.then)))
        return not r.met, 0.0 if r.met else miss, _effort(r, w)

    return order(found) < order(best)


def _effort(found: Reached, w: Weighed) -> float:
    """How much has moved: words, and numbers in parts of their band."""
    spans = _spans(w)
    numbers = (
        (float(value) - float(w.pattern.values[key])) / (spans[key][1] - spans[key][0])
        for key, value in found.changes.items()
        if key in spans
    )
    return _words_in(found) * 10 + float(np.sqrt(sum(n**2 for n in numbers)))


def _spans(w: Weighed) -> dict[str, tuple[float, float]]:
    """How far each number may go: its family's usual band, and where it stands."""
    usual = bands(w.pattern.family.name)
    spans = {}
    for key in NUMBERS:
        band, now = usual[key], float(w.pattern.values[key])
        assert band.low is not None and band.high is not None, "a number has a band"
        spans[key] = (min(band.low, now), max(band.high, now))
    return spans


def _by_numbers(
    base: Weighed, target: Target, keys: Sequence[str], words: Mapping[str, float | str]
) -> Reached:
    """Numbers moved least, in parts of their bands, to come nearest."""
    spans = _spans(base)
    start = np.array([float(base.pattern.values[k]) for k in keys])
    low, high = (np.array([spans[k][end] for k in keys]) for end in (0, 1))
    width = high - low

    def bow(values: Floats) -> Weighed:
        changes: dict[str, float | str] = {}
        for key, value, was in zip(keys, values, start, strict=True):
            changes |= moved(base.pattern, key, round(float(value - was), 6))
        return base.changed(changes) if changes else base

    values = start
    for _ in range(_ROUNDS if len(keys) else 0):
        slopes = _slopes(bow, target, values, width)
        wanted = slopes @ ((values - start) / width) - target.misses(bow(values))
        step = _least_within(slopes, wanted, (low - start) / width, (high - start) / width)
        values = start + step * width
    values = np.clip(np.round(values, _DECIMALS), low, high)
    then = bow(values)
    changes = dict(words)
    for key, value, was in zip(keys, values, start, strict=True):
        if abs(value - was) > 10**-_DECIMALS / 2:
            changes |= moved(base.pattern, key, float(value - was))
    ends = [
        k
        for k, v, a, b in zip(keys, values, low, high, strict=True)
        if min(v - a, b - v) < 10**-_DECIMALS
    ]
    return Reached(changes, then, target.met(then), tuple(ends))


def _slopes(
    bow: Callable[[Floats], Weighed], target: Target, values: Floats, width: Floats
) -> Floats:
    """How each miss changes with each number, told in parts of its band."""
    here = target.misses(bow(values))
    columns = []
    for i in range(len(values)):
        nudged = values.copy()
        nudged[i] += 1e-3 * width[i]
        columns.append((target.misses(bow(nudged)) - here) / 1e-3)
    return np.array(columns).T


def _least_within(slopes: Floats, wanted: Floats, low: Floats, high: Floats) -> Floats:
    """The shortest step that gives what is wanted, each part within its ends.

    Whatever would go beyond its end is put there, the farthest first, and the rest found anew.
    """
    step = np.zeros(len(low))
    free = np.ones(len(low), bool)
    while free.any():
        rest = wanted - slopes[:, ~free] @ step[~free]
        step[free] = np.linalg.lstsq(slopes[:, free], rest, rcond=1e-9)[0]
        beyond = np.where(free, np.maximum(low - step, step - high), 0.0)
        worst = int(np.argmax(beyond))
        if beyond[worst] <= 1e-12:
            break
        step[worst] = np.clip(step[worst], low[worst], high[worst])
        free[worst] = False
    return np.clip(step, low, high)
