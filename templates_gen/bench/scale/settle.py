"""Settle a scaled pattern: where a check fails, change one number after another."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from functools import cache

from templates_gen import registry
from templates_gen.bench.scale.law import LEADERS, after
from templates_gen.bench.scale.points import along
from templates_gen.checks import Cure, Result, Rule, candidate_cures, first_harmless, judge, rejudge
from templates_gen.parameters import Pattern, Scale
from templates_gen.pipeline import judging

_LEADING = frozenset(key for keys in LEADERS.values() for key in keys)


def settle(
    p: Pattern, kept: Collection[str], was: Pattern
) -> tuple[Pattern, dict[str, str], list[Result]]:
    """Return a pattern that passes its error-checks, and its former warnings where possible.

    For a warning that fails by more than rounding, only numbers that stay in their usual band
    change, and no leaders.

    Leaders change after other numbers, for the ferrule is designed first, and stock sizes change
    last; but stock sizes change before a warning starts to fail.

    Args:
        p: the pattern.
        kept: keys that must not change.
        was: the pattern before scaling.

    Returns:
        The pattern, the reason by each changed key, and every check judged on the pattern.
    """
    cured: dict[str, str] = {}
    held = cache(lambda rule: judge(rule, was).verdict != "fail")
    results = judging.results(p)
    known: _Known = {}
    while True:  # each cure ends one failure and begins none of its kind or a worse one
        found = _first_cure(p, results, _tried(p, results, kept, held), {*kept, *cured}, known)
        if found is None:
            return p, cured, results
        rule, change, then = found
        cured[change.key] = f"so that {rule} passes"
        cured |= _along(p, change, {*kept, *cured})[1]
        p, results = then, rejudge(results, p, then)


#: By check, the result that was looked at and its cures; another result is looked at again.
_Known = dict[str, tuple[Result, list[Cure]]]


@dataclass(frozen=True)
class _Try:
    """A failing check, and what may change for it.

    Args:
        failed: the check.
        kept: keys that must not change for it.
        gently: whether no warning may start to fail.
        usual: whether only numbers that stay in their usual band may change.
    """

    failed: Result
    kept: Collection[str]
    gently: bool = True
    usual: bool = False


def _tried(
    p: Pattern, results: list[Result], kept: Collection[str], held: Callable[[Rule], bool]
) -> Iterator[_Try]:
    """Yield what to try in turn: error-checks first, each time with more that may change."""
    stock = [key for key, q in p.schema.parameters.items() if q.scale is Scale.NEVER]
    leading = {*kept, *_LEADING}
    stages = (
        ({*leading, *stock}, True),
        (leading, True),
        ({*leading, *stock}, False),
        ({*kept, *stock}, False),
        (kept, False),
    )
    stopping = [r for r in results if r.stops]
    slight = [r for r in results if _by_a_hair(r) and held(r.rule)]
    yield from (_Try(failed, *stage) for stage in stages for failed in stopping)
    # A warning is not cured at the cost of another: the two would alternate for ever.
    yield from (_Try(failed, keys) for keys, _ in stages for failed in slight)
    warned = [r for r in results if r.verdict == "fail" and not r.stops and held(r.rule)]
    yield from (_Try(failed, keys, usual=True) for keys, _ in stages[:2] for failed in warned)


def _by_a_hair(r: Result) -> bool:
    """Report whether it fails by a tenth of the room of a close pass or less, as by rounding."""
    return r.verdict == "fail" and r.margin > -r.rule.room(r.limit) / 10


def _along(p: Pattern, change: Cure, kept: Collection[str]) -> tuple[Pattern, dict[str, str]]:
    """Return the pattern with one number changed, and with it all that follows or fits it."""
    whys = {}
    made = p.with_(change.key, change.value)
    cured = p.schema.parameters[change.key]
    partner = cured.after if cured.fits else None
    for key, q in p.schema.parameters.items():
        if (q.after == change.key or key == partner) and key not in kept:
            step = (change.was, change.value)
            moved = after(q, p.values[key], p.tolerance(key), change.key, *step)
            # rounding must not separate equal values
            least = min if p.values[key] <= change.was else max
            made = made.with_(key, least(moved.value, change.value))
            whys[key] = moved.why
    # A table of the stick's points follows the number it must agree with. The ridge's table stays:
    # the head's other numbers change for its points.
    tables = {k: m.value for k, m in along(p, made.values).items() if k.startswith("stick.")}
    return made.with_many(tables), whys


def _first_cure(
    p: Pattern,
    results: list[Result],
    tried: Iterator[_Try],
    fixed: Collection[str],
    known: _Known,
) -> tuple[str, Cure, Pattern] | None:
    """Return the first failing check that one number cures, that number, and the new pattern.

    Args:
        p, results: the pattern, and every check judged on it.
        tried: what to try in turn.
        fixed: keys that do not follow another.
        known: what was found before the last cure; added to.
    """

    made: dict[Cure, Pattern] = {}

    def change(p: Pattern, lever: Cure) -> Pattern:
        # The same pattern each time, so that its results are known.
        if lever not in made:
            made[lever] = _along(p, lever, {*fixed, lever.key})[0]
        return made[lever]

    for each in tried:

        def refused(other: Pattern, each: _Try = each) -> list[object]:
            moved: list[object] = [k for k in each.kept if other.values[k] != p.values[k]]
            # what follows may undo the cure
            if not moved and judge(each.failed.rule, other).verdict == "fail":
                return [each.failed]
            return moved or list(registry.faults(other))

        name = each.failed.rule.id
        if name not in known or known[name][0] is not each.failed:
            known[name] = each.failed, candidate_cures(each.failed, p, least=True)
        those = [c for c in known[name][1] if c.key not in each.kept]
        if each.usual:
            those = [c for c in those if c.beyond is None]
        found = first_harmless(
            those, each.failed, p, results, refused, gently=each.gently, change=change
        )
        if found is not None:
            return name, found, change(p, found)
    return None
