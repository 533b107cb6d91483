"""Declare and read what was measured on the stick in hand, a file of its own.

Every section but ``stick`` may be left out; one that is present must be complete.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from templates_gen.bench.fit.coverage import too_little
from templates_gen.parameters import (
    FileKind,
    FloatOrArray,
    Ledger,
    Points,
    Scale,
    Schema,
    Source,
    choice,
    mm,
    plain,
    points,
    section,
)
from templates_gen.parameters import quantity as amount
from templates_gen.parameters.read import read_alone


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
KIND = FileKind(
    SCHEMA,
    whole=tuple(SCHEMA.sections),
    required=("stick",),
    optional=("stick.stations", "tapped.free_length"),
    refused={
        "pattern": ("it states a bow, not a stick in hand", "name the file of your measurements")
    },
)


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
    """Read the measurements of a stick from their file.

    Raises:
        InputError: everything wrong with the file, at once.
    """
    source, stated, ledger = read_alone(file, KIND)
    ledger.settle([source.file])
    _conflicts(source, stated.values, ledger)
    ledger.settle([source.file])
    return Measured(source.file, stated.values, stated.tolerances)


def _conflicts(source: Source, values: dict[str, Any], ledger: Ledger) -> None:
    """Report numbers that cannot all be true of one stick."""
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
