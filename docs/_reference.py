"""Generate the reference pages from the declarations."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import _command
from _pictures import patterns, pictured
from _text import NOTICE, code, picture, sentence, table

from templates_gen import registry
from templates_gen.bench.routing import checks
from templates_gen.bow import catalogue
from templates_gen.checks.judge import judge
from templates_gen.command.explain import limit, usual
from templates_gen.drawing.sheet import STYLES
from templates_gen.parameters.declare import Parameter, parameters_of, section_of, title_of
from templates_gen.parameters.families import BASIS, FAMILIES, Band, bands
from templates_gen.parameters.words import (
    allowed,
    basis_letters,
    format_value,
    plain,
    when_scaled,
    with_unit,
    written,
)
from templates_gen.shop.read import SCHEMA as SHOP
from templates_gen.shop.read import TOOLS, example, starts

_DECLARED = ("Parameter", "Letter", "What it is", "May be", "±", "When scaled, it")
_USUAL = ("Usual: low, **usual**, high", *FAMILIES, "Basis")


def pages(root: Path) -> dict[str, str]:
    """Return every reference page by name."""
    made = {
        "parameters": _parameters(),
        "checks": _checks(root),
        "templates": _templates(root),
        "layers": _layers(),
        "command": _command.page(),
    }
    return {name: f"{NOTICE}\n\n{text.strip()}\n" for name, text in made.items()}


def _parameters() -> str:
    lines = [
        "# Parameters",
        "",
        "Everything that a parameter file may state, by section. A file with a value outside",
        "**may be** is refused. A value outside its family's usual range is accepted with a note.",
        "Each check is judged with the ± given here, unless the file states another.",
        "The letters are those of the lettered drawings on the parts' pages.",
        "`templates-gen explain KEY` prints the same.",
    ]
    for record in registry.SCHEMA.records:
        ps = parameters_of(record)
        lines += ["", f"## {section_of(record)}", "", f"{title_of(record)}. In the file: "]
        lines[-1] += f"`[{section_of(record)}]`."
        lines += ["", table(_DECLARED, (_declared(p) for p in ps))]
        lines += ["", table(_USUAL, (_usual(p) for p in ps))]
    lines += _shop()
    return "\n".join(lines)


def _declared(p: Parameter) -> list[str]:
    tol = with_unit(plain(p.tol), p.unit) if p.tol else ""
    scaled = when_scaled(p) + (". Measured on the wood or stock in hand" if p.measured else "")
    return [code(p.key), p.letter, p.meaning, allowed(p), tol, scaled]


def _usual(p: Parameter) -> list[str]:
    usual = {name: bands(name)[p.key] for name in FAMILIES}
    basis = basis_letters(next(iter(usual.values())).basis)
    words = "; ".join(BASIS[letter] for letter in basis)
    return [code(p.key), *(_band(band) for band in usual.values()), words]


def _band(band: Band) -> str:
    if band.low is None or band.high is None:
        return format_value(band.usual)
    return f"{written(band.low)}, **{written(band.usual)}**, {written(band.high)}"


def _checks(root: Path) -> str:
    p = patterns(root)[0]
    rows = []
    for rule in catalogue.rules():
        reads = ", ".join(code(key) for key in judge(rule, p).reads)
        rows.append(
            [
                code(rule.id),
                sentence(rule.description),
                rule.severity.value,
                limit(rule),
                rule.basis,
                reads,
            ]
        )
    head = ("Check", "Requirement", "Severity", "Limit", "Basis of the limit", "Depends on")
    return "\n".join(
        [
            "# Checks",
            "",
            "Every clearance, in the order in which it is judged. A failing *error* stops `draw`;",
            "a failing *warning* is only reported. Each is judged at the worst corner of the",
            "tolerances of everything it depends on: see",
            "[how clearances are judged](../explanation.md). A limit that depends on the",
            "dimensions is given as the range over the usual values of the five families;",
            "`templates-gen explain CHECK` prints it for each family.",
            "",
            f"There are {len(rows)}.",
            "",
            table(head, rows),
            "",
            "## Routing templates",
            "",
            "`check --shop FILE` adds these checks for every routing template for which the shop",
            "file has a cutter. The table is for the usual violin bow and the tools of the starter",
            "shop file. The check that a cutter reaches the tightest hollow exists only where the",
            "outline has one.",
            "",
            table(head[:4], _routed()),
        ]
    )


def _routed() -> Iterator[list[str]]:
    for judged in (c.result for c in checks.checks(usual("violin"), example())):
        rule, reach = judged.rule, "at least" if judged.sense == ">=" else "at most"
        at = f"{reach} {with_unit(plain(round(judged.limit, 3)), rule.unit)}"
        yield [code(rule.id), sentence(rule.description), rule.severity.value, at]


def _shop() -> list[str]:
    def note(section: str) -> str:
        return ", an example" if section in TOOLS else ""

    lines = ["", "## The shop file", "", "`templates-gen new shop -o FILE` writes one: see"]
    lines += [
        "[routing templates](../how-to/router.md) and [printing](../how-to/print-at-true-size.md)."
    ]
    rows = (
        [
            code(p.key),
            p.meaning,
            allowed(p),
            format_value(starts()[p.key], p.unit) + note(p.section),
        ]
        for p in SHOP.parameters.values()
    )
    return [*lines, "", table(("Parameter", "What it is", "May be", "In the starter"), rows)]


def _templates(root: Path) -> str:
    lines = [
        "# Templates",
        "",
        "Every template, by part. A pattern has only those it needs: without a heel plate it has",
        "none for one. `templates-gen list FILE` lists them with their sizes.",
        "The pictures are not templates: do not measure them.",
    ]
    part = ""
    for t in catalogue.templates():
        if t.part != part:
            part = t.part
            lines += ["", f"## {part.capitalize()}"]
        lines += ["", f"### {t.title}", "", f"{code(t.name)}: {t.up}. {sentence(t.purpose)}"]
        if pictured(t, root) is not None:
            lines += ["", picture(t.name, t.title, "docs/reference/templates.md")]
    return "\n".join(lines)


def _layers() -> str:
    rows = []
    for layer, style in STYLES.items():
        dashes = ", ".join(plain(d) for d in style.dashes) or "continuous"
        rows.append([code(layer.value), style.purpose, f"{plain(style.width)} mm", dashes])
    return "\n".join(
        [
            "# Layers",
            "",
            "Each layer holds the lines for one purpose; the colours have no meaning. In DXF they",
            "are layers, in SVG groups with the same names. The 50 mm square and the measuring",
            "bars are on `NOTE`. Layer `0` is empty.",
            "",
            table(("Layer", "Purpose of its lines", "Line width", "Dash, gap …, mm"), rows),
        ]
    )
