"""The index page of a set: one file that needs nothing else, to look at, to print, on a phone."""

from __future__ import annotations

from importlib.resources import files

from templates_gen.checks.judge import headline
from templates_gen.checks.rule import Severity
from templates_gen.writers.page.checks import (
    VERDICTS,
    checks,
    cure,
    limit,
    measured,
    patterns,
    where,
)
from templates_gen.writers.page.facts import Judged, PageFacts
from templates_gen.writers.page.markup import Html, tag, void
from templates_gen.writers.page.numbers import numbers, unusual
from templates_gen.writers.page.sheets import sheets

_PRINTING = (
    "Print a sheet's PDF. This page is no template: its pictures are not at true size.",
    "In the printer's window choose 100 %, actual size or scale: none. Never fit or shrink.",
    "Measure the 50 mm square on the sheet, level and upright. If it is not 50 mm within 0.2 mm, "
    "do not use the sheet; print again.",
    "Measure the two long bars at the sheet's edge as well: they tell a small error better.",
    "Which side is up stands on the sheet, and here below its picture.",
)


def write(facts: PageFacts) -> bytes:
    """The page as a file."""
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
    """A new line before what begins a block, so that one can read it and compare two."""
    for block in ("head", "style", "body", "main", "section", "article", "tr", "footer"):
        page = Html(page.replace(f"<{block}", f"\n<{block}"))
    return page


def _header(facts: PageFacts) -> Html:
    p = facts.pattern
    told = f"Revision {p.identity.revision} · {p.family.instrument} · parameters {p.digest[:8]}"
    places = ("Verdict", "Print", "Templates", "Checks", "Numbers")
    links = [tag("li", tag("a", name, href=f"#{name.lower()}")) for name in places]
    return tag(
        "header",
        tag("h1", p.identity.name),
        tag("p", told),
        tag("nav", tag("ul", *links), aria_label="On this page"),
    )


def _verdict(facts: PageFacts) -> Html:
    verdict = "fail" if any(c.result.stops for c in facts.checks) else "pass"
    lead = f"{VERDICTS[verdict][0]} {headline(c.result for c in facts.checks)}."
    told = [tag("p", lead, class_=f"lead {verdict}")]
    if facts.verdict:
        told.append(tag("p", f"{facts.verdict}, at the worst corner of the tolerances."))
    if stray := unusual(facts.pattern):
        links = [tag("li", tag("a", tag("code", k), href=f"#number-{k}")) for k in stray]
        told += [tag("p", "Out of what is usual in its family:"), tag("ul", *links)]
    told += [tag("p", tag("strong", stamp)) for stamp in facts.stamps]
    if facts.failed:
        items = [tag("li", *_failure(facts, c)) for c in facts.failed]
        told.append(tag("ol", *items, class_="failed"))
    head = tag("h2", "Verdict", id="verdict")
    return tag("section", head, *told, aria_labelledby="verdict")


def _failure(facts: PageFacts, c: Judged) -> list[str]:
    rule = c.result.rule
    link = tag("a", tag("code", rule.id), href=f"#check-{rule.id}")
    told = f": {rule.description}. Measured {measured(c.result)}, should be {limit(c.result)}."
    warned = " A warning; it forbids nothing." if rule.severity is Severity.WARNING else ""
    return [link, told, warned, cure(c), where(facts, c)]


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
            "A check proves that stated numbers go together, not that the wood and the metal in "
            "hand are as stated. Measure, then cut.",
        ),
        tag(
            "p",
            "A file in this folder that this page does not link is from an earlier draw: do not "
            "print it.",
        ),
        tag("p", "Everything that was checked and written is in ", link, "."),
    )
