"""Read a parameter file into a pattern, or tell everything that is wrong with it at once."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from templates_gen.errors import InputError
from templates_gen.parameters import families
from templates_gen.parameters.chain import Chain, first, follow
from templates_gen.parameters.declare import Parameter, Schema, parameters_of
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.naming import family_of, identity_of
from templates_gen.parameters.pattern import Pattern
from templates_gen.parameters.source import Source, source_of
from templates_gen.parameters.stated import Judge, Stated, value_in
from templates_gen.parameters.value import too_wide
from templates_gen.parameters.words import allowed, plain, span, with_unit, written

#: Where messages say that a value set in a script stands.
_SET = "set"


def read(path: str | os.PathLike[str], schema: Schema) -> Pattern:
    """Read a parameter file and all it is based on.

    Args:
        path: the maker's file.
        schema: the records a file may hold.

    Raises:
        InputError: with every fault of the file and of what it is based on.
    """
    return _read(first(path), schema)


def read_text(text: str, schema: Schema) -> Pattern:
    """Read the text of a parameter file and all it is based on.

    Args:
        text: the whole text.
        schema: the records a file may hold.

    Raises:
        InputError: with every fault of the text and of what it is based on.
    """
    return _read(source_of(text, Path(), ""), schema)


def _read(own: Source, schema: Schema) -> Pattern:
    ledger = Ledger()
    chain = follow(own, ledger)
    return _pattern(chain, _starter_values(chain, schema), schema, ledger)


def changed(p: Pattern, changes: Mapping[str, Any]) -> Pattern:
    """Lay changes over a pattern, judged as a parameter file based on it would be.

    Args:
        p: the pattern.
        changes: by key, values or tables of value, tol and note, as a file states them.

    Raises:
        InputError: with every fault of the changes.
    """
    i, ledger = p.identity, Ledger()
    table: dict[str, Any] = {
        "units": "mm",
        "pattern": {"name": i.name, "revision": i.revision, "family": i.family.name},
    }
    for key, value in changes.items():
        section, _, name = key.rpartition(".")
        holder = table.setdefault(section, {}) if section else table
        holder[name] = _as_in_a_file(value)
    if "based_on" in table:
        cure = "read the other file instead, or scale to another family"
        ledger.add((_SET, None), "based_on", "cannot be set", cure)
    places = dict.fromkeys(p.values, (i.file, None)) | p.places
    stated = Stated(dict(p.values), dict(p.tolerances), dict(p.notes), places, dict(places))
    made = _pattern(Chain((Source(_SET, Path(), "", table),)), stated, p.schema, ledger)
    made.identity, made.text = replace(made.identity, file=i.file), p.text
    return made


def _as_in_a_file(value: Any) -> Any:
    """A value as TOML would give it, numbers to the six decimals a file shows."""
    if isinstance(value, Mapping):
        return {member: _as_in_a_file(each) for member, each in value.items()}
    value = value.tolist() if hasattr(value, "tolist") else value  # numpy's own
    if isinstance(value, list | tuple):
        return [_as_in_a_file(each) for each in value]
    return round(value, 6) if isinstance(value, float) else value


def _pattern(chain: Chain, stated: Stated, schema: Schema, ledger: Ledger) -> Pattern:
    """The pattern that a chain of files makes of what is already stated.

    Raises:
        InputError: with every fault in the ledger, of the files and of their values together.
    """
    family = family_of(chain, ledger)
    judge = Judge(schema, ledger, family, families.bands(family) if family else {})
    for source in reversed(chain.files):
        judge.take(source, stated)
    for key, parameter in schema.parameters.items():
        if parameter.points is not None:  # a table of points may be left out
            stated.values.setdefault(key, ())
    identity = identity_of(chain, family, ledger)
    _judge_tolerances(stated, judge)
    if not chain.broken:
        _judge_missing(chain, stated, judge)
    ledger.settle([source.file for source in chain.files])
    assert identity is not None, "a file without name or family has a fault"
    p = Pattern(
        schema,
        identity,
        {key: stated.values[key] for key in schema.parameters},
        stated.tolerances,
        stated.notes,
        tuple(_unusual(stated, judge)),
        stated.places,
        chain.files[0].text,
    )
    if faults := schema.faults(p):
        raise InputError(faults)
    return p


def _starter_values(chain: Chain, schema: Schema) -> Stated:
    """The usual values of the family a file is based on, all stated where it is named."""
    stated = Stated()
    if chain.starter:
        usual = families.bands(chain.starter)
        for key, parameter in schema.parameters.items():
            if key in usual:
                stated.values[key] = value_in(parameter, usual[key].usual)
                stated.places[key] = chain.starter_place
    return stated


def _judge_tolerances(stated: Stated, judge: Judge) -> None:
    """Tolerance and value may stand in two files, so they are compared only now."""
    for key, tol in stated.tolerances.items():
        if key in stated.values and key not in judge.ledger.told:
            parameter = judge.schema.parameters[key]
            trouble = too_wide(parameter, stated.values[key], tol)
            if trouble is not None:
                judge.blame(stated.tol_places[key], parameter, trouble)


def _judge_missing(chain: Chain, stated: Stated, judge: Judge) -> None:
    """A section of which nothing is stated is one fault, else each missing key is one."""
    own = chain.files[0]
    if "based_on" in judge.ledger.told:
        return  # what the misplaced base would have stated is not missing
    for section, record in judge.schema.sections.items():
        # a section of nothing but tables of points may be left out as they may
        parameters = [p for p in parameters_of(record) if p.points is None]
        missing = [
            p for p in parameters if p.key not in stated.values and p.key not in judge.ledger.told
        ]
        if section in judge.ledger.told or not missing:
            continue
        if len(missing) == len(parameters):
            place, found = own.place(section), _many(parameters)
            cure = f"add [{section}] with its {found}"
            if judge.family:
                cure += f', or `based_on = "{judge.family}"` for the usual values'
            judge.ledger.add(place, section, "the section is missing or empty", cure)
            continue
        for parameter in missing:
            holder = next((s for s in chain.files if section in s.table), own)
            cure = _addition(parameter, judge)
            judge.ledger.add(holder.place(section), parameter.key, "is not stated", cure)


def _many(parameters: list[Parameter]) -> str:
    return "one value" if len(parameters) == 1 else f"{len(parameters)} values"


def _addition(parameter: Parameter, judge: Judge) -> str:
    band = judge.usual.get(parameter.key)
    if band is None:
        return f"add `{parameter.name} = …`, {allowed(parameter)}"
    return f"add `{parameter.name} = {written(band.usual)}`, usual for a {judge.family}"


def _unusual(stated: Stated, judge: Judge) -> Iterator[str]:
    """A warning for every value out of its family's usual band."""
    for key, parameter in judge.schema.parameters.items():
        band, value = judge.usual.get(key), stated.values[key]
        if band is None or band.low is None or band.high is None:
            continue
        if band.low <= value <= band.high:
            continue
        file, line = stated.places[key]
        place = file if line is None else f"{file}:{line}"
        side = "less" if value < band.low else "more"
        found = with_unit(plain(value), parameter.unit)
        usual = span(band.low, band.high, parameter.unit)
        yield f"{place}: {key}: {found} is {side} than is usual for a {judge.family}, {usual}"
