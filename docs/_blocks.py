"""Regenerate the tables and pictures inside hand-written pages.

A page has ``<!-- made: KIND NAME -->`` and ``<!-- /made -->``; what is between them is replaced.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path

from _text import code, link, picture, sentence, table

from templates_gen import registry
from templates_gen.checks.solid import NotMeasured
from templates_gen.parameters.declare import parameters_of, title_of
from templates_gen.parameters.families import BASIS, bands
from templates_gen.parameters.words import basis_letters

#: The largest differences between checks and solids, recorded by ``tests/referee``.
REFEREE = Path(__file__).parent / "referee.csv"
_BLOCK = re.compile(r"(<!-- made: (\w+) ?([\w-]*) -->\n).*?(<!-- /made -->)", re.DOTALL)


def refreshed(text: str, page: str) -> str:
    """Return a page with every generated block up to date.

    Args:
        text: the page.
        page: its path in the repository.
    """

    def made(match: re.Match[str]) -> str:
        return f"{match[1]}\n{KINDS[match[2]](match[3], page)}\n\n{match[4]}"

    return _BLOCK.sub(made, text)


def _parameters(section: str, page: str) -> str:
    rows = [
        [p.letter, code(p.key), p.meaning] for p in parameters_of(registry.SCHEMA.sections[section])
    ]
    more = link("docs/reference/parameters.md", page)
    description = f"Ranges, tolerances and usual values: [parameters]({more}#{section})."
    return f"{table(('Letter', 'Parameter', 'What it is'), rows)}\n\n{description}"


def _checks(part: str, page: str) -> str:
    rows = [
        [code(r.id), sentence(r.description), r.severity.value]
        for r in registry.rules()
        if r.part == part
    ]
    more = link("docs/reference/checks.md", page)
    description = f"What each check depends on, and the basis of its limit: [checks]({more})."
    return f"{table(('Check', 'Requirement', 'Severity'), rows)}\n\n{description}"


def _templates(part: str, page: str) -> str:
    entries = [
        f"**{t.title}** ({code(t.name)}), {t.up}. {t.purpose}\n\n{picture(t.name, t.title, page)}"
        for t in registry.templates()
        if t.part == part
    ]
    return "\n\n".join(entries)


def _drawn(_: str, page: str) -> str:
    """List every template, one row for each part."""
    of: dict[str, list[str]] = {}
    for t in registry.templates():
        of.setdefault(t.part, []).append(t.title[:1].lower() + t.title[1:])
    rows = [[part.capitalize(), "; ".join(titles)] for part, titles in of.items()]
    return table(("Part", f"Templates ({len(registry.templates())})"), rows)


def _basis(_: str, page: str) -> str:
    """Count, for each section, the values with a source in print and those without."""
    rows, total = [], [0, 0, 0, 0]
    for name, record in registry.SCHEMA.sections.items():
        found = [basis_letters(bands("violin")[p.key].basis) for p in parameters_of(record)]
        printed = sum(bool(set(b) - {"M", "O"}) for b in found)
        memory = sum("M" in b and not set(b) - {"M", "O"} for b in found)
        counts = [len(found), printed, memory, len(found) - printed - memory]
        total = [t + c for t, c in zip(total, counts, strict=True)]
        rows.append([f"{title_of(record)} (`{name}`)", *(str(c) for c in counts)])
    rows.append(["**All**", *(f"**{c}**" for c in total)])
    head = ("Section", "Parameters", "Something in print", "From memory only", "Our own choice")
    words = "\n".join(f"- **{letter}**: {description}." for letter, description in BASIS.items())
    return f"{table(head, rows)}\n\n{words}"


def _referee(_: str, page: str) -> str:
    """Tabulate the largest difference between closed form and solid, by check."""
    description = {rule.id: (rule.bound.__doc__ or "") for rule in registry.rules()}
    with REFEREE.open(newline="", encoding="utf-8") as file:
        rows = [
            [
                code(row["rule"]),
                row["patterns"],
                row["closed_form_more"],
                row["solid_more"],
                _why_less(description.get(row["rule"], "")),
            ]
            for row in csv.DictReader(file)
        ]
    head = ("Check", "Patterns", "Closed form more", "Solid more", "Why the solid has more")
    return table(head, rows)


def _why_less(description: str) -> str:
    """Return the reason a check gives for claiming less than the solid has, if it gives one."""
    start = "Less than the solid's"
    if not description.startswith(start):
        return ""
    return sentence(" ".join(description.removeprefix(start).lstrip(": ").split()).rstrip("."))


def _unmeasured(_: str, page: str) -> str:
    """List the reasons why checks cannot be measured on a solid, each with its checks."""
    why: dict[str, list[str]] = {}
    for rule in registry.rules():
        if isinstance(rule.solid, NotMeasured):
            why.setdefault(rule.solid.why, []).append(code(rule.id))
    return table(("Why", "Checks"), [[sentence(w), ", ".join(ids)] for w, ids in why.items()])


KINDS: dict[str, Callable[[str, str], str]] = {
    "parameters": _parameters,
    "checks": _checks,
    "templates": _templates,
    "drawn": _drawn,
    "basis": _basis,
    "referee": _referee,
    "unmeasured": _unmeasured,
}
