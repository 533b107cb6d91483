"""What the files of a chain state between them, and what is wrong with how they state it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from templates_gen.parameters.declare import Parameter, Schema
from templates_gen.parameters.families import Band
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.pattern import Place
from templates_gen.parameters.source import Source
from templates_gen.parameters.value import Trouble, members_of, troubles
from templates_gen.parameters.words import advice, clipped, nearest, shown

TOP = ("units", "based_on", "pattern")
PATTERN = ("name", "revision", "family")
#: With more unknown keys than this it is some other kind of file; naming each helps nobody.
_MOST_UNKNOWN = 20


@dataclass
class Stated:
    """Values, tolerances and notes by key, each with its place."""

    values: dict[str, Any] = field(default_factory=dict)
    tolerances: dict[str, float] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    tol_places: dict[str, Place] = field(default_factory=dict)


def value_in(parameter: Parameter, value: Any) -> Any:
    """A sound value as the pattern holds it: a float, a word of its choice, or its points."""
    if parameter.choices is not None:
        return parameter.choices(value)
    if parameter.points is not None:
        return tuple((_float(x), _float(y)) for x, y in value)
    return _float(value)


def _float(value: Any) -> float:
    return float(value) + 0.0  # so that -0.0 is 0.0


@dataclass(frozen=True)
class Judge:
    """Reads the sections of one file after another.

    Args:
        schema: the records there can be.
        ledger: takes the faults.
        family: the family's name, or "" if it is not known.
        usual: the family's usual bands by key, for the cures.
    """

    schema: Schema
    ledger: Ledger
    family: str
    usual: Mapping[str, Band]

    def take(self, source: Source, into: Stated) -> None:
        """Lay what a file states over what its bases have stated."""
        known = (*TOP, *self.schema.sections)
        unknown = [name for name in source.table if name not in known]
        self._unknown(source, (), unknown, known)
        for name in ("pattern", *self.schema.sections):
            table = source.table.get(name)
            if isinstance(table, dict):
                self._section(source, name, table, into)
            elif table is not None:
                problem = f"{shown(table)} stands where a section is expected"
                self.ledger.add(source.place(name), name, problem, f"write it as [{name}]")
        self._units(source)

    def _units(self, source: Source) -> None:
        units = source.table.get("units")
        cure = 'state `units = "mm"` at the top, and every length in millimetres'
        if units is None and "units" not in self.ledger.told:
            self.ledger.add((source.file, None), "units", "the unit is not stated", cure)
        elif units is not None and units != "mm":
            problem = f'{shown(units)} is not the unit "mm"'
            self.ledger.add(source.place("units"), "units", problem, cure)

    def _section(self, source: Source, section: str, table: dict[str, Any], into: Stated) -> None:
        known = PATTERN if section == "pattern" else self._names(section)
        unknown = [name for name in table if name not in known]
        self._unknown(source, (section,), unknown, known)
        if section == "pattern":
            return
        for name in known:
            if name in table:
                self._value(source, self.schema.parameters[f"{section}.{name}"], table[name], into)

    def _names(self, section: str) -> tuple[str, ...]:
        return tuple(p.name for p in self.schema.parameters.values() if p.section == section)

    def _value(self, source: Source, parameter: Parameter, raw: object, into: Stated) -> None:
        key = parameter.key
        path = (parameter.section, parameter.name)
        found = list(troubles(parameter, raw))
        for trouble in found:
            self.blame(source.place(*path, *filter(None, [trouble.member])), parameter, trouble)
        if found:
            return
        stated = members_of(raw)
        if "value" in stated:
            into.values[key] = value_in(parameter, stated["value"])
            into.places[key] = source.place(*path)
        if "tol" in stated:
            into.tolerances[key] = float(stated["tol"])
            into.tol_places[key] = source.place(*path, "tol")
        if "note" in stated:
            into.notes[key] = stated["note"]

    def blame(self, place: Place, parameter: Parameter, trouble: Trouble) -> None:
        """Note what is wrong with a value."""
        band = self.usual.get(parameter.key)
        cure = trouble.cure or advice(parameter, band, self.family)
        self.ledger.add(place, parameter.key, trouble.problem, cure)

    def _unknown(
        self, source: Source, within: tuple[str, ...], names: list[str], known: Iterable[str]
    ) -> None:
        known = tuple(known)
        for name in names[:_MOST_UNKNOWN]:
            what = "section" if isinstance(source.table.get(name), dict) and not within else "key"
            key = clipped(".".join((*within, name)))
            cure = "; ".join(self._guesses(name, within, known)) or "take it out"
            self.ledger.add(source.place(*within, name), key, f"unknown {what}", cure)
        if len(names) > _MOST_UNKNOWN:
            problem = f"{len(names) - _MOST_UNKNOWN} more unknown keys"
            cure = "make sure that it is a parameter file"
            self.ledger.add(source.place(*within), ".".join(within), problem, cure)

    def _guesses(self, name: str, within: tuple[str, ...], known: tuple[str, ...]) -> Iterator[str]:
        """What a mistaken name may have meant; a key guessed is not told missing as well."""
        like = nearest(name, known)
        if like:
            self.ledger.told.add(".".join((*within, like)))
            yield f"the nearest known name is `{like}`"
        if within and name in TOP:
            self.ledger.told.add(name)
            yield f"`{name}` belongs above the first [section]"
        homes = [p.section for p in self.schema.parameters.values() if p.name == name]
        homes += ["pattern"] if name in PATTERN else []
        if homes:
            self.ledger.told.update(f"{home}.{name}" for home in homes)
            yield f"`{name}` belongs in {' or '.join(f'[{home}]' for home in homes)}"
