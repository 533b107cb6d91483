"""Read our TOML files: a pattern with all it is based on, or a file that stands alone."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from templates_gen.errors import Fault, InputError, raise_faults
from templates_gen.parameters import families
from templates_gen.parameters.chain import Chain, first, follow
from templates_gen.parameters.declare import Schema
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.naming import family_of, identity_of
from templates_gen.parameters.pattern import Pattern
from templates_gen.parameters.source import Source, load, source_of
from templates_gen.parameters.stated import FileKind, Judge, Stated, value_in
from templates_gen.parameters.value import too_wide
from templates_gen.parameters.words import listed, plain, span, with_unit

#: With more than this missing from a file without a base, the base is what is missing.
_MOST_MISSING = 3


def pattern_kind(schema: Schema) -> FileKind:
    """Describe parameter files; tables of points may be left out of them."""
    return FileKind(
        schema,
        top=("units", "based_on", "pattern"),
        headings={"pattern": ("name", "revision", "family")},
        layered=True,
        optional=frozenset(p.key for p in schema.parameters.values() if p.points is not None),
    )


def read_alone(path: str | os.PathLike[str], kind: FileKind) -> tuple[Source, Stated, Ledger]:
    """Read a file that is based on no other.

    Args:
        path: the file.
        kind: what it may hold.

    Returns:
        the file, what it states, and the faults found, which the caller settles.

    Raises:
        InputError: it cannot be read, or is another kind of file.
    """
    source = load(path)
    for section, (problem, cure) in kind.refused.items():
        if section in source.table:
            raise InputError([Fault(source.file, None, "", problem, cure)])
    judge, stated = Judge(kind, Ledger()), Stated()
    judge.take(source, stated)
    for section in kind.whole:
        if section in kind.required or source.table.get(section):
            missing = judge.missing(section, stated)
            if missing:
                judge.report_missing(section, missing, source, source)
    return source, stated, judge.ledger


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
    heading = {"name": i.name, "revision": i.revision, "family": i.family.name}
    table: dict[str, Any] = {"pattern": heading}
    for key, value in changes.items():
        section, _, name = key.rpartition(".")
        holder = table.setdefault(section, {}) if section else table
        holder[name] = _as_in_a_file(value)
    table.setdefault("units", "mm")
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
    usual = families.bands(family) if family else {}
    judge = Judge(pattern_kind(schema), ledger, family, usual)
    for source in reversed(chain.files):
        judge.take(source, stated)
    for key, parameter in schema.parameters.items():
        if parameter.points is not None:  # a table that is not stated is empty
            stated.values.setdefault(key, ())
    if not chain.broken:
        _judge_missing(chain, stated, judge)
    identity = identity_of(chain, family, ledger)
    _judge_tolerances(stated, judge)
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
    raise_faults(schema.faults(p))
    return p


def _starter_values(chain: Chain, schema: Schema) -> Stated:
    """Take the usual values of the family a file is based on; their place is its name's."""
    stated = Stated()
    if chain.starter:
        usual = families.bands(chain.starter)
        for key, parameter in schema.parameters.items():
            if key in usual:
                stated.values[key] = value_in(parameter, usual[key].usual)
                stated.places[key] = chain.starter_place
    return stated


def _judge_tolerances(stated: Stated, judge: Judge) -> None:
    """Compare each tolerance with its value, which may be stated in another file."""
    for key, tol in stated.tolerances.items():
        if key in stated.values and key not in judge.ledger.reported:
            parameter = judge.kind.schema.parameters[key]
            trouble = too_wide(parameter, stated.values[key], tol)
            if trouble is not None:
                judge.blame(stated.tol_places[key], parameter, trouble)


def _judge_missing(chain: Chain, stated: Stated, judge: Judge) -> None:
    """Report what no file states; of a file that lacks its base, only that."""
    if "based_on" in judge.ledger.reported:
        return  # what the misplaced base would have stated is not missing
    own = chain.files[0]
    sections = judge.kind.schema.sections
    missing = {s: found for s in sections if (found := judge.missing(s, stated))}
    if not chain.starter and len(chain.files) == 1 and len(missing) > _MOST_MISSING:
        cure = f'add `based_on = "{judge.family or "…"}"` at the top for the usual values'
        cure += "" if judge.family else f", with one of {listed(families.FAMILIES)}"
        problem = f"is not stated, and {len(missing)} of {len(sections)} sections are incomplete"
        judge.ledger.add((own.file, 1), "based_on", problem, cure)
        judge.ledger.reported.add("pattern.family")
        return
    for section, found in missing.items():
        holder = next((s for s in chain.files if section in s.table), own)
        judge.report_missing(section, found, own, holder)


def _unusual(stated: Stated, judge: Judge) -> Iterator[str]:
    """Warn of every value outside its family's usual band."""
    for key, parameter in judge.kind.schema.parameters.items():
        band, value = judge.usual.get(key), stated.values[key]
        if band is None or band.low is None or band.high is None:
            continue
        if band.low <= value <= band.high:
            continue
        file, line = stated.places[key]
        place = file if line is None else f"{file}:{line}"
        side = "below" if value < band.low else "above"
        found = with_unit(plain(value), parameter.unit)
        usual = span(band.low, band.high, parameter.unit)
        yield f"{place}: {key}: {found} is {side} the usual range for a {judge.family}, {usual}"
