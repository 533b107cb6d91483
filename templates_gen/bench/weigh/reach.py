"""Reach a mass and a balance with a bow that can be made: search, judge, exclude what fails."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial

import numpy as np

from templates_gen import registry
from templates_gen.bench.weigh.levers import (
    NUMBERS,
    WORDS,
    Changes,
    at_end,
    changes_of,
    possible_values,
    words_in,
)
from templates_gen.bench.weigh.moves import Cut
from templates_gen.bench.weigh.search import Search
from templates_gen.bench.weigh.target import Target, TargetSolution, known_levers
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bench.worse import worse
from templates_gen.checks import Result, Rule, judge, rejudge
from templates_gen.parameters import Pattern
from templates_gen.pipeline import judging

#: Solutions judged before the best of them is taken: each takes as long as `check`.
_JUDGED = 6
#: Rounding to steps may bring back settings that a limit excludes; the limit is then made less by
#: this factor.
_TIGHTER = 0.9
#: Places looked at on the way to a failing bow where several numbers move.
_SHARES = 256


def reach_target(w: Weighed, target: Target, move: Sequence[str] = ()) -> TargetSolution:
    """Return the least change that reaches a target, or comes nearest to it, judged by the checks.

    Few changes cost less than many, a number less than a word, and either less than a stick of
    other thickness. Numbers stay in their usual bands. A bow that fails an error-check is taken
    only if no other reaches the target, and one that no file may state is never taken.

    Args:
        w: the bow before.
        target: the mass and the balance wanted.
        move: levers that may change (``lapping.length``); all if empty.

    Raises:
        InputError: a key that is not a lever.
    """
    p, before = w.pattern, judging.results(w.pattern)
    search = Search(w, target, known_levers(move) or [*WORDS, *NUMBERS])
    found: list[tuple[float, TargetSolution]] = []
    cuts: list[Cut] = []
    while len(found) < _JUDGED:
        settings = search.least(cuts)
        solution = _judged(search, settings, target, before, p)
        again = sum(each[1].changes == solution.changes for each in found)
        found.append((search.cost(settings), solution))
        if solution.sound or (found[0][1].met and not solution.met):
            break
        for broken in _broken(solution):
            cuts += (replace(c, most=c.most * _TIGHTER**again) for c in _cuts(p, settings, broken))
    allowed = [each for each in found if not each[1].refused]
    if not allowed:
        return TargetSolution({}, w, target.met(w), ())
    return min(allowed, key=lambda each: (not each[1].met, each[1].failing, each[0]))[1]


def _judged(
    search: Search, settings: Changes, target: Target, before: Sequence[Result], p: Pattern
) -> TargetSolution:
    then = search.bow(settings)
    q = then.pattern
    return TargetSolution(
        changes_of(p, settings),
        then,
        target.met(then),
        tuple(dict.fromkeys(k for key in search.numbers for k in at_end(q, key))),
        worse(p, q, rejudge(before, p, q)),
        _refused(q),
    )


def _broken(solution: TargetSolution) -> Iterator[Callable[[Pattern], bool]]:
    """Yield a test of a pattern for each thing that is wrong with a solution."""
    for each in solution.worse:
        if each.stops:
            yield partial(_fails, each.after.rule)
    if solution.refused:
        yield _refused


def _fails(rule: Rule, p: Pattern) -> bool:
    return judge(rule, p).stops


def _refused(p: Pattern) -> bool:
    """Report whether no file may state a pattern, whatever its checks."""
    return bool(registry.faults(p))


def _cuts(p: Pattern, settings: Changes, broken: Callable[[Pattern], bool]) -> Iterator[Cut]:
    """Yield limits that exclude settings with which something is broken.

    The words are limited if they alone break it, else each number that does alone, else the
    numbers without any of which it holds.
    """
    words = words_in(settings)
    for group in [*({k: word} for k, word in words.items()), words]:
        if group and broken(p.with_many(changes_of(p, group))):
            yield Cut(dict.fromkeys(group.items(), 1.0), len(group) - 1.0)
            return
    q = p.with_many(changes_of(p, words))
    start = {key: float(q.values[key]) for key in settings if key in NUMBERS}
    way = {key: float(settings[key]) - start[key] for key in start}

    def breaks(keys: Sequence[str], share: float) -> bool:
        moved = {key: start[key] + share * way[key] for key in keys}
        return broken(p.with_many(changes_of(p, {**words, **moved})))

    alone = [[key] for key in way if breaks([key], 1.0)]
    needed = [key for key in way if not breaks([k for k in way if k != key], 1.0)]
    for keys in alone or [needed or list(way)]:
        shares = np.linspace(0.0, 1.0, _SHARES)
        if len(keys) == 1:
            shares = (possible_values(q, keys[0]) - start[keys[0]]) / way[keys[0]]
            shares = np.sort(shares[(shares >= 0) & (shares <= 1)])
        first = bisect_left(shares, True, key=partial(breaks, keys))
        yield Cut(
            {(key, None): 1 / way[key] for key in keys}, shares[max(first - 1, 0)] * len(keys)
        )
