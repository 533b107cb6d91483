"""Settle a scaled pattern: where a check fails, let one number after another give way."""

from __future__ import annotations

from collections.abc import Collection

from templates_gen import registry
from templates_gen.bench.scale_law import LEADERS
from templates_gen.checks.cure import Cure, cure
from templates_gen.checks.judge import Result, judge
from templates_gen.parameters import Pattern, Scale

_LEADING = frozenset(key for keys in LEADERS.values() for key in keys)


def settle(
    p: Pattern, kept: Collection[str], held: Collection[str]
) -> tuple[Pattern, dict[str, str], tuple[Result, ...]]:
    """A pattern whose error-checks hold, and no warning fails by a hair that held before.

    What comes in stock sizes gives way last, and before it what others move after, for the
    ferrule is designed first.

    Args:
        p: the pattern.
        kept: keys that must not give way.
        held: checks that held before the pattern was scaled.

    Returns:
        The pattern, by each key that gave way the check it gave way for, and what still fails.
    """
    cured: dict[str, str] = {}
    while True:  # each cure ends one failure and begins none
        results = [judge(rule, p) for rule in registry.rules()]
        spared = ({*kept, *_LEADING, *_stock(p)}, {*kept, *_stock(p)}, {*kept})
        stopping = [r for r in results if r.stops]
        slight = [r for r in results if r.rule.id in held and _by_a_hair(r)]
        tried = [(failed, keys) for failed in (stopping, slight) for keys in spared]
        cures = (_first_cure(p, results, *each) for each in tried)
        found = next((each for each in cures if each is not None), None)
        if found is None:
            return p, cured, tuple(stopping)
        rule, change = found
        cured[change.key] = rule
        p = p.with_(change.key, change.value)


def _by_a_hair(r: Result) -> bool:
    """Whether it fails by a tenth at most of what would be tight: so much comes of rounding."""
    return r.verdict == "fails" and r.margin > -r.rule.spare * max(1.0, abs(r.limit)) / 10


def _stock(p: Pattern) -> list[str]:
    return [key for key, q in p.schema.parameters.items() if q.scale is Scale.NEVER]


def _first_cure(
    p: Pattern, results: list[Result], failing: list[Result], kept: Collection[str]
) -> tuple[str, Cure] | None:
    """The first of some failing checks that one number cures, and that number."""

    def refused(other: Pattern) -> list[object]:
        moved: list[object] = [key for key in kept if other.values[key] != p.values[key]]
        return moved or list(registry.faults(other))

    for failed in failing:
        found = cure(failed, p, results, refused)
        if found is not None:
            return failed.rule.id, found
    return None
