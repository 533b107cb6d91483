"""Read a pattern and judge it: what needs no drawing and no solid."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from templates_gen import registry
from templates_gen.checks import Result
from templates_gen.errors import TemplatesGenError
from templates_gen.parameters import Pattern
from templates_gen.parameters import read as reading
from templates_gen.parameters.starter import UNNAMED, starter
from templates_gen.parameters.words import near
from templates_gen.pipeline.checked import (
    Checked,
    check_json,
    cured_first,
    figure,
    results,
    summary,
    with_cures,
)
from templates_gen.pipeline.table import table

__all__ = ["Checked", "check_json", "cured_first", "figure", "results"]


def read(file: str | os.PathLike[str]) -> Pattern:
    """Read a pattern from its parameter file.

    Args:
        file: the TOML file.

    Returns:
        The pattern.

    Raises:
        InputError: everything wrong with the file, at once, each with its line and its cure.

    Example:
        >>> import templates_gen as tg
        >>> from pathlib import Path
        >>> _ = Path("wren.toml").write_text(tg.new("violin", "Wren").to_toml(), "utf-8")
        >>> tg.read("wren.toml")
        <Pattern "Wren", violin, 150 parameters>
    """
    return reading.read(file, registry.SCHEMA)


def new(family: str, name: str = UNNAMED) -> Pattern:
    """Return a pattern with every number at its family's usual value.

    Args:
        family: ``violin``, ``viola``, ``cello``, ``bass-french`` or ``bass-german``.
        name: the pattern's name, which begins the names of its files.

    Returns:
        The pattern. ``to_toml`` writes its commented parameter file.

    Raises:
        InputError: no such family, or a name that does not fit a title block.

    Example:
        >>> import templates_gen as tg
        >>> tg.new("viola", "Sanderling")
        <Pattern "Sanderling", viola, 150 parameters>
    """
    return reading.read_text(starter(family, registry.SCHEMA, name), registry.SCHEMA)


@dataclass(frozen=True, repr=False)
class Report(Sequence[Checked]):
    """Judge a pattern and hold all its checks; no verdict can be passed in.

    Args:
        pattern: the pattern.
        more: checks beside the pattern's own, of a workshop's tools; they can only add failures.
    """

    pattern: Pattern
    more: tuple[Checked, ...] = ()

    @cached_property
    def results(self) -> tuple[Result, ...]:
        """Every result that applies, without cures."""
        own = (r for r in results(self.pattern) if r.applies)
        return (*own, *(c.result for c in self.more))

    @cached_property
    def checks(self) -> tuple[Checked, ...]:
        """Every check, with a cure for each that fails."""
        return (*with_cures(self.pattern), *self.more)

    @property
    def ok(self) -> bool:
        """Whether no error-check fails."""
        return not any(r.stops for r in self.results)

    @property
    def failing(self) -> tuple[Checked, ...]:
        """The error-checks that fail, each with its cure."""
        return tuple(c for c in self.checks if c.result.stops)

    @property
    def summary(self) -> str:
        """One line for sheets, page and command; failing warnings are counted apart."""
        return summary(self.results)

    def __len__(self) -> int:
        return len(self.results)

    def __getitem__(self, which: Any) -> Any:
        """Return a check by its position or by its id, ``report["frog.mortise_to_seat"]``."""
        if not isinstance(which, str):
            return self.checks[which]
        ids = [r.rule.id for r in self.results]
        if which not in ids:
            like = ", ".join(near(which, ids, 3)) or "none"
            raise KeyError(f"{which} is not a check of this pattern; near it: {like}")
        return self.checks[ids.index(which)]

    def __repr__(self) -> str:
        return f'<Report on "{self.pattern.identity.name}", {self.summary}>'

    def __str__(self) -> str:
        return f"{table(self)}\n  {self.summary}"


class ChecksFailed(TemplatesGenError):
    """A pattern was not drawn because an error-check fails.

    Args:
        report: all its checks; ``report.failing`` are those that fail.

    Example:
        >>> import templates_gen as tg
        >>> p = tg.new("bass-french").set("frog.hair_mortise_depth", 18)
        >>> try:
        ...     tg.draw(p, "out")
        ... except tg.ChecksFailed as e:
        ...     print(e.report.failing[0].cure)
        make frog.hair_mortise_width 10.15 (it is 11)
    """

    def __init__(self, report: Report) -> None:
        self.report = report
        name, failed = report.pattern.identity.name, table(report.failing)
        super().__init__(f"{name} is not drawn: {report.summary}\n{failed}")


def check(p: Pattern, more: Iterable[Checked] = ()) -> Report:
    """Judge every clearance of a pattern, at the worst corner of its tolerances.

    Args:
        p: the pattern.
        more: checks beside its own, such as those of a workshop's router.

    Returns:
        A sequence of checks with ``ok`` and ``failing``; it prints as a table.

    Example:
        >>> import templates_gen as tg
        >>> report = tg.check(tg.new("bass-french").set("frog.hair_mortise_depth", 18))
        >>> report.ok
        False
        >>> for check in report.failing:
        ...     print(check.id, round(check.margin, 3), check.unit, check.cure)
        frog.mortise_to_flank -0.417 mm make frog.hair_mortise_width 10.15 (it is 11)
        frog.shank_to_mortise -5.325 mm make frog.hair_mortise_depth 10.75 (it is 18)
        frog.eye_to_mortise -0.6 mm make frog.hair_mortise_depth 10.75 (it is 18)
    """
    return Report(p, tuple(more))


def stops(checked: Iterable[Checked]) -> bool:
    """Report whether an error-check fails."""
    return any(c.result.stops for c in checked)


def verdict(checked: Iterable[Checked]) -> str:
    """Count the verdicts in one line, for sheets, page and command."""
    return summary(c.result for c in checked)
