"""List the checks whose verdict a change makes worse, as text and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from templates_gen.checks import Result, Severity, changed_keys, judge
from templates_gen.parameters import Pattern
from templates_gen.pipeline.judging import figure

_ORDER = ("pass", "close", "fail")


@dataclass(frozen=True)
class Worse:
    """A check whose verdict is worse than before."""

    before: Result
    after: Result

    @property
    def stops(self) -> bool:
        """Report whether it is now a failing error-check, and was not before."""
        return self.after.stops


def worse(was: Pattern, now: Pattern, after: Iterable[Result]) -> tuple[Worse, ...]:
    """Return the checks whose verdict is worse than before, in the order of the parts.

    Args:
        was, now: the pattern before and after.
        after: every check judged on the pattern after.
    """
    changed = changed_keys(was, now)
    found = []
    for r in after:
        # A check that passes is not worse, nor one that depends on nothing that changed.
        if r.verdict == "pass" or changed.isdisjoint(r.depends_on):
            continue
        before = judge(r.rule, was)
        if _ORDER.index(r.verdict) > _ORDER.index(before.verdict):
            found.append(Worse(before, r))
    return tuple(found)


def lines(found: Iterable[Worse]) -> Iterator[str]:
    """Yield a line for each: verdicts and margins before and after; failing checks first."""
    ranked = sorted(found, key=lambda each: (not each.stops, each.after.verdict != "fail"))
    for each in ranked:
        was, now = each.before, each.after
        warns = now.verdict == "fail" and now.rule.severity is Severity.WARNING
        absent = ("did not apply", "")
        stood, had = (was.verdict, f"{was.margin:+.3f} → ") if was.applies else absent
        yield (
            f"  {now.rule.id}: {stood} → {'warning' if warns else now.verdict}, "
            f"spare {had}{now.margin:+.3f} {now.rule.unit}".rstrip()
        )
    if not ranked:
        yield "  no check is worse than before"


def as_data(found: Iterable[Worse]) -> list[dict[str, Any]]:
    """Return the same as plain data, numbers unrounded."""
    return [
        {
            "id": each.after.rule.id,
            "severity": each.after.rule.severity.value,
            "was": each.before.verdict,
            "is": each.after.verdict,
            "margin_was": figure(each.before.margin),
            "margin": figure(each.after.margin),
        }
        for each in found
    ]
