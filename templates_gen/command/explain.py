"""What ``explain`` says of a parameter or a check. Part of ``verbs``."""

from __future__ import annotations

import argparse
from collections.abc import Collection, Iterator, Mapping

from templates_gen import registry
from templates_gen.checks.judge import Result, judge
from templates_gen.checks.rule import Rule
from templates_gen.command.text import figure, wrapped
from templates_gen.parameters import Identity, Pattern
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parameters.stated import value_in
from templates_gen.parameters.words import plain, with_unit

_SENSE = {">=": "at least", "<=": "at most"}


def explain(args: argparse.Namespace) -> int:
    """Tell what a parameter or a check is, of the bow or of the shop."""
    from templates_gen.parameters.explain import explain as parameter
    from templates_gen.parameters.explain import explain_shop
    from templates_gen.shop.read import SCHEMA as SHOP
    from templates_gen.shop.read import TOOLS, starts

    judged = _judged(args.key) if args.key else {}
    if judged and args.key not in registry.SCHEMA.parameters:
        print("\n".join(_check(judged)))
    elif args.key and args.key.partition(".")[0] in SHOP.sections:
        print(explain_shop(args.key, SHOP, starts(), TOOLS))
    else:
        routed = args.key and args.key.startswith("route.")
        more = (r.rule.id for r in _routed("violin")) if routed else SHOP.parameters
        others = [*(rule.id for rule in registry.rules()), *more]
        print(parameter(args.key, registry.SCHEMA, others=others))
        if judged:  # a check of a parameter's own limit has the parameter's name
            print("\n".join(("", *_check(judged))))
    if args.key is None:
        print("\nChecks:")
        for rule in registry.rules():
            print(wrapped(f"{rule.id:<24} ", rule.description, 2))
        print("\nThe shop file (`templates-gen new shop`):")
        print(wrapped("", ", ".join(f"[{name}]" for name in SHOP.sections), 2))
    return 0


def _judged(key: str) -> dict[str, Result]:
    """The check of that name on every family's usual bow that has it; none, of another name."""
    if key.startswith("route."):
        return {f: r for f in FAMILIES for r in _routed(f) if r.rule.id == key}
    return {f: judge(r, usual(f)) for r in registry.rules() if r.id == key for f in FAMILIES}


def _routed(family: str) -> list[Result]:
    """The checks of the routing templates of a family's usual bow, with the starter's examples."""
    from templates_gen.bench.routing.checks import checks
    from templates_gen.shop.read import example

    return [c.result for c in checks(usual(family), example())]


def usual(family: str) -> Pattern:
    """A bow of a family with every number at its usual value."""
    schema, band = registry.SCHEMA, bands(family)
    values = {key: value_in(q, band[key].usual) for key, q in schema.parameters.items()}
    return Pattern(schema, Identity("usual", "A", FAMILIES[family], ""), values)


def limit(rule: Rule) -> str:
    """A check's limit at the families' usual values: ``at least 2 mm``, or from the least on."""
    return _limit([judge(rule, usual(family)) for family in FAMILIES])


def _limit(judged: Collection[Result]) -> str:
    judged = [r for r in judged if r.applies] or list(judged)
    first = judged[0]
    low, high = (plain(round(end(r.limit for r in judged), 3)) for end in (min, max))
    figures = low if low == high else f"{low} to {high}"
    by = "" if low == high else ", by the numbers"
    return f"{_SENSE[first.sense]} {with_unit(figures, first.rule.unit)}{by}"


def _check(judged: Mapping[str, Result]) -> Iterator[str]:
    rule = next(iter(judged.values())).rule
    yield wrapped(f"{rule.id} ({rule.severity.value}): ", f"{rule.description}.", 0)
    yield wrapped("Limit: ", f"{_limit(judged.values())}.", 0)
    yield wrapped("Basis: ", f"{rule.basis}.", 0)
    read = dict.fromkeys(key for r in judged.values() for key in r.reads)
    if read:
        yield wrapped("Looks at: ", f"{', '.join(read)}.", 0)
    places = (r.rule.place(usual(f)) if r.rule.place else None for f, r in judged.items())
    place = next((found for found in places if found), None)
    if place:
        yield wrapped("Seen on: ", f"the template {place[0]}.", 0)
    yield ""
    corner = (
        "with the starter's example tools"
        if not read
        else "at the worst corner of their tolerances"
    )
    yield wrapped("", f"With usual numbers, {corner}:", 0)
    yield from (_row(family, r) for family, r in judged.items())


def _row(family: str, r: Result) -> str:
    if not r.applies:
        return f"  {family:<12} {'nothing is asked':>21}"
    told = f"{figure(r.measured):>9} {r.sense} {figure(r.limit):>8}"
    return f"  {family:<12}{told} {with_unit('', r.rule.unit).strip()}".rstrip()
