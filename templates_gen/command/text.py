"""Results in words, for a screen of 80 columns."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Sequence

from templates_gen.checks.judge import Result
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked

_WIDTH = 80
_MARK = {"pass": "pass ", "close": "close", "fail": "FAIL "}


def table(checked: Sequence[Checked], *, brief: bool = False) -> str:
    """The checks as lines of at most 80 columns, cures under what fails; ``brief``: only those."""
    lines = []
    for c in checked:
        r = c.result
        if brief and r.verdict != "fail":
            continue
        lines.append(f"  {_MARK[r.verdict]}  {r.rule.id:<29} {_figures(r)}")
        if r.verdict == "fail":
            cure = c.cure.description if c.cure else "no single number cures this"
            first = judging.cured_first(c, checked)
            lines += [wrapped("should be so that ", r.rule.description, 9)]
            lines += [wrapped("first cure ", ", ".join(first), 9)] if first else []
            lines += [wrapped("cure: ", cure, 9)]
    return "\n".join(lines)


def _figures(r: Result) -> str:
    """What was measured against its limit; where the numbers give no shape, that."""
    if not math.isfinite(r.margin):
        return "not measured: there is no such shape"
    spare = round(r.margin, 3) + 0.0  # so that -0.0001 is not told as -0.000
    return (
        f"{figure(r.measured):>8} {r.sense} {figure(r.limit):>7} {r.rule.unit:<3} "
        f"spare {spare:+7.3f}"
    )


def figure(value: float) -> str:
    """Three decimals; what is smaller than they show, by its power of ten."""
    return f"{value:.1e}" if 0 < abs(value) < 0.0005 else f"{value:.3f}"


def wrapped(label: str, text: str, indent: int) -> str:
    """Words of any length on lines of at most 80 columns, a label before the first."""
    left = " " * indent
    return textwrap.fill(
        text,
        _WIDTH,
        initial_indent=left + label,
        subsequent_indent=left + "    ",
        break_long_words=False,
        break_on_hyphens=False,
    )
