"""Define the data of the index page; ``pipeline.page`` collects it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.checks import Place, Result, Severity
from templates_gen.drawing import PlacedSheet, figure
from templates_gen.parameters import Pattern

#: File name of the page.
NAME = "index.html"
_ORDER = {"fail": 0, "close": 2, "pass": 3}


@dataclass(frozen=True)
class CheckRow:
    """A check with its cure in words ("" for none) and its place on a sheet, if it has one."""

    result: Result
    cure: str = ""
    place: Place | None = None


@dataclass(frozen=True)
class DrawnSheet:
    """A sheet with its part and its files."""

    sheet: PlacedSheet
    part: str
    files: tuple[str, ...] = ()


@dataclass(frozen=True)
class NotDrawn:
    """A sheet or solid that could not be made, and why."""

    name: str
    title: str
    part: str
    why: str


@dataclass(frozen=True)
class PageFacts:
    """Everything on the page.

    Args:
        pattern: the pattern.
        checks: all checks, in the order of the parts.
        drawn: all sheets of the set, in the order of the parts.
        together: names of the files with all sheets.
        solids: names of the files of solids.
        not_drawn: the sheets and solids that could not be made.
    """

    pattern: Pattern
    checks: tuple[CheckRow, ...]
    drawn: tuple[DrawnSheet, ...]
    together: tuple[str, ...] = ()
    solids: tuple[str, ...] = ()
    not_drawn: tuple[NotDrawn, ...] = ()

    @cached_property
    def sorted_checks(self) -> tuple[CheckRow, ...]:
        """All checks: failed errors, failed warnings, close ones, then the rest."""
        return tuple(sorted(self.checks, key=_rank))

    @cached_property
    def failed(self) -> tuple[CheckRow, ...]:
        """The failed checks in the order of the page; their marks are numbered in this order."""
        return tuple(c for c in self.sorted_checks if c.result.verdict == "fail")

    def number(self, check: CheckRow) -> str:
        """Return the number of a failed check's mark."""
        return str(self.failed.index(check) + 1)

    @property
    def stamps(self) -> tuple[str, ...]:
        """The stamps on every sheet."""
        return self.drawn[0].sheet.info.stamps if self.drawn else ()

    @property
    def verdict(self) -> str:
        """The result of the checks as stated on every sheet."""
        return self.drawn[0].sheet.info.verdict if self.drawn else ""

    @cached_property
    def titles(self) -> dict[str, str]:
        """The titles of the sheets, by name."""
        return {d.sheet.name: d.sheet.title for d in self.drawn}


def _rank(check: CheckRow) -> int:
    rank = _ORDER[check.result.verdict]
    warning = rank == 0 and check.result.rule.severity is Severity.WARNING
    return 1 if warning else rank


def number(value: float) -> str:
    """Format a measured value with three decimals, a smaller one in exponential form."""
    if not math.isfinite(value):
        return "cannot be calculated"
    text = f"{value:.1e}" if 0 < abs(value) < 0.0005 else figure(value, 3)
    return text.replace("-", "\N{MINUS SIGN}")
