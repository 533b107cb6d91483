"""Declare parameters, once for validation, starter files, scaling and docs.

The parameters of a part are the fields of a frozen record::

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

from templates_gen.errors import Fault
from templates_gen.parameters.marks import Mark
from templates_gen.parameters.stock import Stock

Choice = StrEnum
#: Measured points (x, y) in the order of the file (mm); empty if not given.
Points = tuple[tuple[float, float], ...]
#: Greatest number of points in a table.
MOST_POINTS = 500
#: Step (mm) of lengths that never scale and have no stock sizes. Our own choice.
FINE_STEP = 0.05
T = TypeVar("T")


class Scale(StrEnum):
    """What a parameter follows when a pattern is scaled to another instrument."""

    HAIR_WIDTH = "keeps its difference from the hair width"
    HEIGHT = "follows the ferrule and hair height"
    STICK = "is proportional to the stick's diameter"
    LENGTH = "is proportional to the bow's length"
    FROG = "is proportional to the frog's length"
    HAND = "is set by the player's hand, per family"
    KNOT = "is proportional to the square root of the hair count, as the hair's knot is"
    NEVER = "never scales"
    CHARACTER = "is the maker's choice and stays as it is"


@dataclass(frozen=True)
class PointLimits:
    """Limits of a table of measured points.

    Args:
        least: least number of points, if any are given.
        x_low, x_high, y_low, y_high: possible ranges (mm).
        rising: whether x must rise from point to point.
        marks: dimensions the table must agree with, positions rising; without any, scaling leaves
            the points as they are.
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
    """One parameter of a pattern.

    Args:
        key: section and name, as in the file (``ferrule.outer_width``).
        meaning: what it is, in a maker's words.
        letter: its letter on the lettered drawings, or "".
        unit: ``mm``, ``deg``, ``1``, or another unit (``N``, ``GPa``).
        low, high: possible range; values outside are rejected.
        tol: default tolerance ±, in its unit.
        scale: what it follows when a pattern is scaled.
        whole: whether it is a count.
        measured: whether it is measured on the wood or the stock, so that cures change it last.
        choices: the allowed words, if it is a choice.
        points: the limits, if it is a table of points; tables are optional in files.
        after: key of the parameter it follows in scaling, before the usual one of its kind.
        fits: whether the two fit into each other, so that a cure changes both.
        stock: series of sizes it is bought or drilled in, or None.
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
        """Whether it is a number, which checks and cures can change."""
        return self.choices is None and self.points is None

    @property
    def fine(self) -> bool:
        """Whether it is a length set in steps of ``FINE_STEP``: never scaled, no stock sizes."""
        fixed = self.scale is Scale.NEVER and self.stock is None
        return fixed and self.numeric and self.unit == "mm"


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
    """Declare a length in millimetres."""
    draft = Parameter("", meaning, letter, "mm", low, high, tol, scale, measured=measured)
    return _declared(dataclasses.replace(draft, after=after, fits=fits, stock=stock))


def degrees(
    meaning: str, letter: str = "", *, low: float, high: float, scale: Scale, tol: float = 0.5
) -> Any:
    """Declare an angle in degrees; the key ends in ``_deg``."""
    return _declared(Parameter("", meaning, letter, "deg", low, high, tol, scale))


def ratio(meaning: str, letter: str = "", *, low: float, high: float, scale: Scale) -> Any:
    """Declare a ratio, without tolerance."""
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
    """Declare a quantity with another unit: a force, a density, a modulus."""
    return _declared(Parameter("", meaning, letter, unit, low, high, tol, scale, measured=measured))


def whole(meaning: str, letter: str = "", *, low: int, high: int, scale: Scale) -> Any:
    """Declare a count, without tolerance."""
    return _declared(Parameter("", meaning, letter, "1", low, high, 0.0, scale, whole=True))


def choice(meaning: str, choices: type[Choice], *, scale: Scale = Scale.CHARACTER) -> Any:
    """Declare a choice of words."""
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
    """Declare an optional table of points measured on the wood (mm), without tolerance.

    Args:
        meaning: what it is, in a maker's words, with what x and y are.
        letter: its letter on the lettered drawings, or "".
        least, x_low, x_high, y_low, y_high, rising, marks: as for ``PointLimits``.
    """
    limits = PointLimits(least, x_low, x_high, y_low, y_high, rising, marks)
    return _declared(Parameter("", meaning, letter, "mm", points=limits))


@dataclass_transform(
    frozen_default=True,
    kw_only_default=True,
    field_specifiers=(mm, degrees, ratio, quantity, whole, choice, points),
)
def section(name: str, title: str) -> Callable[[type[T]], type[T]]:
    """Make a class the record of a section of the parameter file.

    Args:
        name: name of the section in the file, ``[name]``.
        title: its heading.
    """

    def make(cls: type[T]) -> type[T]:
        record = dataclass(frozen=True, kw_only=True)(cls)
        record.SECTION = name  # type: ignore[attr-defined]
        record.TITLE = title  # type: ignore[attr-defined]
        return record

    return make


def section_of(record: type) -> str:
    """Return the name of a record's section in the file."""
    return str(record.SECTION)  # type: ignore[attr-defined]


def title_of(record: type) -> str:
    """Return the heading of a record's section."""
    return str(record.TITLE)  # type: ignore[attr-defined]


def records_in(module: object) -> tuple[type, ...]:
    """List the records a module declares, in order."""
    own = vars(module)
    return tuple(
        v
        for v in own.values()
        if isinstance(v, type) and "SECTION" in vars(v) and v.__module__ == own["__name__"]
    )


def parameters_of(record: type) -> tuple[Parameter, ...]:
    """List the parameters of a record, in order."""
    prefix = section_of(record)
    return tuple(
        dataclasses.replace(f.metadata["parameter"], key=f"{prefix}.{f.name}")
        for f in dataclasses.fields(record)
    )


@dataclass(frozen=True)
class Schema:
    """Every record a parameter file may hold, in order; how to find faults, how to draw it."""

    records: tuple[type, ...]
    faults: Callable[[Any], list[Fault]] = lambda p: []
    picture: Callable[[Any], str] | None = None

    @cached_property
    def parameters(self) -> dict[str, Parameter]:
        """All parameters by key."""
        return {p.key: p for record in self.records for p in parameters_of(record)}

    @cached_property
    def sections(self) -> dict[str, type]:
        return {section_of(record): record for record in self.records}

    @cached_property
    def _fields(self) -> dict[str, tuple[tuple[str, str], ...]]:
        """Field names and keys by section, kept because searches read them many thousand times."""
        return {
            name: tuple((f.name, f"{name}.{f.name}") for f in dataclasses.fields(record))
            for name, record in self.sections.items()
        }

    def build(self, values: dict[str, Any], sections: Iterable[str] | None = None) -> Iterable[Any]:
        """Build records from a complete set of values.

        Args:
            values: all values by key.
            sections: names of the sections to build; all if None.
        """
        for name in self.sections if sections is None else sections:
            yield self.sections[name](**{f: values[key] for f, key in self._fields[name]})
