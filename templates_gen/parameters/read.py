"""Read a parameter file into a pattern, or tell everything that is wrong with it at once."""

from __future__ import annotations

import os
from collections.abc import Iterator

from templates_gen.parameters import families
from templates_gen.parameters.chain import Chain, follow
from templates_gen.parameters.declare import Parameter, Schema, parameters_of
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.naming import family_of, identity_of
from templates_gen.parameters.pattern import Pattern
from templates_gen.parameters.stated import Judge, Stated, value_in
from templates_gen.parameters.value import too_wide
from templates_gen.parameters.words import allowed, plain, span, with_unit, written


def read(path: str | os.PathLike[str], schema: Schema) -> Pattern:
    """Read a parameter file and all it is based on.

    Args:
        path: the maker's file.
        schema: the records a file may hold.

    Raises:
        InputError: with every fault of the file and of what it is based on.
    """
    ledger = Ledger()
    chain = follow(path, ledger)
    family = family_of(chain, ledger)
    judge = Judge(schema, ledger, family, families.bands(family) if family else {})
    stated = _starter_values(chain, schema)
    for source in reversed(chain.files):
        judge.take(source, stated)
    for key, parameter in schema.parameters.items():
        if parameter.points is not None:  # what need not be stated is then empty
            stated.values.setdefault(key, ())
    identity = identity_of(chain, family, ledger)
    _judge_tolerances(stated, judge)
    if not chain.broken:
        _judge_missing(chain, stated, judge)
    ledger.settle([source.file for source in chain.files])
    assert identity is not None, "a file without name or family has a fault"
    return Pattern(
        schema,
        identity,
        {key: stated.values[key] for key in schema.parameters},
        stated.tolerances,
        stated.notes,
        tuple(_unusual(stated, judge)),
        stated.places,
    )


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
