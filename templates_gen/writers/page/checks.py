"""The table of checks on the index page: what failed first, each margin as a bar."""

from __future__ import annotations

import math
from collections.abc import Sequence

from templates_gen.checks.judge import Result
from templates_gen.checks.rule import Severity
from templates_gen.drawing.text import first_up
from templates_gen.writers.figures import figure
from templates_gen.writers.page.facts import Judged, PageFacts, number
from templates_gen.writers.page.markup import Html, shape, tag

#: How each verdict is told: a sign and a word, so that colour is never needed.
VERDICTS = {"fail": "✕ fail", "close": "! close", "pass": "✓ pass"}
_GROUPS = {
    "fail": "Fail: it does not fit at the worst corner of the tolerances",
    "close": "Close: it fits, with little to spare",
    "pass": "Pass: there is room",
}
_SENSE = {">=": "at least", "<=": "at most"}
_COLUMNS = ("Verdict", "What must be so", "Measured", "Limit", "To spare")
#: A bar's scale: where the limit stands, how far a bar may go either way, one unit a per cent.
_ZERO, _LEFT, _RIGHT, _LONG, _HIGH = 40.0, 2.0, 90.0, 100, 12


def checks(facts: PageFacts) -> Html:
    """The section with every check."""
    head = tag("tr", *(tag("th", c, scope="col", role="columnheader") for c in _COLUMNS))
    groups = [
        _group(facts, verdict, [c for c in facts.sorted_checks if c.result.verdict == verdict])
        for verdict in _GROUPS
    ]
    table = tag(
        "table",
        tag("caption", "Every check, measured at the worst corner of the tolerances"),
        tag("thead", head, role="rowgroup"),
        *groups,
        role="table",
        class_="checks",
    )
    return tag("section", tag("h2", "Checks", id="checks"), _key(), table, aria_labelledby="checks")


def _key() -> Html:
    """How to read a bar."""
    lines = [
        (0.25, "fail", "left of the line, slanted: so much is lacking"),
        (
            0.08,
            "close",
            "right of it, upright stripes: less than a tenth, or than 0.5 mm, to spare",
        ),
        (0.35, "pass", "right of it, full: so much is to spare"),
    ]
    items = [
        tag("li", _bar(-r if v == "fail" else r, v, 0.1), " ", said, class_=v)
        for r, v, said in lines
    ]
    description = (
        "The upright line in a bar is the limit; a bar to its end, with an arrow, is half the "
        "limit or more. Limits below 1 are reckoned as 1."
    )
    return tag("div", tag("p", description), tag("ul", *items, class_="key"))


def _group(facts: PageFacts, verdict: str, found: Sequence[Judged]) -> Html:
    if not found:
        return Html("")
    description = f"{_GROUPS[verdict]} ({len(found)})"
    head = tag("th", description, scope="rowgroup", colspan=str(len(_COLUMNS)), role="rowheader")
    rows = [_row(facts, c) for c in found]
    return tag("tbody", tag("tr", head, role="row", class_="group"), *rows, role="rowgroup")


def _row(facts: PageFacts, c: Judged) -> Html:
    r = c.result
    told = VERDICTS[r.verdict]
    if r.verdict == "fail":
        told = f"{told} ({facts.number(c)})"
    cells = [
        tag("td", tag("strong", told), _mercy(r), role="cell", class_="verdict"),
        tag("th", *_says(facts, c), scope="row", role="rowheader"),
        _figure("Measured", measured(r)),
        _figure("Limit", limit(r)),
        _figure(
            "To spare",
            _spare(r),
            _bar(_share(r, r.margin), r.verdict, _share(r, r.rule.room(r.limit))),
        ),
    ]
    return tag("tr", *cells, role="row", class_=r.verdict, id=f"check-{r.rule.id}")


def measured(r: Result) -> str:
    """What was measured, with its unit."""
    return _with_unit(r, r.measured)


def limit(r: Result) -> str:
    """What it must reach: ``at least 2 mm``."""
    return f"{_SENSE[r.sense]} {_with_unit(r, r.limit)}"


def _with_unit(r: Result, value: float) -> str:
    unit = r.rule.unit if math.isfinite(value) and r.rule.unit != "1" else ""
    return f"{number(value)} {unit}".rstrip()


def _mercy(r: Result) -> Html:
    warned = r.verdict == "fail" and r.rule.severity is Severity.WARNING
    return tag("small", "a warning; forbids nothing") if warned else Html("")


def _says(facts: PageFacts, c: Judged) -> list[str]:
    rule = c.result.rule
    said: list[str] = [sentence(rule.description)]
    if c.result.verdict == "fail":
        said.append(cure(c))
    said.append(where(facts, c))
    said.append(tag("small", tag("code", rule.id), f" · limit: {rule.basis}"))
    return said


def cure(c: Judged) -> Html:
    """What would cure a failed check."""
    description = c.cure or "no single number cures this"
    return tag("span", tag("b", "Cure: "), description, class_="cure")


def where(facts: PageFacts, c: Judged) -> Html:
    """On which sheet to look, and whether the place is marked there."""
    if c.place is None or c.place[0] not in facts.titles:
        return Html("")
    name = c.place[0]
    link = tag("a", facts.titles[name], href=f"#sheet-{name}")
    failed = c.result.verdict == "fail"
    lead = f"Marked {facts.number(c)} on " if failed else "See "
    return tag("span", lead, link, class_="where")


def _figure(label: str, told: str, *more: str) -> Html:
    # The label stands in for the column's heading where a narrow screen shows none.
    shown = tag("span", label, class_="label", aria_hidden="true")
    return tag("td", shown, tag("span", told), *more, role="cell", class_="figure")


def _spare(r: Result) -> str:
    if not math.isfinite(r.margin):
        return number(r.margin)
    if r.verdict == "fail":
        return f"{_with_unit(r, -r.margin)} lacking"
    return _with_unit(r, max(r.margin, 0.0))


def _share(r: Result, spare: float) -> float:
    """So much to spare as a share of the limit, reckoned as the verdict reckons it."""
    return spare / max(1.0, abs(r.limit))


def _bar(share: float, verdict: str, close: float) -> Html:
    """A margin drawn: the line is the limit, the dotted one where close ends."""
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
            way = 1 if end == _RIGHT else -1
            tip = (
                f"M{figure(end)} 0L{figure(end + way * (8 if way > 0 else 2))} 6L{figure(end)} 12Z"
            )
            marks.append(shape("path", d=tip, class_="beyond"))
    view = {"viewBox": f"0 0 {_LONG} {_HIGH}"}
    return tag("svg", *marks, class_=f"bar {verdict}", aria_hidden="true", **view)


def patterns() -> Html:
    """The patterns bars are filled with; stands once on the page and takes no room."""
    slanted = tag(
        "pattern",
        shape("path", d="M-1 5L5 -1M-1 9L9 -1M3 9L9 3", class_="stripe"),
        id="slanted",
        width="4",
        height="4",
        patternUnits="userSpaceOnUse",
    )
    upright = tag(
        "pattern",
        shape("path", d="M1 0V4", class_="stripe"),
        id="upright",
        width="2.5",
        height="4",
        patternUnits="userSpaceOnUse",
    )
    return tag("svg", tag("defs", slanted, upright), width="0", height="0", aria_hidden="true")


def sentence(description: str) -> str:
    """Words as a sentence."""
    return f"{first_up(description)}."
