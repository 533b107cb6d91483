"""Collect the data of the index page from sheets and checks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from templates_gen.checks import Cure, Result
from templates_gen.drawing import PlacedSheet, Template, capitalized
from templates_gen.parameters import Pattern
from templates_gen.writers.page.facts import NAME, CheckRow, DrawnSheet, NotDrawn, PageFacts

__all__ = ["NAME", "facts"]


def facts(
    p: Pattern,
    checked: Iterable[tuple[Result, Cure | None]],
    sheets: Sequence[PlacedSheet],
    templates: Sequence[Template],
    stem: str,
    files: Iterable[str],
    not_drawn: Mapping[str, str] = MappingProxyType({}),
) -> PageFacts:
    """Collect the data of the page.

    Args:
        p: the pattern.
        checked: all checks, with their cures.
        sheets: the sheets of the set.
        templates: the templates of the call.
        stem: the start of the file names.
        files: the file names.
        not_drawn: names of the sheets and solids that could not be made, with the reasons.
    """
    names = sorted(files)
    known = {t.name: t for t in templates}
    return PageFacts(
        p,
        tuple(_check_row(p, result, cure) for result, cure in checked),
        tuple(
            DrawnSheet(
                s,
                known[s.name].part if s.name in known else "routing",
                tuple(n for n in names if n.startswith(f"{stem}--{s.name}.")),
            )
            for s in sheets
        ),
        tuple(n for n in names if n.startswith(f"{stem}.")),
        tuple(n for n in names if n.endswith(".step")),
        tuple(_not_drawn(known.get(name), name, why) for name, why in not_drawn.items()),
    )


def _not_drawn(template: Template | None, name: str, why: str) -> NotDrawn:
    if template is None:  # one solid, or all solids
        return NotDrawn(name, capitalized(name), name.partition(" ")[0], why)
    return NotDrawn(name, template.title, template.part, why)


def _check_row(p: Pattern, result: Result, cure: Cure | None) -> CheckRow:
    place = result.rule.place
    return CheckRow(result, cure.description if cure else "", place(p) if place else None)
