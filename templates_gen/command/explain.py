"""``explain``: explain a parameter or a check, or search for words."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.checks import Result, Rule, judge
from templates_gen.parameters import (
    FAMILIES,
    Identity,
    Pattern,
    bands,
    plain,
    value_in,
    with_unit,
    wrapped,
)
from templates_gen.parameters.explain import explain as parameter
from templates_gen.parameters.explain import explain_shop
from templates_gen.pipeline.table import figure
from templates_gen.shop.read import SCHEMA as SHOP
from templates_gen.shop.read import TOOLS, starts

EXAMPLES = """\
  templates-gen explain
  templates-gen explain ferrule.outer_width
  templates-gen explain ferrule.ribbon_fits
  templates-gen explain mortise wall
"""
_SENSE = {">=": "at least", "<=": "at most"}


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    verb.add_argument(
        "words",
        nargs="*",
        metavar="KEY",
        help="SECTION, SECTION.KEY or a check; else words to search for",
    )


def run(args: argparse.Namespace) -> int:
    """Print the entry of one key, of the bow or the shop, or list those that match the words."""
    key = args.words[0] if args.words else None
    known = {*registry.SCHEMA.sections, *registry.SCHEMA.parameters, *SHOP.sections}
    known |= {*SHOP.parameters, *(rule.id for rule in catalogue.rules())}
    exact = key is None or (len(args.words) == 1 and (key in known or "." in key))
    found = [] if exact else _search(args.words)
    if found:
        print("\n".join(found))
    else:
        _explain(key if len(args.words) < 2 else " ".join(args.words))
    if key is None:
        print("\nChecks:")
        for rule in catalogue.rules():
            print(wrapped(f"{rule.id:<24} ", rule.description, 6))
        print("\nThe shop file (`templates-gen new shop`):")
        print(wrapped("  ", ", ".join(f"[{name}]" for name in SHOP.sections), 6))
    return 0


def _explain(key: str | None) -> None:
    """Explain one key, or list all there are."""
    results = _judged(key) if key else {}
    if results and key not in registry.SCHEMA.parameters:
        print("\n".join(_check(results)))
    elif key and key.partition(".")[0] in SHOP.sections:
        print(explain_shop(key, SHOP, starts(), TOOLS))
    else:
        routed = key and key.startswith("route.")
        more = (r.rule.id for r in _routed("violin")) if routed else SHOP.parameters
        others = [*(rule.id for rule in catalogue.rules()), *more]
        print(parameter(key, registry.SCHEMA, others=others))
        if results:  # a check of a parameter's own limit has the parameter's name
            print("\n".join(("", *_check(results))))


def _search(words: Collection[str]) -> list[str]:
    """List the parameters and checks with every word, or if there are none, with any of them."""
    if found := _having(words, all):
        return found
    some = _having(words, any)
    return some and ["Nothing has all these words; some have:", "", *some]


def _having(words: Collection[str], enough: Callable[[Iterable[bool]], bool]) -> list[str]:
    """List the parameters and checks whose name or description has enough of the words."""
    lines: list[str] = []
    parameters = [*registry.SCHEMA.parameters.values(), *SHOP.parameters.values()]
    for title, rows in (
        ("Parameters:", [(p.key, p.meaning) for p in parameters]),
        ("Checks:", [(rule.id, rule.description) for rule in catalogue.rules()]),
    ):
        hits = [r for r in rows if enough(w.lower() in " ".join(r).lower() for w in words)]
        if hits:
            width = max(len(key) for key, _ in hits)
            lines += ["", title]
            lines += [wrapped(f"  {key:<{width}}  ", text, width + 4) for key, text in hits]
    return lines and [*lines[1:], "", "`templates-gen explain KEY` tells more about one."]


def _judged(key: str) -> dict[str, Result]:
    """Judge the check of that name on the usual bow of every family; none, of another name."""
    if key.startswith("route."):
        return {f: r for f in FAMILIES for r in _routed(f) if r.rule.id == key}
    return {f: judge(r, usual(f)) for r in catalogue.rules() if r.id == key for f in FAMILIES}


def _routed(family: str) -> list[Result]:
    """Judge the routing templates of a family's usual bow, with the starter's example tools."""
    from templates_gen.bench.routing.checks import checks
    from templates_gen.shop.read import example

    return [c.result for c in checks(usual(family), example())]


def usual(family: str) -> Pattern:
    """Make a bow of a family with every number at its usual value."""
    schema, band = registry.SCHEMA, bands(family)
    values = {key: value_in(q, band[key].usual) for key, q in schema.parameters.items()}
    return Pattern(schema, Identity("usual", "A", FAMILIES[family], ""), values)


def limit(rule: Rule) -> str:
    """Write a check's limit at the families' usual values: ``at least 2 mm``, or a range."""
    return _limit([judge(rule, usual(family)) for family in FAMILIES])


def _limit(judged: Collection[Result]) -> str:
    judged = [r for r in judged if r.applies] or list(judged)
    first = judged[0]
    low, high = (plain(round(end(r.limit for r in judged), 3)) for end in (min, max))
    figures = low if low == high else f"{low} to {high}"
    by = "" if low == high else ", depending on the pattern"
    return f"{_SENSE[first.sense]} {with_unit(figures, first.rule.unit)}{by}"


def _check(judged: Mapping[str, Result]) -> Iterator[str]:
    rule = next(iter(judged.values())).rule
    yield wrapped(f"{rule.id} ({rule.severity.value}): ", f"{rule.description}.")
    yield wrapped("Limit: ", f"{_limit(judged.values())}.")
    yield wrapped("Basis: ", f"{rule.basis}.")
    read = dict.fromkeys(key for r in judged.values() for key in r.reads)
    if read:
        yield wrapped("Depends on: ", f"{', '.join(read)}.")
    places = (r.rule.place(usual(f)) if r.rule.place else None for f, r in judged.items())
    place = next((found for found in places if found), None)
    if place:
        yield wrapped("Seen on: ", f"the template {place[0]}.")
    yield ""
    corner = (
        "with the starter's example tools"
        if not read
        else "at the worst corner of their tolerances"
    )
    yield wrapped("", f"With usual numbers, {corner}:")
    yield from (_row(family, r) for family, r in judged.items())


def _row(family: str, r: Result) -> str:
    if not r.applies:
        return f"  {family:<12} {'does not apply':>21}"
    numbers = f"{figure(r.measured):>9} {r.sense} {figure(r.limit):>8}"
    return f"  {family:<12}{numbers} {with_unit('', r.rule.unit).strip()}".rstrip()
