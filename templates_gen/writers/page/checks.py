"""Write the table of checks on the index page: failed ones first, each margin as a bar."""

from __future__ import annotations

import math
from collections.abc import Sequence

from templates_gen.checks import Result, Severity
from templates_gen.drawing import capitalized
from templates_gen.writers.figures import figure
from templates_gen.writers.page.facts import CheckRow, PageFacts, number
from templates_gen.writers.page.markup import Html, shape, tag

#: The sign and the word of each verdict; no verdict depends on colour.
VERDICTS = {"fail": "✕ fail", "close": "! close", "pass": "✓ pass"}
_GROUPS = {
    "fail": "Fail: outside the limit at the worst corner of the tolerances",
    "close": "Close: within the limit, with a small margin",
    "pass": "Pass: within the limit",
}
_SENSE = {">=": "at least", "<=": "at most"}
_COLUMNS = ("Verdict", "Condition", "Measured", "Limit", "Margin")
#: Scale of a bar, one unit per per cent: place of the limit, ends of the bar, size of the drawing.
_ZERO, _LEFT, _RIGHT, _LONG, _HIGH = 40.0, 2.0, 90.0, 100, 12


def checks(facts: PageFacts) -> Html:
    """Write the section with all checks."""
    head = tag("tr", *(tag("th", c, scope="col", role="columnheader") for c in _COLUMNS))
    groups = [
        _group(facts, verdict, [c for c in facts.sorted_checks if c.result.verdict == verdict])
        for verdict in _GROUPS
    ]
    table = tag(
        "table",
        tag("caption", "All checks, measured at the worst corner of the tolerances"),
        tag("thead", head, role="rowgroup"),
        *groups,
        role="table",
        class_="checks",
    )
    return tag("section", tag("h2", "Checks", id="checks"), _key(), table, aria_labelledby="checks")


def _key() -> Html:
    """Write the key to the bars."""
    lines = [
        (-0.25, "fail", "left of the limit, slanted stripes: the amount outside the limit"),
        (0.08, "close", "right of it, vertical stripes: a margin below 10 % or 0.5 mm"),
        (0.35, "pass", "right of it, solid: the margin"),
    ]
    items = [tag("li", _bar(share, v, 0.1), " ", words, class_=v) for share, v, words in lines]
    description = (
        "The vertical line in a bar is the limit. The length of the bar is the margin as a share "
        "of the limit, or of 1 for a smaller limit. An arrow marks a bar too long to show."
    )
    return tag("div", tag("p", description), tag("ul", *items, class_="key"))


def _group(facts: PageFacts, verdict: str, found: Sequence[CheckRow]) -> Html:
    if not found:
        return Html("")
    description = f"{_GROUPS[verdict]} ({len(found)})"
    head = tag("th", description, scope="rowgroup", colspan=str(len(_COLUMNS)), role="rowheader")
    rows = [_row(facts, c) for c in found]
    return tag("tbody", tag("tr", head, role="row", class_="group"), *rows, role="rowgroup")


def _row(facts: PageFacts, c: CheckRow) -> Html:
    r = c.result
    verdict = VERDICTS[r.verdict] + (f" ({facts.number(c)})" if r.verdict == "fail" else "")
    bar = _bar(_share(r, r.margin), r.verdict, _share(r, r.rule.room(r.limit)))
    cells = [
        tag("td", tag("strong", verdict), _warning_note(r), role="cell", class_="verdict"),
        tag("th", *_condition(facts, c), scope="row", role="rowheader"),
        _figure("Measured", measured(r)),
        _figure("Limit", limit(r)),
        _figure("Margin", _margin(r), bar),
    ]
    return tag("tr", *cells, role="row", class_=r.verdict, id=f"check-{r.rule.id}")


def measured(r: Result) -> str:
    """Format the measured value with its unit."""
    return _with_unit(r, r.measured)


def limit(r: Result) -> str:
    """Format the limit: ``at least 2 mm``."""
    return f"{_SENSE[r.sense]} {_with_unit(r, r.limit)}"


