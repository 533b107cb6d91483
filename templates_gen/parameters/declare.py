"""Declare a parameter once; validation, starter files, scaling and the docs all read this.

A part's parameters are a frozen record, one field each::

    @section("ferrule", "Ferrule")
    class Ferrule:
        outer_width: FloatOrArray = mm("Outer width", "W_f", low=8, high=32, scale=Scale.HAIR_WIDTH)
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import Any, TypeVar, dataclass_transform

from templates_gen.parameters.marks import Mark
from templates_gen.parameters.stock import Stock

Choice = StrEnum
#: Measured points (x, y) in the order of the file, mm; none where nothing is stated.
Points = tuple[tuple[float, float], ...]
#: So many points are read; more is no table a maker measured.
MOST_POINTS = 500
#: What never scales and has no series of its own is set in steps of this (mm): our own choice.
FINE_STEP = 0.05
T = TypeVar("T")


class Scale(StrEnum):
    """What a parameter follows when a pattern is carried to another instrument."""

    HAIR_WIDTH = "follows the hair width by an added constant"
    HEIGHT = "follows the ferrule and hair height"
    STICK = "follows the stick's diameter in proportion"
    LENGTH = "follows the bow's length in proportion"
    FROG = "follows the frog's length in proportion"
    HAND = "is fixed by the player's hand, per family"
    KNOT = "follows the hair's knot, so the square root of the hair count"
    NEVER = "never scales"
    CHARACTER = "is the maker's own and stays as it is"


@dataclass(frozen=True)
class PointLimits:
    """What a table of measured points may hold.

    Args:
        least: how many points are needed, where any are stated.
        x_low, x_high, y_low, y_high: the possible ranges (mm).
        rising: whether each point lies beyond the one before.
        marks: what the table agrees with, places rising; without any, the points never move.
    """

    least: int
    x_low: float
    x_high: float
    y_low: float
    y_high: float
    rising: bool = True
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True)
class Parameter:
    """One thing the maker states.

    Args:
        key: section and name, as in the file (``ferrule.outer_width``).
        meaning: what it is, in a maker's words.
        letter: its letter on the lettered drawings, or "".
        unit: ``mm``, ``deg``, ``1``, or what a quantity is told in (``N``, ``GPa``).
        low, high: the possible range; outside it the file is refused.
        tol: the ± it is judged with unless the file says otherwise, in its unit.
        scale: what it follows when a pattern is scaled.
        whole: a count.
        measured: found on the wood or the stock in hand, so a cure proposes it last.
        choices: the words allowed, where it is a choice and not a number.
        points: what it may hold, where it is a table of points; it may be left out of a file.
        after: the key it goes along with before any other that leads its kind.
        fits: whether the two fit into each other, so that a cure of either moves both.
        stock: the series of sizes it is bought or drilled in; None where it has none.
    """

    key: str
    meaning: str
    letter: str = ""
    unit: str = "mm"
    low: float = 0.0
    high: float = 0.0
    tol: float = 0.0
    scale: Scale = Scale.NEVER
    whole: bool = False
    measured: bool = False
    choices: type[Choice] | None = None
    points: PointLimits | None = None
    after: str | None = None
    fits: bool = False
    stock: Stock | None = None

    @property
    def section(self) -> str:
        return self.key.partition(".")[0]

    @property
    def name(self) -> str:
        return self.key.partition(".")[2]

    @property
    def numeric(self) -> bool:
        """Whether it is one number, which checks and cures can move."""
        return self.choices is None and self.points is None

    @property
    def fine(self) -> bool:
        """Whether it is a length that never scales and has no series: set by ``FINE_STEP``."""
        never = self.scale is Scale.NEVER and self.numeric and self.unit == "mm"
        return never and self.stock is None


def _declared(draft: Parameter) -> Any:
    return field(metadata={"parameter": draft})


def mm(
    meaning: str,
    letter: str = "",
    *,
    low: float,
    high: float,
    scale: Scale,
    tol: float = 0.05,
    measured: bool = False,
    after: str | None = None,
    fits: bool = False,
    stock: Stock | None = None,
) -> Any:
    """A length in millimetres."""
    draft = Parameter("", meaning, letter, "mm", low, high, tol, scale, measured=measured)
    return _declared(dataclasses.replace(draft, after=after, fits=fits, stock=stock))


def degrees(
    meaning: str, letter: str = "", *, low: float, high: float, scale: Scale, tol: float = 0.5
) -> Any:
    """An angle in degrees; the key ends in ``_deg``."""
    return _declared(Parameter("", meaning, letter, "deg", low, high, tol, scale))


def ratio(meaning: str, letter: str = "", *, low: float, high: float, scale: Scale) -> Any:
    """A plain number, a part of something; it has no tolerance."""
    return _declared(Parameter("", meaning, letter, "1", low, high, 0.0, scale))


def quantity(
    meaning: str,
    letter: str = "",
    *,
    unit: str,
    low: float,
    high: float,
    scale: Scale,
    tol: float = 0.0,
    measured: bool = False,
) -> Any:
    """What is no length: a pull, a density, a modulus; ``unit`` is written behind it."""
    return _declared(Parameter("", meaning, letter, unit, low, high, tol, scale, measured=measured))


def whole(meaning: str, letter: str = "", *, low: int, high: int, scale: Scale) -> Any:
    """A count; it has no tolerance."""
    return _declared(Parameter("", meaning, letter, "1", low, high, 0.0, scale, whole=True))


def choice(meaning: str, choices: type[Choice], *, scale: Scale = Scale.CHARACTER) -> Any:
    """One of a few words."""
    return _declared(Parameter("", meaning, unit="", scale=scale, choices=choices))


def points(
    meaning: str,
    letter: str = "",
    *,
    least: int,
    x_low: float,
    x_high: float,
    y_low: float,
    y_high: float,
    rising: bool = True,
    marks: tuple[Mark, ...] = (),
) -> Any:
    """A table of points measured on the wood (mm), which may be left out; it has no tolerance.

    Args:
        meaning: what it is, in a maker's words, with what x and y are.
        letter: its letter on the lettered drawings, or "".
        least: how many points are needed, where any are stated.
        x_low, x_high, y_low, y_high: the possible ranges (mm).
        rising: whether each point must lie beyond the one before.
        marks: what the table agrees with, places rising; without any, the points never move.
    """
    limits = PointLimits(least, x_low, x_high, y_low, y_high, rising, marks)
    return _declared(Parameter("", meaning, letter, "mm", points=limits))


@dataclass_transform(
    frozen_default=True,
    kw_only_default=True,
    field_specifiers=(mm, degrees, ratio, quantity, whole, choice, points),
)
def section(name: str, title: str) -> Callable[[type[T]], type[T]]:
    """Make a class the record of one section of the parameter file.

    Args:
        name: the section's name in the file, ``[name]``.
        title: what a heading calls it.
    """

    def make(cls: type[T]) -> type[T]:
        record = dataclass(frozen=True, kw_only=True)(cls)
        record.SECTION = name  # type: ignore[attr-defined]
        record.TITLE = title  # type: ignore[attr-defined]
        return record

    return make


def section_of(record: type) -> str:
    """The section's name in the file."""
    return str(record.SECTION)  # type: ignore[attr-defined]


