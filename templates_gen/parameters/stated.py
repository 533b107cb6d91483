"""Take in what a file states, whatever kind of file it is, and judge how it states it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from templates_gen.parameters.declare import Parameter, Schema, parameters_of
from templates_gen.parameters.families import Band
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.number import as_float
from templates_gen.parameters.pattern import Place
from templates_gen.parameters.source import Source
from templates_gen.parameters.units import MM, Units, in_unit, unbounded
from templates_gen.parameters.value import Trouble, members_of, troubles
from templates_gen.parameters.words import advice, allowed, clipped, nearest, shown, written

#: With more unknown keys than this it is some other kind of file; naming each helps nobody.
_MOST_UNKNOWN = 20


@dataclass(frozen=True)
class FileKind:
    """What one kind of TOML file may hold.

    Args:
        schema: its sections and their parameters.
        top: the keys above the first section.
        headings: sections that hold no parameters, with their keys.
        units: the units a length may be stated in, in millimetres; with more than one, a value
            may have a ``unit`` of its own and has no ``tol``.
        layered: whether the file lies over the file it is based on, which may state the rest.
        whole: sections that are stated whole or not at all.
        required: of those, the ones that must be there.
        optional: keys that may be left out all the same.
        refused: sections that show it to be another kind of file: what is wrong, and the cure.
    """

    schema: Schema
    top: tuple[str, ...] = ("units",)
    headings: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    units: Units = field(default_factory=lambda: MM)
    layered: bool = False
    whole: tuple[str, ...] = ()
    required: tuple[str, ...] = ()
    optional: Collection[str] = ()
    refused: Mapping[str, tuple[str, str]] = field(default_factory=dict)

    @property
    def members(self) -> tuple[str, ...]:
        """What the table of a value may hold."""
        return ("value", "unit" if len(self.units) > 1 else "tol", "note")


@dataclass
class Stated:
    """Values, tolerances and notes by key, each with its place."""

    values: dict[str, Any] = field(default_factory=dict)
    tolerances: dict[str, float] = field(default_factory=dict)
    notes: dict[str, str] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    tol_places: dict[str, Place] = field(default_factory=dict)


def value_in(parameter: Parameter, value: Any) -> Any:
    """Convert a valid value to a float, a word of its choice, or a tuple of points."""
    if parameter.choices is not None:
        return parameter.choices(value)
    if parameter.points is not None:
        return tuple((_float(x), _float(y)) for x, y in value)
    return _float(value)


def _float(value: Any) -> float:
    return as_float(value) + 0.0  # so that -0.0 is 0.0


@dataclass(frozen=True)
class Judge:
    """Read the sections of one file after another.

    Args:
        kind: what the files may hold.
        ledger: takes the faults.
        family: the family's name, or "" if it is not known.
        usual: the family's usual bands by key, for the cures.
    """

    kind: FileKind
    ledger: Ledger
    family: str = ""
    usual: Mapping[str, Band] = field(default_factory=dict)

    def take(self, source: Source, into: Stated) -> None:
        """Lay what a file states over what its bases have stated."""
        sections = (*self.kind.headings, *self.kind.schema.sections)
        known = (*self.kind.top, *sections)
        self._unknown(source, (), source.table, known)
        for name in sections:
            table = source.table.get(name)
            if isinstance(table, dict):
                self._section(source, name, table, into)
            elif table is not None:
                problem = f"{shown(table)} stands where a section is expected"
                self.ledger.add(source.place(name), name, problem, f"write it as [{name}]")
        self._units(source)

    def missing(self, section: str, stated: Stated) -> list[Parameter]:
        """List what must be stated of a section, is not, and has not been reported yet."""
        if section in self.ledger.reported:
            return []
        known = {*stated.values, *self.ledger.reported, *self.kind.optional}
        return [p for p in self._parameters(section) if p.key not in known]

    def report_missing(
        self, section: str, missing: list[Parameter], source: Source, holder: Source
    ) -> None:
        """Report what is missing of a section: all of it as one fault, else each key.

        Args:
            section: its name.
            missing: what is missing.
            source: the maker's own file.
            holder: the file that states the section, if any does.
        """
        required = [p for p in self._parameters(section) if p.key not in self.kind.optional]
        if len(missing) == len(required):
            count = "one value" if len(required) == 1 else f"{len(required)} values"
            cure = f"add [{section}] with its {count}"
            if self.family:
                cure += f', or `based_on = "{self.family}"` for the usual values'
            place = source.place(section)
            self.ledger.add(place, section, "the section is missing or empty", cure)
            return
        for p in missing:
            band = self.usual.get(p.key)
            cure = f"add `{p.name} = …`, {allowed(p)}"
            if band is not None:
                cure = f"add `{p.name} = {written(band.usual)}`, usual for a {self.family}"
            self.ledger.add(holder.place(section), p.key, "is not stated", cure)

    def blame(
        self, place: Place, parameter: Parameter, trouble: Trouble, raw: object = None
    ) -> None:
        """Note what is wrong with a value; of a length given as text, how inches are stated."""
        band = self.usual.get(parameter.key)
        cure = trouble.cure or advice(parameter, band, self.family)
        if isinstance(raw, str) and parameter.unit == "mm":
            cure += '; state a length in inches as { value = 0.25, unit = "in" }'
        self.ledger.add(place, parameter.key, trouble.problem, cure)

    def _parameters(self, section: str) -> tuple[Parameter, ...]:
        return parameters_of(self.kind.schema.sections[section])

    def _units(self, source: Source) -> None:
        units = source.table.get("units")
        cure = 'state `units = "mm"` at the top, and every length in millimetres'
        if len(self.kind.units) > 1:
            cure = 'state `units = "mm"` at the top; a length in inches says so, `unit = "in"`'
        if units is None and "units" not in self.ledger.reported:
            self.ledger.add((source.file, None), "units", "the unit is not stated", cure)
        elif units is not None and units != "mm":
            problem = f'{shown(units)} is not the unit "mm"'
            self.ledger.add(source.place("units"), "units", problem, cure)

    def _section(self, source: Source, section: str, table: dict[str, Any], into: Stated) -> None:
        names = self.kind.headings.get(section)
        parameters = () if names is not None else self._parameters(section)
        self._unknown(source, (section,), table, names or tuple(p.name for p in parameters))
        for p in parameters:
            if p.name in table:
                self._value(source, p, table[p.name], into)

    def _value(self, source: Source, parameter: Parameter, raw: object, into: Stated) -> None:
        """Take a value in, or note everything that is wrong with it."""
        key, path = parameter.key, (parameter.section, parameter.name)
        stated = members_of(raw)
        judged, factor = in_unit(parameter, stated.get("unit", parameter.unit), self.kind.units)
        if source.table.get("units", "mm") != "mm":
            judged = unbounded(parameter)  # one fault, the unit, and not one for each length
        found = list(troubles(judged, raw, self.kind.members))
        if not (found or self.kind.layered or "value" in stated):
            found = [Trouble("its table holds no value", f"state {allowed(judged)}")]
        for trouble in found:
            place = source.place(*path, *filter(None, [trouble.member]))
            self.blame(place, judged, trouble, raw if len(self.kind.units) > 1 else None)
        if found:
            return
        if "value" in stated:
            value = value_in(parameter, stated["value"])
            into.values[key] = value if factor == 1.0 else round(value * factor, 9)
            into.places[key] = source.place(*path)
        if "tol" in stated:
            into.tolerances[key] = as_float(stated["tol"])
            into.tol_places[key] = source.place(*path, "tol")
        if "note" in stated:
            into.notes[key] = stated["note"]

    def _unknown(
        self, source: Source, within: tuple[str, ...], stated: Iterable[str], known: Iterable[str]
    ) -> None:
        known = tuple(known)
        names = [name for name in stated if name not in known]
        for name in names[:_MOST_UNKNOWN]:
            what = "section" if isinstance(source.table.get(name), dict) and not within else "key"
            key = clipped(".".join((*within, name)))
            cure = "; ".join(self._guesses(name, within, known)) or "take it out"
            self.ledger.add(source.place(*within, name), key, f"unknown {what}", cure)
        if len(names) > _MOST_UNKNOWN:
            problem = f"{len(names) - _MOST_UNKNOWN} more unknown keys"
            cure = "make sure that it is the right kind of file"
            self.ledger.add(source.place(*within), ".".join(within), problem, cure)

    def _guesses(self, name: str, within: tuple[str, ...], known: tuple[str, ...]) -> Iterator[str]:
        """Say what a mistaken name may have meant; it is then not reported missing as well."""
        like = nearest(name, known)
        if like:
            self.ledger.reported.add(".".join((*within, like)))
            yield f"the nearest known name is `{like}`"
        if within and name in self.kind.top:
            self.ledger.reported.add(name)
            yield f"`{name}` belongs above the first [section]"
        homes = [p.section for p in self.kind.schema.parameters.values() if p.name == name]
        homes += [heading for heading, names in self.kind.headings.items() if name in names]
        if homes:
            self.ledger.reported.update(f"{home}.{name}" for home in homes)
            yield f"`{name}` belongs in {' or '.join(f'[{home}]' for home in homes)}"
