"""Print on a terminal: tables of checks, colour where the terminal takes it, JSON documents."""

from __future__ import annotations

import json
import math
import os
import re
from collections.abc import Iterator, Sequence
from typing import Any, TextIO

from templates_gen.checks.judge import Result, headline
from templates_gen.checks.rule import Severity
from templates_gen.parameters.words import plain, with_unit, wrapped
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked

#: Styles by their numbers. Source: ECMA-48, 8.3.117, select graphic rendition.
_STYLES = {"fail": "1;31", "warn": "1", "pass": "32", "place": "1"}
#: Where under a check its details stand.
_DETAIL, _HANG = " " * 9, 13
#: Between a number and its unit while lines are broken.
_NO_BREAK = "\N{NO-BREAK SPACE}"


def document(data: Any) -> str:
    """Write plain data as a JSON document."""
    return json.dumps(data, indent=1)


def coloured(stream: TextIO) -> bool:
    """Report whether a stream takes colour: a terminal, unless the maker has set ``NO_COLOR``.

    Source: no-color.org, for the variable and that an empty one counts as not set.
    """
    wanted = not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    return wanted and stream.isatty()


def styled(text: str, style: str, colour: bool) -> str:
    """Set text in a style, if colour is wanted."""
    return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if colour else text


def messages(text: str, colour: bool) -> str:
    """Lay out messages, one a line, with the place each begins with in bold."""
    lines = "\n".join(wrapped("", line) for line in text.splitlines())
    bold = styled(r"\g<0>", "place", colour)
    return re.sub(r"^[^\s:]+(:\d+)?:", bold, lines, flags=re.MULTILINE)


def table(checked: Sequence[Checked], *, brief: bool = False, colour: bool = False) -> str:
    """Lay checks out on lines of at most 80 columns, with what to do about those that fail.

    Args:
        checked: the checks.
        brief: leave out those that pass.
        colour: set those that fail in colour.
    """
    lines: list[str] = []
    shown: set[tuple[str, float]] = set()
    for c in checked:
        r = c.result
        if r.verdict != "fail":
            mark = f"{r.verdict:<5}"
            lines += [] if brief else [f"  {mark}  {r.rule.id:<29} {_numbers(r)}"]
            continue
        mark = "warn" if r.rule.severity is Severity.WARNING else "fail"
        row = f"  {mark.upper()}   {r.rule.id:<29} {_numbers(r)}"
        lines += [styled(row, mark, colour), *_failure(c, checked, shown)]
    return "\n".join(lines)


def summary(checked: Sequence[Checked], colour: bool) -> Iterator[str]:
    """Count the verdicts, and say in a line whether the pattern is ready to cut."""
    yield f"  {judging.verdict(checked)}"
    style = "fail" if judging.stops(checked) else "pass"
    yield styled(f"  {headline(c.result for c in checked)}", style, colour)


def _failure(
    c: Checked, checked: Sequence[Checked], shown: set[tuple[str, float]]
) -> Iterator[str]:
    """Say what a failed check requires, by how much it is missed, and what cures it."""
    r = c.result
    required = wrapped(f"{_DETAIL}Required: ", f"{r.rule.description}. {_missed(r)}", _HANG)
    yield required.replace(_NO_BREAK, " ")
    if first := judging.cured_first(c, checked):
        yield wrapped(f"{_DETAIL}Cure first: ", f"{', '.join(first)}.", _HANG)
    cure = "no change of one number cures this"
    if c.cure is not None:
        same = (c.cure.key, c.cure.value) in shown
        cure = f"the same, {c.cure.key} {c.cure.value:g}" if same else c.cure.description
        shown.add((c.cure.key, c.cure.value))
    yield wrapped(f"{_DETAIL}Cure: ", f"{cure}.", _HANG)


def _missed(r: Result) -> str:
    """By how much a check fails, as a sentence."""
    if not math.isfinite(r.margin):
        return "These dimensions give no valid shape to measure."
    measured, limit, gap = (_value(v, r) for v in (r.measured, r.limit, abs(r.margin)))
    way = "less" if r.sense == ">=" else "more"
    return f"Measured {measured}, {gap} {way} than the limit of {limit}."


def _value(value: float, r: Result) -> str:
    small = 0 < abs(value) < 0.0005
    number = f"{value:.1e}" if small else plain(round(value, 3))
    return with_unit(number, r.rule.unit).replace(" ", _NO_BREAK)


def _numbers(r: Result) -> str:
    """The measured value against its limit, in columns."""
    if not math.isfinite(r.margin):
        return "not measured"
    spare = round(r.margin, 3) + 0.0  # so that -0.0001 is not written as -0.000
    return (
        f"{figure(r.measured):>8} {r.sense} {figure(r.limit):>7} {r.rule.unit:<3} "
        f"spare {spare:+7.3f}"
    )


def figure(value: float) -> str:
    """Write a number with three decimals, or what is too small for them by its power of ten."""
    return f"{value:.1e}" if 0 < abs(value) < 0.0005 else f"{value:.3f}"
