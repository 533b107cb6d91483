"""What the index page tells, as plain data; gathered by whoever knows parts and checks."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.checks.judge import Result
from templates_gen.checks.rule import Place, Severity
from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.text import figure
from templates_gen.parameters import Pattern

#: What the page is called in its folder.
NAME = "index.html"
_ORDER = {"fail": 0, "close": 2, "pass": 3}


@dataclass(frozen=True)
class Judged:
    """A check, with its cure in words ("" for none) and the place to look at, if it has one."""

    result: Result
    cure: str = ""
    place: Place | None = None


@dataclass(frozen=True)
class Drawn:
    """A sheet, with the part it is of and the files it was written to."""

    sheet: PlacedSheet
    part: str
    files: tuple[str, ...] = ()


@dataclass(frozen=True)
class NotDrawn:
    """A sheet or a solid that these numbers do not allow, and why."""

    name: str
    title: str
    part: str
    why: str


@dataclass(frozen=True)
class PageFacts:
    """Everything on the page.

    Args:
        pattern: what the maker stated.
        checks: every check, in the order of the parts.
        drawn: every sheet of this set, in the order of the parts.
        together: names of the files that hold all sheets in one.
        solids: names of the files of solids.
        not_drawn: what could not be made.
    """

    pattern: Pattern
    checks: tuple[Judged, ...]
    drawn: tuple[Drawn, ...]
    together: tuple[str, ...] = ()
    solids: tuple[str, ...] = ()
    not_drawn: tuple[NotDrawn, ...] = ()

    @cached_property
    def sorted_checks(self) -> tuple[Judged, ...]:
        """All checks: failed errors, failed warnings, close ones, then the rest."""
        return tuple(sorted(self.checks, key=_rank))

    @cached_property
    def failed(self) -> tuple[Judged, ...]:
        """The failed checks in the order of the page; a mark's number is the place here."""
        return tuple(c for c in self.sorted_checks if c.result.verdict == "fail")

    def number(self, check: Judged) -> str:
        """What a failed check is marked with."""
        return str(self.failed.index(check) + 1)

    @property
    def stamps(self) -> tuple[str, ...]:
        """What is printed large on every sheet."""
        return self.drawn[0].sheet.info.stamps if self.drawn else ()

    @property
    def verdict(self) -> str:
        """What every sheet says of the checks."""
        return self.drawn[0].sheet.info.verdict if self.drawn else ""

    @cached_property
    def titles(self) -> dict[str, str]:
        """The title of every sheet of this set, by its name."""
        return {d.sheet.name: d.sheet.title for d in self.drawn}


def _rank(check: Judged) -> int:
    rank = _ORDER[check.result.verdict]
    forgiven = rank == 0 and check.result.rule.severity is Severity.WARNING
    return 1 if forgiven else rank


def number(value: float) -> str:
    """A measured figure: three decimals; what is smaller than they show by its power of ten."""
    if not math.isfinite(value):
        return "cannot be worked out"
    told = f"{value:.1e}" if 0 < abs(value) < 0.0005 else figure(value, 3)
    return told.replace("-", "\N{MINUS SIGN}")
