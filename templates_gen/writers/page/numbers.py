"""Every number of the pattern on the index page, with what is usual."""

from __future__ import annotations

from templates_gen.parameters import Parameter, Pattern
from templates_gen.parameters.declare import parameters_of, title_of
from templates_gen.parameters.families import Band, bands
from templates_gen.parameters.words import plain, span, told, with_unit
from templates_gen.writers.page.markup import Html, join, tag

_COLUMNS = ("Letter", "What it is", "Value", "±", "Usual", "Note")


def numbers(p: Pattern) -> Html:
    """The section with all that is stated, a table for each part."""
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
        "All a parameter file states or takes from what it is based on. A letter is that of the "
        f"lettered drawings. Usual is meant for the family {p.family.name}."
    )
    head = tag("h2", "Numbers", id="numbers")
    return tag("section", head, tag("p", lead), *tables, aria_labelledby="numbers")


def unusual(p: Pattern) -> list[str]:
    """The keys whose values are out of their family's usual band."""
    known = bands(p.family.name)
    return [q.key for q in p.schema.parameters.values() if _strays(p, q, known.get(q.key))]


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
    strays = _strays(p, q, band)
    usual: list[str] = [_usual(q, band)]
    if strays:
        usual.append(tag("strong", f"! {strays}", class_="strays"))
    cells = [
        _cell("Letter", tag("i", q.letter) if q.letter else "", "letter"),
        tag("th", q.meaning, tag("small", tag("code", q.key)), scope="row", role="rowheader"),
        _cell("Value", tag("b", told(value, q.unit)), "figure"),
        _cell("±", with_unit(plain(tol), q.unit) if tol else "", "figure"),
        _cell("Usual", join(usual), "figure"),
        _cell("Note", p.notes.get(q.key, ""), "note"),
    ]
    return tag("tr", *cells, role="row", id=f"number-{q.key}")


def _cell(label: str, told: str, kind: str) -> Html:
    if not told:
        return tag("td", role="cell", class_=f"{kind} empty")
    shown = tag("span", label, class_="label", aria_hidden="true")
    return tag("td", shown, tag("span", told), role="cell", class_=kind)


def _usual(q: Parameter, band: Band | None) -> str:
    if band is None:
        return ""
    if band.low is None or band.high is None:
        return told(band.usual, q.unit)
    return span(band.low, band.high, q.unit)


def _strays(p: Pattern, q: Parameter, band: Band | None) -> str:
    """How a value leaves its usual band, in words; "" where it does not."""
    value = p.values[q.key]
    if band is None or band.low is None or band.high is None:
        return ""
    if band.low <= value <= band.high:
        return ""
    return "less than is usual" if value < band.low else "more than is usual"
