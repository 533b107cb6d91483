"""Write the index page of a set as one HTML file, for a screen, a phone and the printer."""

from __future__ import annotations

import re
from importlib.resources import files

from templates_gen.checks import Severity, headline
from templates_gen.writers.page.checks import (
    VERDICTS,
    checks,
    cure,
    limit,
    measured,
    patterns,
    where,
)
from templates_gen.writers.page.facts import CheckRow, PageFacts
from templates_gen.writers.page.markup import Html, tag, void
from templates_gen.writers.page.numbers import numbers, unusual
from templates_gen.writers.page.sheets import sheets

_PRINTING = (
    "Print the PDF of a sheet. Do not cut from this page: its pictures are not at true size.",
    "In the print dialog choose 100 %, actual size or no scaling. Do not choose fit or shrink.",
    "Measure the 50 mm square on the sheet, width and height. If it is not 50 ± 0.2 mm, do not "
    "use the sheet; print it again.",
    "Measure the two long bars at the edge of the sheet too: they show a small error better.",
    "The sheet states which side is up; so does the line below its picture here.",
)


def write(facts: PageFacts) -> bytes:
    """Write the page."""
    i = facts.pattern.identity
    head = tag(
        "head",
        void("meta", charset="utf-8"),
        void("meta", name="viewport", content="width=device-width, initial-scale=1"),
        void("meta", name="color-scheme", content="light dark"),
        tag("title", f"{i.name}: templates"),
        Html(f"<style>\n{_style()}</style>"),
    )
    main = tag(
        "main",
        _verdict(facts),
        _printing(),
        sheets(facts),
        checks(facts),
        numbers(facts.pattern),
        id="main",
    )
    skip = tag("a", "Skip to the verdict", href="#main", class_="skip")
    body = tag("body", skip, patterns(), _header(facts), main, _footer())
    return f"<!doctype html>\n{_broken(tag('html', head, body, lang='en'))}\n".encode()


def _style() -> str:
    return files("templates_gen.writers.page").joinpath("page.css").read_text("utf-8")


def _broken(page: Html) -> str:
    """Begin blocks on a new line, so that two pages can be compared with ``diff``."""
    return re.sub("<(head|style|body|main|section|article|tr|footer)", r"\n<\1", page)


def _header(facts: PageFacts) -> Html:
    p = facts.pattern
    identity = f"Revision {p.identity.revision} · {p.family.instrument} · parameters {p.digest[:8]}"
    places = ("Verdict", "Print", "Templates", "Checks", "Numbers")
    links = [tag("li", tag("a", name, href=f"#{name.lower()}")) for name in places]
    return tag(
        "header",
        tag("h1", p.identity.name),
        tag("p", identity),
        tag("nav", tag("ul", *links), aria_label="On this page"),
    )


def _verdict(facts: PageFacts) -> Html:
    verdict = "fail" if any(c.result.stops for c in facts.checks) else "pass"
    lead = f"{VERDICTS[verdict][0]} {headline(c.result for c in facts.checks)}."
    lines = [tag("p", lead, class_=f"lead {verdict}")]
    if facts.verdict:
        lines.append(tag("p", f"{facts.verdict}, at the worst corner of the tolerances."))
    if keys := unusual(facts.pattern):
        links = [tag("li", tag("a", tag("code", k), href=f"#number-{k}")) for k in keys]
        lines += [tag("p", "Unusual for its family:"), tag("ul", *links)]
    lines += [tag("p", tag("strong", stamp)) for stamp in facts.stamps]
    if facts.failed:
        items = [tag("li", *_failure(facts, c)) for c in facts.failed]
        lines.append(tag("ol", *items, class_="failed"))
    head = tag("h2", "Verdict", id="verdict")
    return tag("section", head, *lines, aria_labelledby="verdict")


def _failure(facts: PageFacts, c: CheckRow) -> list[str]:
    rule = c.result.rule
    link = tag("a", tag("code", rule.id), href=f"#check-{rule.id}")
    found = f": {rule.description}. Measured {measured(c.result)}, must be {limit(c.result)}."
    warning = " This is a warning: you may cut." if rule.severity is Severity.WARNING else ""
    return [link, found, warning, cure(c), where(facts, c)]


def _printing() -> Html:
    head = tag("h2", "Print at true size", id="print")
    steps = tag("ol", *(tag("li", step) for step in _PRINTING))
    return tag("section", head, steps, aria_labelledby="print")


def _footer() -> Html:
    link = tag("a", "manifest.json", href="manifest.json")
    return tag(
        "footer",
        tag(
            "p",
            "The checks compare the stated numbers with each other. They do not measure your wood "
            "and metal. Measure, then cut.",
        ),
        tag(
            "p",
            "A file in this folder that is not linked here is from an earlier draw: do not print "
            "it.",
        ),
        tag("p", "All checks and files are listed in ", link, "."),
    )
