"""Read what was measured on the stick in hand: a small file, judged as a pattern is.

Every section but ``stick`` may be left out; one that is present must be complete.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path
from typing import Any

from templates_gen.bench.fit.coverage import too_little
from templates_gen.parameters import (
    FloatOrArray,
    Points,
    Scale,
    Schema,
    choice,
    mm,
    points,
    section,
)
from templates_gen.parameters import quantity as amount
from templates_gen.parameters.declare import Parameter, parameters_of
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.number import as_float
from templates_gen.parameters.source import Source, load
from templates_gen.parameters.stated import value_in
from templates_gen.parameters.value import members_of, troubles
from templates_gen.parameters.words import allowed, clipped, nearest, plain, shown


class Form(StrEnum):
    """The cross-section of the stick as measured."""

    SQUARE = "square"
    OCTAGON = "octagon"
    ROUND = "round"
    FINISHED = "finished"


class Head(StrEnum):
    """Whether the stick has its head."""

    YES = "yes"
    NO = "no"


class Held(StrEnum):
    """How the stick was held when it was tapped."""

    FREE = "free"
    CLAMPED = "clamped"
    END_GRAIN = "end grain"


@section("stick", "The stick as it is")
class StickInHand:
    """Its shape; stations may be left out where it has the pattern's own thickness."""

    form: Form = choice(
        "Across: square, octagon or round all along, or finished with bores and mortise", Form
    )
    head: Head = choice("Whether the head, cut to its outline, is on it", Head)
    length: FloatOrArray = mm(
        "From the butt's shoulder to its front end, or to the face's rear edge if the head is on",
        low=300,
        high=900,
        scale=Scale.NEVER,
        tol=0.5,
    )
    stations: Points = points(
        "Place from the butt's shoulder and thickness there",
        least=2,
        x_low=0.0,
        x_high=900.0,
        y_low=3.0,
        y_high=30.0,
    )


@section("weighed", "On the scale")
class WeighedInHand:
    """Its mass."""

    mass: FloatOrArray = amount("Mass", unit="g", low=10, high=400, scale=Scale.NEVER, tol=0.1)


@section("tapped", "Tapped")
class Tapped:
    """Its lowest frequency."""

    held: Held = choice(
        "Free: held where it is still, tapped in the middle. Clamped: at the butt. End grain: "
        "tapped on its end",
        Held,
    )
    frequency: FloatOrArray = amount(
        "Lowest frequency", unit="Hz", low=5, high=6000, scale=Scale.NEVER, tol=0.5
    )
    free_length: FloatOrArray = mm(
        "From the clamp to its front end (clamped only)",
        low=200,
        high=900,
        scale=Scale.NEVER,
        tol=0.5,
    )


@section("loaded", "Under a weight")
class Loaded:
    """Its deflection midway between two supports."""

    weight: FloatOrArray = amount(
        "The weight", unit="g", low=20, high=20000, scale=Scale.NEVER, tol=1
    )
    deflection: FloatOrArray = mm(
        "Deflection midway", low=0.1, high=100, scale=Scale.NEVER, tol=0.03
    )
    rear: FloatOrArray = mm(
        "Rear support, from the butt's shoulder", low=0, high=600, scale=Scale.NEVER, tol=0.5
    )
    front: FloatOrArray = mm(
        "Front support, from the butt's shoulder", low=100, high=900, scale=Scale.NEVER, tol=0.5
    )


@section("bent", "Its camber")
class Bent:
    """Its camber as it is bent."""

    camber: Points = points(
        "Place from the ferrule's front and depth below the straight edge",
        least=3,
        x_low=0.0,
        x_high=900.0,
        y_low=0.0,
        y_high=60.0,
    )


@section("next", "The next stage")
class NextStage:
    """The thickness to leave over finished."""

    oversize: FloatOrArray = mm(
        "Thickness over finished at that stage", low=0, high=5, scale=Scale.NEVER
    )


SCHEMA = Schema((StickInHand, WeighedInHand, Tapped, Loaded, Bent, NextStage))
#: Values that a section may leave out.
_OPTIONAL = ("stick.stations", "tapped.free_length")


@dataclass(frozen=True)
class Measured:
    """A stick in hand.

    Args:
        file: its file, as the maker named it.
        values: the values stated, by key.
        tolerances: the stated ± of each number.
    """

    file: str
    values: Mapping[str, Any]
    tolerances: Mapping[str, float] = field(default_factory=dict)

    def has(self, name: str) -> bool:
        """Report whether a section is stated."""
        return any(key.startswith(f"{name}.") for key in self.values)

    def tolerance(self, key: str) -> float:
        """Return the ± of a number, in its unit."""
        return self.tolerances.get(key, SCHEMA.parameters[key].tol)


