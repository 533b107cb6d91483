"""Read a shop file, or report everything that is wrong with it at once."""

from __future__ import annotations

import os
from collections.abc import Iterable
from functools import cache
from typing import Any

from templates_gen.parameters import FileKind, Ledger, Schema, Source, plain, value_in
from templates_gen.parameters.read import read_alone
from templates_gen.parameters.units import MM_OR_INCH
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
#: Sections that state a tool, whole or not at all: only the maker can measure its numbers.
CUTTERS = tuple(s for s in SCHEMA.sections if s.endswith("_cutter"))
TOOLS = ("laser", *CUTTERS)
KIND = FileKind(
    SCHEMA,
    units=MM_OR_INCH,
    whole=CUTTERS,
    refused={
        "pattern": (
            "it states a bow, not a shop",
            "name the file that `templates-gen new shop` wrote",
        )
    },
)


def read(path: str | os.PathLike[str]) -> Shop:
    """Read a shop file.

    What it leaves out is as in the starter; a tool it leaves out is not there.

    Raises:
        InputError: with every fault of the file.
    """
    source, stated, ledger = read_alone(path, KIND)
    values = {**starts(), **stated.values}
    _fitting(source, values, ledger)
    ledger.settle([source.file])
    there = [n for n in SCHEMA.sections if source.table.get(n) or n not in TOOLS]
    return _built(values, there)


@cache
def usual() -> Shop:
    """Build the shop of the starter, without tools; it serves where no shop file is named."""
    return _built(starts(), [s for s in SCHEMA.sections if s not in TOOLS])


@cache
def example() -> Shop:
    """Build a shop with every tool the starter gives as an example."""
    return _built(starts(), list(SCHEMA.sections))


@cache
def starts() -> dict[str, Any]:
    """Read the starter's values, by key; for tools its examples."""
    import tomllib

    table = tomllib.loads(EXAMPLE)
    return {k: value_in(p, table[p.section][p.name]) for k, p in SCHEMA.parameters.items()}


def _built(values: dict[str, Any], sections: Iterable[str]) -> Shop:
    records = dict(zip(sections, SCHEMA.build(values, sections), strict=True))
    return Shop(**{name: records.get(name) for name in SCHEMA.sections})  # type: ignore[arg-type]


def _fitting(source: Source, values: dict[str, Any], ledger: Ledger) -> None:
    """Check that a collar goes round its cutter, and that a bearing is no smaller than it."""
    for section in SCHEMA.sections:
        unsound = any(key.startswith(f"{section}.") for key in ledger.reported)
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
