"""Write the tables of numbers on the index page: each value with its tolerance and usual band."""

from __future__ import annotations

from templates_gen.parameters import (
    Band,
    Parameter,
    Pattern,
    bands,
    format_value,
    parameters_of,
    plain,
    span,
    title_of,
    with_unit,
)
from templates_gen.writers.page.markup import Html, join, tag

_COLUMNS = ("Letter", "Meaning", "Value", "±", "Usual", "Note")


def numbers(p: Pattern) -> Html:
    """Write the section with all numbers, a table for each part."""
    known = bands(p.family.name)
    tables = [
        tag(
            "div",
            tag("h3", title_of(record)),
            _table(p, title_of(record), list(parameters_of(record)), known),
        )
        for record in p.schema.records
    ]
    lead = (
        "All numbers of the parameter file and of the file it is based on. The letters are those "
        f"of the lettered drawings. Usual values are for the family {p.family.name}."
    )
    head = tag("h2", "Numbers", id="numbers")
    return tag("section", head, tag("p", lead), *tables, aria_labelledby="numbers")


def unusual(p: Pattern) -> list[str]:
    """List the keys whose values are outside their family's usual band."""
    known = bands(p.family.name)
    return [q.key for q in p.schema.parameters.values() if _deviation(p, q, known.get(q.key))]


def _table(p: Pattern, title: str, parameters: list[Parameter], known: dict[str, Band]) -> Html:
    head = tag("tr", *(tag("th", c, scope="col", role="columnheader") for c in _COLUMNS))
    return tag(
        "table",
        tag("caption", f"{title}: numbers", class_="unseen"),
        tag("thead", head, role="rowgroup"),
        tag("tbody", *(_row(p, q, known.get(q.key)) for q in parameters), role="rowgroup"),
        role="table",
        class_="numbers",
    )


def _row(p: Pattern, q: Parameter, band: Band | None) -> Html:
    value, tol = p.values[q.key], p.tolerance(q.key)
    usual: list[str] = [_usual(q, band)]
    if deviation := _deviation(p, q, band):
        usual.append(tag("strong", f"! {deviation}", class_="unusual"))
    cells = [
        _cell("Letter", tag("i", q.letter) if q.letter else "", "letter"),
        tag("th", q.meaning, tag("small", tag("code", q.key)), scope="row", role="rowheader"),
        _cell("Value", tag("b", format_value(value, q.unit)), "figure"),
        _cell("±", with_unit(plain(tol), q.unit) if tol else "", "figure"),
        _cell("Usual", join(usual), "figure"),
        _cell("Note", p.notes.get(q.key, ""), "note"),
    ]
    return tag("tr", *cells, role="row", id=f"number-{q.key}")


def _cell(label: str, value: str, kind: str) -> Html:
    if not value:
        return tag("td", role="cell", class_=f"{kind} empty")
    shown = tag("span", label, class_="label", aria_hidden="true")
    return tag("td", shown, tag("span", value), role="cell", class_=kind)


def _usual(q: Parameter, band: Band | None) -> str:
    if band is None:
        return ""
    if band.low is None or band.high is None:
        return format_value(band.usual, q.unit)
    return span(band.low, band.high, q.unit)


def _deviation(p: Pattern, q: Parameter, band: Band | None) -> str:
    """Describe how a value is outside its usual band; "" where it is inside."""
    value = p.values[q.key]
    if band is None or band.low is None or band.high is None or band.low <= value <= band.high:
        return ""
    return "less than usual" if value < band.low else "more than usual"
