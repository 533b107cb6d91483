"""What the index page shows of a set of files, gathered from sheets and checks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from templates_gen.checks.cure import Cure
from templates_gen.checks.judge import Result
from templates_gen.drawing.compose import Composed
from templates_gen.parameters import Pattern
from templates_gen.writers.page_facts import NAME, Drawn, Judged, PageFacts

__all__ = ["NAME", "facts"]


def facts(
    p: Pattern,
    checked: Iterable[tuple[Result, Cure | None]],
    sheets: Sequence[Composed],
    parts: Mapping[str, str],
    stem: str,
    files: Iterable[str],
) -> PageFacts:
    """Everything on the page.

    Args:
        p: the pattern.
        checked: every check, and what would cure it.
        sheets: the sheets of the set.
        parts: the part each is of, by its name.
        stem: what the names of its files begin with.
        files: their names.
    """
    names = sorted(files)
    return PageFacts(
        p,
        tuple(_judged(p, result, cure) for result, cure in checked),
        tuple(
            Drawn(
                s,
                parts.get(s.name, "routing"),
                tuple(n for n in names if n.startswith(f"{stem}--{s.name}.")),
            )
            for s in sheets
        ),
        tuple(n for n in names if n.startswith(f"{stem}.")),
        tuple(n for n in names if n.endswith(".step")),
    )


def _judged(p: Pattern, result: Result, cure: Cure | None) -> Judged:
    place = result.rule.place
    return Judged(result, cure.says if cure else "", place(p) if place else None)