def title_of(record: type) -> str:
    """What a heading calls the section."""
    return str(record.TITLE)  # type: ignore[attr-defined]


def records_in(module: object) -> tuple[type, ...]:
    """The records a module declares, in the order they are written."""
    own = vars(module)
    return tuple(
        v
        for v in own.values()
        if isinstance(v, type) and "SECTION" in vars(v) and v.__module__ == own["__name__"]
    )


def parameters_of(record: type) -> tuple[Parameter, ...]:
    """A record's declarations, in the order they are written."""
    prefix = section_of(record)
    return tuple(
        dataclasses.replace(f.metadata["parameter"], key=f"{prefix}.{f.name}")
        for f in dataclasses.fields(record)
    )


@dataclass(frozen=True)
class Schema:
    """Every record a parameter file may hold, in order."""

    records: tuple[type, ...]

    @cached_property
    def parameters(self) -> dict[str, Parameter]:
        """Every declaration by its key."""
        return {p.key: p for record in self.records for p in parameters_of(record)}

    @cached_property
    def sections(self) -> dict[str, type]:
        return {section_of(record): record for record in self.records}

    @cached_property
    def _fields(self) -> dict[str, tuple[tuple[str, str], ...]]:
        """By section, each field's name and its key; looked up many thousand times in a search."""
        return {
            name: tuple((f.name, f"{name}.{f.name}") for f in dataclasses.fields(record))
            for name, record in self.sections.items()
        }

    def build(self, values: dict[str, Any], sections: Iterable[str] | None = None) -> Iterable[Any]:
        """The records of a complete set of values, keyed ``section.name``.

        Args:
            values: every value.
            sections: those to build; all if None.
        """
        for name in self.sections if sections is None else sections:
            yield self.sections[name](**{f: values[key] for f, key in self._fields[name]})
