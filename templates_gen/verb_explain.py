"""What ``explain`` says of a parameter or a check. Part of ``verbs``."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from templates_gen import registry
from templates_gen.checks.judge import Result, judge
from templates_gen.checks.rule import Rule
from templates_gen.parameters import Identity, Pattern
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parameters.stated import value_in
from templates_gen.parameters.words import plain, with_unit
from templates_gen.telling import figure, wrapped

_SENSE = {">=": "at least", "<=": "at most"}


def explain(args: argparse.Namespace) -> int:
    """Tell what a parameter or a check is."""
    from templates_gen.parameters.explain import explain as parameter

    for rule in registry.rules():
        if rule.id == args.key:
            print("\n".join(_check(rule)))
            return 0
    print(parameter(args.key, registry.SCHEMA))
    if args.key is None:
        print("\nChecks:")
        for rule in registry.rules():
            print(wrapped(f"{rule.id:<24} ", rule.says, 2))
    return 0


def usual(family: str) -> Pattern:
    """A bow of a family with every number at its usual value."""
    schema, band = registry.SCHEMA, bands(family)
    values = {key: value_in(q, band[key].usual) for key, q in schema.parameters.items()}
    return Pattern(schema, Identity("usual", "A", FAMILIES[family], ""), values)


def limit(rule: Rule) -> str:
    """A check's limit at the families' usual values: ``at least 2 mm``, or from the least on."""
    judged = [judge(rule, usual(family)) for family in FAMILIES]
    low, high = (plain(round(end(r.limit for r in judged), 3)) for end in (min, max))
    figures = low if low == high else f"{low} to {high}"
    by = "" if low == high else ", by the numbers"
    return f"{_SENSE[judged[0].sense]} {with_unit(figures, rule.unit)}{by}"


def _check(rule: Rule) -> Iterator[str]:
    judged = {family: judge(rule, usual(family)) for family in FAMILIES}
    yield wrapped(f"{rule.id} ({rule.severity.value}): ", f"{rule.says}.", 0)
    yield wrapped("Limit: ", f"{limit(rule)}.", 0)
    yield wrapped("Basis: ", f"{rule.basis}.", 0)
    read = dict.fromkeys(key for r in judged.values() for key in r.reads)
    yield wrapped("Looks at: ", f"{', '.join(read)}.", 0)
    places = (rule.place(usual(family)) if rule.place else None for family in FAMILIES)
    place = next((found for found in places if found), None)
    if place:
        yield wrapped("Seen on: ", f"the template {place[0]}.", 0)
    yield ""
    yield wrapped("", "With usual numbers, at the worst corner of their tolerances:", 0)
    yield from (_row(family, r) for family, r in judged.items())


def _row(family: str, r: Result) -> str:
    told = f"{figure(r.measured):>9} {r.sense} {figure(r.limit):>8}"
    return f"  {family:<12}{told} {with_unit('', r.rule.unit).strip()}".rstrip()
