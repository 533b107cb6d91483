"""Whether a bow that weighs as wanted can be made: what breaks a check, and how far is sound."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from templates_gen.bench.weigh_aim import Reached
from templates_gen.bench.weigh_levers import NUMBERS, WORDS, Changes, chosen, moved
from templates_gen.bench.weigh_numbers import Limits
from templates_gen.bench.worse import worse
from templates_gen.checks.judge import Result, judge, judge_anew
from templates_gen.checks.rule import Rule
from templates_gen.parameters import Pattern

#: A word chosen: its key, and the word.
Word = tuple[str, str]

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
    banned: frozenset[frozenset[Word]] = frozenset()

    def allows(self, words: frozenset[Word]) -> bool:
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
    return replace(found, worse=worse(p, then, judge_anew(before, p, then)))


def words_in(changes: Mapping[str, float | str]) -> frozenset[Word]:
    """The words among changes."""
    return frozenset((k, str(v)) for k, v in changes.items() if k in WORDS)


def narrowed(p: Pattern, found: Reached, bounds: Bounds) -> Bounds:
    """Bounds within which what was found, and what breaks for the same reason, is not.

    Args:
        p: the bow before.
        found: a bow judged, by which a check is broken.
        bounds: what was known before.
    """
    for each in found.worse:
        if each.stops:
            bounds = _without(p, found.changes, each.after.rule, bounds)
    return bounds


def _without(p: Pattern, changes: Changes, rule: Rule, bounds: Bounds) -> Bounds:
    """Bounds that keep one check: by the words to blame, else the numbers, else all together."""
    words = words_in(changes)
    alone = [frozenset({word}) for word in sorted(words)]
    to_blame = next((w for w in (*alone, words) if w and _breaks(_worded(p, w), rule)), None)
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

    single = [key for key in ways if _breaks(gone((key,), 1.0), rule)]
    for key in single:
        share = _sound_share(lambda s, key=key: gone((key,), s), rule)  # type: ignore[misc]
        bounds = bounds.limited(key, ways[key][0], _inward(*ways[key], share))
    if single:
        return bounds
    share = min(_sound_share(lambda s: gone(tuple(ways), s), rule), _MOST)
    for key, way in ways.items():
        bounds = bounds.limited(key, way[0], _inward(*way, share))
    return bounds


def _worded(p: Pattern, words: frozenset[Word]) -> Pattern:
    changes: dict[str, float | str] = {}
    for key, word in words:
        changes |= chosen(p, key, word)
    return p.with_many(changes)


def _breaks(p: Pattern, rule: Rule) -> bool:
    return judge(rule, p).stops


def _sound_share(at: Callable[[float], Pattern], rule: Rule) -> float:
    """How much of a way may be gone before a check is broken, by halving."""
    sound, broken = 0.0, 1.0
    for _ in range(_HALVED):
        middle = (sound + broken) / 2
        sound, broken = (sound, middle) if _breaks(at(middle), rule) else (middle, broken)
    return sound


def _inward(start: float, end: float, share: float) -> float:
    """A place on the way (mm), rounded toward the start."""
    steps = math.floor(abs(end - start) * share / _STEP + 1e-9) * _STEP
    return round(start + math.copysign(steps, end - start), 6)