def read(file: str) -> Measured:
    """A stick's measurements from their file.

    Raises:
        InputError: everything wrong with the file, at once.
    """
    source = load(Path(file), file)
    ledger = Ledger()
    values: dict[str, Any] = {}
    tolerances: dict[str, float] = {}
    _unknown(source, None, ["units", *SCHEMA.sections], ledger)
    if source.table.get("units") != "mm":
        ledger.add(
            source.place("units"), "units", "the unit is not stated as mm", 'add units = "mm"'
        )
    if "stick" not in source.table:
        ledger.add(source.place(), "stick", "the section is missing", "add [stick] with its form")
    for name, record in SCHEMA.sections.items():
        if name in source.table:
            _section(source, name, parameters_of(record), ledger, values, tolerances)
    ledger.settle([source.file])
    _at_odds(source, values, ledger)
    ledger.settle([source.file])
    return Measured(file, values, tolerances)


def _section(
    source: Source,
    name: str,
    parameters: tuple[Parameter, ...],
    ledger: Ledger,
    values: dict[str, Any],
    tolerances: dict[str, float],
) -> None:
    table = source.table[name]
    if not isinstance(table, dict):
        problem = f"{shown(table)} stands where a section is expected"
        ledger.add(source.place(name), name, problem, f"write it as [{name}]")
        return
    _unknown(source, name, [p.name for p in parameters], ledger)
    for p in parameters:
        if p.name not in table:
            if p.key not in _OPTIONAL and p.key not in ledger.told:
                cure = f"add `{p.name} = …`, {allowed(p)}"
                ledger.add(source.place(name), p.key, "is not stated", cure)
            continue
        raw = table[p.name]
        found = list(troubles(p, raw))
        for trouble in found:
            cure = trouble.cure or f"state {allowed(p)}"
            ledger.add(source.place(name, p.name), p.key, trouble.problem, cure)
        members = members_of(raw)
        if not found and "value" not in members:
            ledger.add(source.place(name, p.name), p.key, "its table holds no value", "state value")
        elif not found:
            values[p.key] = value_in(p, members["value"])
            if "tol" in members:
                tolerances[p.key] = as_float(members["tol"])


def _unknown(source: Source, within: str | None, known: list[str], ledger: Ledger) -> None:
    path = () if within is None else (within,)
    for name in source.table if within is None else source.table[within]:
        if name not in known:
            like = nearest(name, known)
            cure = f"the nearest known name is `{like}`" if like else "take it out"
            ledger.told.add(".".join((*path, like or name)))
            key = clipped(".".join((*path, name)))
            ledger.add(source.place(*path, name), key, "unknown key", cure)


def _at_odds(source: Source, values: dict[str, Any], ledger: Ledger) -> None:
    """Numbers that cannot all be true of one stick."""
    length = values["stick.length"]
    for x, _ in values.get("stick.stations", ())[-1:]:
        if x > length:
            problem = f"the last station, at {plain(x)} mm, lies beyond its {plain(length)} mm"
            ledger.add(
                source.place("stick", "stations"), "stick.stations", problem, "measure again"
            )
            return
    if values.get("tapped.held") is Held.CLAMPED and "tapped.free_length" not in values:
        cure = "add `free_length = …`, from the clamp to its front end"
        ledger.add(source.place("tapped"), "tapped.free_length", "is not stated", cure)
    if "tapped.free_length" in values and values.get("tapped.held") is not Held.CLAMPED:
        problem, cure = "only a clamped stick has one", 'take it out, or state held = "clamped"'
        ledger.add(source.place("tapped", "free_length"), "tapped.free_length", problem, cure)
    for key in ("tapped.free_length", "loaded.front"):
        if values.get(key, 0.0) > length:
            problem = f"{plain(values[key])} mm is more than its length of {plain(length)} mm"
            ledger.add(source.place(*key.split(".")), key, problem, "measure again")
    if "loaded.front" in values and values["loaded.front"] < values["loaded.rear"] + 100:
        problem = "the supports stand less than 100 mm apart"
        ledger.add(source.place("loaded", "front"), "loaded.front", problem, "set them wider")
        return
    if (little := too_little(values)) is not None:
        ledger.add(source.place("stick", "stations"), "stick.stations", *little)