def _with_unit(r: Result, value: float) -> str:
    unit = r.rule.unit if math.isfinite(value) and r.rule.unit != "1" else ""
    return f"{number(value)} {unit}".rstrip()


def _warning_note(r: Result) -> Html:
    warned = r.verdict == "fail" and r.rule.severity is Severity.WARNING
    return tag("small", "a warning: you may cut") if warned else Html("")


def _condition(facts: PageFacts, c: CheckRow) -> list[str]:
    """Write the condition of a check with its cure, its place and the source of its limit."""
    rule = c.result.rule
    return [
        sentence(rule.description),
        cure(c) if c.result.verdict == "fail" else "",
        where(facts, c),
        tag("small", tag("code", rule.id), f" · limit: {rule.basis}"),
    ]


def cure(c: CheckRow) -> Html:
    """Write the cure of a failed check."""
    description = c.cure or "no single number cures this"
    return tag("span", tag("b", "Cure: "), description, class_="cure")


def where(facts: PageFacts, c: CheckRow) -> Html:
    """Link the sheet that shows a check's place; a failed one is marked there."""
    if c.place is None or c.place[0] not in facts.titles:
        return Html("")
    name = c.place[0]
    link = tag("a", facts.titles[name], href=f"#sheet-{name}")
    lead = f"Marked {facts.number(c)} on " if c.result.verdict == "fail" else "See "
    return tag("span", lead, link, class_="where")


def _figure(label: str, value: str, *more: str) -> Html:
    """Write a cell; its label replaces the heading on a narrow screen."""
    shown = tag("span", label, class_="label", aria_hidden="true")
    return tag("td", shown, tag("span", value), *more, role="cell", class_="figure")


def _margin(r: Result) -> str:
    return _with_unit(r, r.margin if r.verdict == "fail" else max(r.margin, 0.0))


def _share(r: Result, margin: float) -> float:
    """Return a margin as a share of the limit, as the verdict does."""
    return margin / max(1.0, abs(r.limit))


def _bar(share: float, verdict: str, close: float) -> Html:
    """Draw a margin as a bar: a line at the limit, a dotted line where ``close`` ends."""
    marks = [
        shape("path", d=f"M{figure(_ZERO)} 0V{_HIGH}", class_="axis"),
        shape("path", d=f"M{figure(_ZERO + 100 * close)} 0V{_HIGH}", class_="near"),
    ]
    if math.isfinite(share):
        end = min(max(_ZERO + 100 * share, _LEFT), _RIGHT)
        low, high = sorted((end, _ZERO))
        x, w = figure(round(low, 2)), figure(round(max(high - low, 0.5), 2))
        marks.append(shape("rect", x=x, y="2", width=w, height="8", class_="amount"))
        if end in (_LEFT, _RIGHT):
            tip = end + 8 if end == _RIGHT else end - 2
            arrow = f"M{figure(end)} 0L{figure(tip)} 6L{figure(end)} 12Z"
            marks.append(shape("path", d=arrow, class_="beyond"))
    view = {"viewBox": f"0 0 {_LONG} {_HIGH}"}
    return tag("svg", *marks, class_=f"bar {verdict}", aria_hidden="true", **view)


def patterns() -> Html:
    """Define the hatch patterns of the bars, once on the page."""
    hatches = [
        tag(
            "pattern",
            shape("path", d=line, class_="stripe"),
            id=name,
            width=width,
            height="4",
            patternUnits="userSpaceOnUse",
        )
        for name, width, line in (
            ("slanted", "4", "M-1 5L5 -1M-1 9L9 -1M3 9L9 3"),
            ("upright", "2.5", "M1 0V4"),
        )
    ]
    return tag("svg", tag("defs", *hatches), width="0", height="0", aria_hidden="true")


def sentence(description: str) -> str:
    """Write a description as a sentence."""
    return f"{capitalized(description)}."
