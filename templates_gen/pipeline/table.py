"""Lay out checks as text of at most 80 columns."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from templates_gen.checks import Result, Severity
from templates_gen.parameters import plain, with_unit, wrapped
from templates_gen.pipeline.checked import Checked, cured_first

#: Styles by their numbers. Source: ECMA-48, 8.3.117, select graphic rendition.
_STYLES = {"fail": "1;31", "warn": "1", "pass": "32", "place": "1"}
#: Where under a check its details stand.
_DETAIL, _HANG = " " * 9, 13
#: Between a number and its unit while lines are broken.
_NO_BREAK = "\N{NO-BREAK SPACE}"


def styled(text: str, style: str, colour: bool) -> str:
    """Set text in a style, if colour is wanted."""
    return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if colour else text


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


def _failure(
    c: Checked, checked: Sequence[Checked], shown: set[tuple[str, float]]
) -> Iterator[str]:
    """Say what a failed check requires, by how much it is missed, and what cures it."""
    r = c.result
    required = wrapped(f"{_DETAIL}Required: ", f"{r.rule.description}. {_missed(r)}", _HANG)
    yield required.replace(_NO_BREAK, " ")
    if first := cured_first(c, checked):
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
    unit = with_unit("", r.rule.unit).strip()
    spare = round(r.margin, 3) + 0.0  # so that -0.0001 is not written as -0.000
    return f"{figure(r.measured):>8} {r.sense} {figure(r.limit):>7} {unit:<3} spare {spare:+7.3f}"


def figure(value: float) -> str:
    """Write a number with three decimals, or what is too small for them by its power of ten."""
    return f"{value:.1e}" if 0 < abs(value) < 0.0005 else f"{value:.3f}"
