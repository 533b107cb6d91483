"""Tables and pictures within hand-written pages, kept up to date by program.

A page holds ``<!-- made: KIND NAME -->`` and ``<!-- /made -->``; what stands between is replaced.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from pathlib import Path

from _text import code, link, picture, sentence, table

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.checks.solid import NotMeasured
from templates_gen.parameters.declare import parameters_of, title_of
from templates_gen.parameters.families import BASIS, bands
from templates_gen.parameters.words import basis_letters

#: The worst differences, kept by the walk's tests.
REFEREE = Path(__file__).parent / "referee.csv"
_BLOCK = re.compile(r"(<!-- made: (\w+) ?([\w-]*) -->\n).*?(<!-- /made -->)", re.DOTALL)


def refreshed(text: str, page: str) -> str:
    """A page with every made block made anew.

    Args:
        text: the page.
        page: its place in the repository.
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
        for r in catalogue.rules()
        if r.part == part
    ]
    more = link("docs/reference/checks.md", page)
    description = f"What each looks at and where its limit comes from: [checks]({more})."
    return f"{table(('Check', 'What holds', 'Severity'), rows)}\n\n{description}"


def _templates(part: str, page: str) -> str:
    told = [
        f"**{t.title}** ({code(t.name)}), {t.up}. {t.purpose}\n\n{picture(t.name, t.title, page)}"
        for t in catalogue.templates()
        if t.part == part
    ]
    return "\n\n".join(told)


def _drawn(_: str, page: str) -> str:
    """Every template there is, a line a part."""
    of: dict[str, list[str]] = {}
    for t in catalogue.templates():
        of.setdefault(t.part, []).append(t.title[:1].lower() + t.title[1:])
    rows = [[part.capitalize(), "; ".join(titles)] for part, titles in of.items()]
    return table(("Part", f"Templates ({len(catalogue.templates())})"), rows)


def _basis(_: str, page: str) -> str:
    """Of each section, how many values have a source in print, and how many have none."""
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
    """The worst differences between closed forms and solids, by check."""
    description = {rule.id: (rule.bound.__doc__ or "") for rule in catalogue.rules()}
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
    """What a check says of being less than the solid's."""
    start = "Less than the solid's"
    if not description.startswith(start):
        return ""
    return sentence(" ".join(description.removeprefix(start).lstrip(": ").split()).rstrip("."))


def _unmeasured(_: str, page: str) -> str:
    """Why no solid shows a check, and the checks of which that is so."""
    why: dict[str, list[str]] = {}
    for rule in catalogue.rules():
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
