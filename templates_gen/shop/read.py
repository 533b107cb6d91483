"""Read a shop file, or tell everything that is wrong with it at once."""

from __future__ import annotations

import math
import os
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from templates_gen.errors import Fault, InputError
from templates_gen.parameters.declare import Parameter, Schema, parameters_of, section_of
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.source import Source, load
from templates_gen.parameters.stated import value_in
from templates_gen.parameters.value import troubles
from templates_gen.parameters.words import allowed, clipped, nearest, plain, shown
from templates_gen.shop.params import (
    DovetailCutter,
    FineCutter,
    Laser,
    MortiseCutter,
    Paper,
    Plate,
    Printer,
    ProfileCutter,
    Shop,
)
from templates_gen.shop.starter import EXAMPLE

RECORDS = (
    Paper,
    Printer,
    Laser,
    Plate,
    MortiseCutter,
    FineCutter,
    DovetailCutter,
    ProfileCutter,
)
SCHEMA = Schema(RECORDS)
#: Sections that state a tool, whole or not at all. Only the maker can tell its numbers.
CUTTERS = tuple(s for s in SCHEMA.sections if s.endswith("_cutter"))
TOOLS = ("laser", *CUTTERS)
#: Millimetres in a unit a length may be stated in. Source: ISO 80000-3 (an inch is 25.4 mm).
UNITS = {"mm": 1.0, "in": 25.4}
_MEMBERS = ("value", "unit", "note")


def read(path: str | os.PathLike[str]) -> Shop:
    """The shop a file states.

    What it leaves out is as in the starter, but for a tool, which then is not there.

    Raises:
        InputError: with every fault of the file.
    """
    return _shop(load(Path(path), str(path)), dict(starts()))


@cache
def usual() -> Shop:
    """The shop of the starter, without tools: what holds where the maker names none."""
    return _built(starts(), [s for s in SCHEMA.sections if s not in TOOLS])


@cache
def example() -> Shop:
    """A shop with every tool the starter gives as an example."""
    return _built(starts(), list(SCHEMA.sections))


@cache
def starts() -> dict[str, Any]:
    """What the starter has, by key; of tools its examples."""
    import tomllib

    table = tomllib.loads(EXAMPLE)
    return {k: value_in(p, table[p.section][p.name]) for k, p in SCHEMA.parameters.items()}


def _shop(source: Source, values: dict[str, Any]) -> Shop:
    if "pattern" in source.table:
        cure = "name the file that `templates-gen new shop` wrote"
        problem = "it states a bow, not a shop"
        raise InputError([Fault(source.file, None, "", problem, cure)])
    ledger = Ledger()
    _unknown(source, (), ["units", *SCHEMA.sections], ledger)
    if source.table.get("units") != "mm":
        cure = 'state `units = "mm"` at the top; a length in inches says so, `unit = "in"`'
        ledger.add(source.place("units"), "units", "the unit is not stated as mm", cure)
    for record in RECORDS:
        name = section_of(record)
        table = source.table.get(name, {})
        if not isinstance(table, dict):
            problem = f"{shown(table)} stands where a section is expected"
            ledger.add(source.place(name), name, problem, f"write it as [{name}]")
            continue
        parameters = parameters_of(record)
        _unknown(source, (name,), [p.name for p in parameters], ledger)
        for p in parameters:
            if p.name in table:
                _value(source, p, table[p.name], values, ledger)
            elif name in CUTTERS and table and p.key not in ledger.told:
                # Another's collar with this cutter would spoil the work.
                cure = f"add `{p.name} = …`, {allowed(p)}"
                ledger.add(source.place(name), p.key, "is not stated", cure)
    _fitting(source, values, ledger)
    ledger.settle([source.file])
    stated = [n for n in SCHEMA.sections if source.table.get(n) or n not in TOOLS]
    return _built(values, stated)


def _built(values: dict[str, Any], sections: Iterable[str]) -> Shop:
    records = dict(zip(sections, SCHEMA.build(values, sections), strict=True))
    return Shop(**{name: records.get(name) for name in SCHEMA.sections})  # type: ignore[arg-type]


def _unknown(source: Source, within: tuple[str, ...], known: list[str], ledger: Ledger) -> None:
    table = source.table.get(within[0], {}) if within else source.table
    for name in table:
        if name not in known:
            like = nearest(name, known)
            cure = f"the nearest known name is `{like}`" if like else "take it out"
            ledger.told.add(".".join((*within, like or name)))
            key = clipped(".".join((*within, name)))
            ledger.add(source.place(*within, name), key, "unknown key", cure)


def _value(source: Source, p: Parameter, raw: object, into: dict[str, Any], to: Ledger) -> None:
    """Take a value in, made millimetres, or note what is wrong with it."""
    place = source.place(p.section, p.name)
    stated = dict(raw) if isinstance(raw, dict) else {"value": raw}
    odd = [name for name in stated if name not in _MEMBERS]
    if odd or "value" not in stated:
        what = f"{shown(odd[0])} is unknown in its table" if odd else "its table holds no value"
        to.add(place, p.key, what, "state { value, unit, note }")
        return
    unit = stated.pop("unit", p.unit)
    known = UNITS if p.unit == "mm" else {p.unit: 1.0}
    if not isinstance(unit, str) or unit not in known:
        units = 'a length may be in "mm" or "in"' if p.unit == "mm" else "leave the unit out"
        to.add(place, p.key, f"{shown(unit)} is not its unit", units)
        return
    asked = _in_unit(p, unit)
    found = list(troubles(asked, stated))
    for trouble in found:
        cure = trouble.cure or f"state {allowed(asked)}{_inches(p, stated['value'])}"
        to.add(place, p.key, trouble.problem, cure)
    if not found:
        value = value_in(p, stated["value"])
        into[p.key] = value if unit == p.unit else round(value * known[unit], 9)


def _in_unit(p: Parameter, unit: str) -> Parameter:
    """What a length may be, told in the unit it is stated in."""
    if unit == p.unit or p.low is None or p.high is None:
        return p
    low, high = (end / UNITS[unit] * 1000 for end in (p.low, p.high))
    return replace(p, unit=unit, low=math.ceil(low) / 1000, high=math.floor(high) / 1000)


def _inches(p: Parameter, value: object) -> str:
    """How a length in inches is stated, where one is stated in words."""
    words = p.unit == "mm" and isinstance(value, str)
    return '; a length in inches is stated as { value = 0.25, unit = "in" }' if words else ""


def _fitting(source: Source, values: dict[str, Any], ledger: Ledger) -> None:
    """A collar goes round its cutter; a bearing is no smaller than it."""
    for section in SCHEMA.sections:
        unsound = any(key.startswith(f"{section}.") for key in ledger.told)
        if section not in CUTTERS or not source.table.get(section) or unsound:
            continue
        guide, outside, cutter = (values[f"{section}.{k}"] for k in ("guide", "outside", "cutter"))
        least = cutter + (1.0 if guide == "collar" else 0.0)
        if outside < least:
            problem = (
                f"a {guide} of {plain(outside)} mm has no room for a cutter of {plain(cutter)} mm"
            )
            key = f"{section}.outside"
            cure = f"state {plain(least)} mm or more, or a smaller cutter"
            ledger.add(source.place(section, "outside"), key, problem, cure)
