"""Which checks a change leaves worse off, in words for the screen and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from templates_gen.checks.judge import Result, changed_keys, judge
from templates_gen.checks.rule import Severity
from templates_gen.parameters import Pattern
from templates_gen.pipeline.judging import figure

_ORDER = ("pass", "close", "fail")


@dataclass(frozen=True)
class Worse:
    """A check with less to spare than before, as far as its verdict tells."""

    before: Result
    after: Result

    @property
    def stops(self) -> bool:
        """Whether an error-check fails that did not fail before."""
        return self.after.stops


def worse(was: Pattern, now: Pattern, after: Iterable[Result]) -> tuple[Worse, ...]:
    """The checks whose verdict is worse than before, in the order of the parts.

    Args:
        was, now: the pattern before and after.
        after: every check judged on the one after.
    """
    changed = changed_keys(was, now)
    found = []
    for r in after:
        # What holds cannot be worse, whatever it was; nor what hangs on nothing that changed.
        if r.verdict == "pass" or changed.isdisjoint(r.depends_on):
            continue
        before = judge(r.rule, was)
        if _ORDER.index(r.verdict) > _ORDER.index(before.verdict):
            found.append(Worse(before, r))
    return tuple(found)


def lines(found: Iterable[Worse]) -> Iterator[str]:
    """A line each: how it stood, how it stands, and by how much; what fails comes first."""
    ranked = sorted(found, key=lambda each: (not each.stops, each.after.verdict != "fail"))
    for each in ranked:
        was, now = each.before, each.after
        warns = now.verdict == "fail" and now.rule.severity is Severity.WARNING
        stood, had = (was.verdict, f"{was.margin:+.3f} → ") if was.applies else ("not asked", "")
        yield (
            f"  {now.rule.id}: {stood} → {'warning' if warns else now.verdict}, "
            f"spare {had}{now.margin:+.3f} {now.rule.unit}".rstrip()
        )
    if not ranked:
        yield "  no check is worse than before"


def as_data(found: Iterable[Worse]) -> list[dict[str, Any]]:
    """The same as plain data, numbers unrounded."""
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
