"""Rules: each compares one measure of a pattern with the limit it must keep."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import wraps
from typing import Literal, TypeVar, cast

import numpy as np

from templates_gen.checks.solid import NotMeasured, Shown
from templates_gen.errors import GeometryError
from templates_gen.geometry import FloatOrArray, Point
from templates_gen.parameters import Dims, Pattern

D = TypeVar("D", bound=Dims | Pattern)
#: A template, and a point in the frame of its first view (mm).
Place = tuple[str, Point]
#: A template, and the function that finds the point (mm) from a rule's dimensions.
PlaceOf = tuple[str, Callable[[D], tuple[FloatOrArray, FloatOrArray]]]

#: A margin above this (mm) is never close. Common practice, no source.
ENOUGH = 0.5
#: Stands where a rule does not state what is measured on solids; every shipped rule states it.
UNDECLARED = NotMeasured("")


class Severity(StrEnum):
    """An error stops the cutting templates; a warning never changes the exit status."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True)
class Bound:
    """A measured value and the limit it must keep (mm, or the rule's unit)."""

    measured: FloatOrArray
    limit: FloatOrArray
    sense: Literal[">=", "<="]

    @property
    def margin(self) -> FloatOrArray:
        """Return the distance to the limit, negative where the rule fails."""
        margin = self.measured - self.limit
        return margin if self.sense == ">=" else -margin


def at_least(measured: FloatOrArray, limit: FloatOrArray) -> Bound:
    """Require a measured value to be at least the limit."""
    return Bound(measured, limit, ">=")


def at_most(measured: FloatOrArray, limit: FloatOrArray) -> Bound:
    """Require a measured value to be at most the limit."""
    return Bound(measured, limit, "<=")


def not_applicable() -> Bound:
    """Return the bound of a rule that does not apply to a pattern: its margin is infinite."""
    return Bound(math.inf, 0.0, ">=")


@dataclass(frozen=True)
class Rule:
    """A named rule with its limit.

    Args:
        id: ``part.what``.
        description: what must hold, as a clause ("the ribbon lies flat …").
        bound: measures one pattern, or many corners in one call.
        severity: error or warning.
        basis: where the limit comes from.
        unit: unit of the measured value.
        spare: a margin below this share of the limit is close; see ``room``.
        place: finds the place to look at on a template; None where there is no single place.
        solid: what is measured on the finished solids, or why nothing is.
    """

    id: str
    description: str
    bound: Callable[[Pattern], Bound]
    severity: Severity
    basis: str
    unit: str = "mm"
    spare: float = 0.1
    place: Callable[[Pattern], Place | None] | None = None
    solid: Shown = UNDECLARED

    def room(self, limit: float) -> float:
        """Return the margin (in the rule's unit) below which the rule is close.

        It is a share of the limit, and of 1 where the limit is smaller. In mm it never exceeds
        ``ENOUGH``: a place far along the bow needs no more room than one near its end.
        """
        share = self.spare * max(1.0, abs(limit))
        return min(share, ENOUGH) if self.unit == "mm" else share

    @property
    def part(self) -> str:
        return self.id.partition(".")[0]


def rule(
    id: str,
    description: str,
    *,
    dims: type[D],
    basis: str,
    severity: Severity = Severity.ERROR,
    unit: str = "mm",
    spare: float = 0.1,
    place: PlaceOf[D] | None = None,
    applies: Callable[[D], bool] | None = None,
    solid: Shown = UNDECLARED,
) -> Callable[[Callable[[D], Bound]], Rule]:
    """Declare the decorated function as a rule. The registry finds it in the part's ``rules*.py``.

    The function gets the dimensions named by ``dims`` and returns a ``Bound``. It must take arrays,
    so it must not compare a length with ``if``.

    Args:
        dims: the derived dimensions to measure, or ``Pattern`` for the pattern itself.
        place: a template and the point on it (mm, frame of its first view), from the same dims.
        applies: tells whether a pattern has what is measured; always, if None.

    The other arguments are those of ``Rule``.
    """

    def derive(p: Pattern) -> D:
        return cast(D, p if dims is Pattern else p.derive(cast(type[Dims], dims)))

    def declare(measure: Callable[[D], Bound]) -> Rule:
        @wraps(measure)
        def bound(p: Pattern) -> Bound:
            d = derive(p)
            return measure(d) if applies is None or applies(d) else not_applicable()

        find = None if place is None else _finder(place, derive)
        return Rule(id, description, bound, severity, basis, unit, spare, find, solid)

    return declare


def _finder(place: PlaceOf[D], derive: Callable[[Pattern], D]) -> Callable[[Pattern], Place | None]:
    """Find a rule's place on a pattern; None where the dimensions give no point."""
    template, point = place

    def find(p: Pattern) -> Place | None:
        try:
            with np.errstate(all="ignore"):
                x, y = (float(v) for v in point(derive(p)))
        except (GeometryError, ArithmeticError, ValueError):
            return None
        return (template, (x, y)) if math.isfinite(x) and math.isfinite(y) else None

    return find
