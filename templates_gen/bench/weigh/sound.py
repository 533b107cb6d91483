"""Whether a bow that weighs as wanted can be made: what is wrong with it, and how far is sound."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from templates_gen import registry
from templates_gen.bench.weigh.aim import Reached
from templates_gen.bench.weigh.levers import NUMBERS, WORDS, Changes, chosen, moved
from templates_gen.bench.weigh.numbers import Limits
from templates_gen.bench.worse import worse
from templates_gen.checks.judge import Result, judge, rejudge
from templates_gen.checks.rule import Rule
from templates_gen.parameters import Pattern

#: A word chosen: its key, and the word.
Text = tuple[str, str]

#: Whether something is wrong with a bow.
Breaks = Callable[[Pattern], bool]

#: A lever's sound way is halved so often, and told in steps of so much (mm).
_HALVED, _STEP = 8, 0.01
#: Of a way no lever can be blamed for alone, so much is gone at most.
_MOST = 0.95


@dataclass(frozen=True)
class Bounds:
    """What has been found not to do.

    Args:
        limits: how far numbers may go before a check forbids cutting.
        banned: words that must not be chosen together.
    """

    limits: Limits = field(default_factory=dict)
    banned: frozenset[frozenset[Text]] = frozenset()

    def allows(self, words: frozenset[Text]) -> bool:
        """Whether these words may be chosen together."""
        return not any(ban <= words for ban in self.banned)

    def limited(self, key: str, start: float, end: float) -> Bounds:
        """The same, with a number that may go no farther from its start than an end (mm)."""
        least, most = self.limits.get(key, (-math.inf, math.inf))
        span = (max(least, end), most) if end < start else (least, min(most, end))
        return replace(self, limits={**self.limits, key: span})


def judged(p: Pattern, before: Sequence[Result], found: Reached) -> Reached:
    """What was found, with the checks it would leave worse off.

    Args:
        p: the bow before.
        before: every check judged on it.
        found: the bow that comes near.
    """
    then = found.then.pattern
    return replace(found, worse=worse(p, then, rejudge(before, p, then)), refused=refused(then))


def refused(p: Pattern) -> bool:
    """Whether no file may state it, whatever the checks say."""
    return bool(registry.faults(p))


def words_in(changes: Mapping[str, float | str]) -> frozenset[Text]:
    """The words among changes."""
    return frozenset((k, str(v)) for k, v in changes.items() if k in WORDS)


def narrowed(p: Pattern, found: Reached, bounds: Bounds) -> Bounds:
    """Bounds within which what was found, and what breaks for the same reason, is not.

    Args:
        p: the bow before.
        found: a bow judged, by which a check is broken, or that no file may state.
        bounds: what was known before.
    """
    for each in found.worse:
        if each.stops:
            bounds = without(p, found.changes, partial(_stopped, each.after.rule), bounds)
    return without(p, found.changes, refused, bounds) if found.refused else bounds


def without(p: Pattern, changes: Changes, breaks: Breaks, bounds: Bounds) -> Bounds:
    """Bounds that keep one thing: by the words to blame, else the numbers, else all together.

    Args:
        p: the bow before.
        changes: with what it breaks.
        breaks: whether it does.
        bounds: what was known before.
    """
    words = words_in(changes)
    alone = [frozenset({word}) for word in sorted(words)]
    to_blame = next((w for w in (*alone, words) if w and breaks(_worded(p, w))), None)
    if to_blame is not None:
        return replace(bounds, banned=bounds.banned | {to_blame})
    base = _worded(p, words)
    ways = {
        key: (float(base.values[key]), float(changes[key])) for key in NUMBERS if key in changes
    }

    def gone(keys: tuple[str, ...], share: float) -> Pattern:
        steps: dict[str, float | str] = {}
        for key in keys:
            start, end = ways[key]
            steps |= moved(base, key, share * (end - start))
        return base.with_many(steps)

    single = [key for key in ways if breaks(gone((key,), 1.0))]
    for key in single:
        share = _sound_share(lambda s, key=key: gone((key,), s), breaks)  # type: ignore[misc]
        bounds = bounds.limited(key, ways[key][0], _inward(*ways[key], share))
    if single:
        return bounds
    share = min(_sound_share(lambda s: gone(tuple(ways), s), breaks), _MOST)
    for key, way in ways.items():
        bounds = bounds.limited(key, way[0], _inward(*way, share))
    return bounds


def _worded(p: Pattern, words: frozenset[Text]) -> Pattern:
    changes: dict[str, float | str] = {}
    for key, word in words:
        changes |= chosen(p, key, word)
    return p.with_many(changes)


def _stopped(rule: Rule, p: Pattern) -> bool:
    return judge(rule, p).stops


def _sound_share(at: Callable[[float], Pattern], breaks: Breaks) -> float:
    """How much of a way may be gone before something is wrong, by halving."""
    sound, broken = 0.0, 1.0
    for _ in range(_HALVED):
        middle = (sound + broken) / 2
        sound, broken = (sound, middle) if breaks(at(middle)) else (middle, broken)
    return sound


def _inward(start: float, end: float, share: float) -> float:
    """A place on the way (mm), rounded toward the start."""
    steps = math.floor(abs(end - start) * share / _STEP + 1e-9) * _STEP
    return round(start + math.copysign(steps, end - start), 6)
