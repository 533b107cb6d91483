"""A clearance: a function of a pattern that says what is measured and what it must reach."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Literal, TypeVar

import numpy as np

from templates_gen.checks.solid import NotMeasured, Shown
from templates_gen.errors import GeometryError
from templates_gen.geometry import Point
from templates_gen.parameters import Dims, FloatOrArray, Pattern

D = TypeVar("D", bound=Dims)
#: A template, and a point in the frame of its first view (mm).
Place = tuple[str, Point]

#: More than this (mm) to spare is never tight. Common practice, no source.
ENOUGH = 0.5
#: What a rule says of solids that says nothing; no rule of a part or of the bow may leave it so.
UNDECLARED = NotMeasured("")


class Severity(StrEnum):
    """An error stops the cutting templates; a warning never changes the exit status."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True)
class Bound:
    """What was measured and the limit it must keep (mm, or the rule's unit)."""

    measured: FloatOrArray
    limit: FloatOrArray
    sense: Literal[">=", "<="]

    @property
    def margin(self) -> FloatOrArray:
        """How much is to spare; negative where it fails."""
        spare = self.measured - self.limit
        return spare if self.sense == ">=" else -spare


def at_least(measured: FloatOrArray, limit: FloatOrArray) -> Bound:
    """It holds when the measured is no less than the limit."""
    return Bound(measured, limit, ">=")


def at_most(measured: FloatOrArray, limit: FloatOrArray) -> Bound:
    """It holds when the measured is no more than the limit."""
    return Bound(measured, limit, "<=")


def nothing_asked() -> Bound:
    """Of a pattern that has no such thing nothing is asked: there is room without end."""
    return Bound(math.inf, 0.0, ">=")


@dataclass(frozen=True)
class Rule:
    """A named clearance.

    Args:
        id: ``part.what``.
        says: what holds when it holds, in a maker's words.
        bound: the clearance, of one pattern or of many corners at once.
        severity: error or warning.
        basis: where the limit comes from.
        unit: of what is measured.
        spare: less than this share of the limit to spare is tight; see ``room``.
        place: where on which template to look, or None where no one place tells it.
        solid: what is measured on the finished solids for it, or why nothing is.
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
        """Less than this to spare (in the rule's unit) is tight.

        A share of the limit, and of a limit below 1 as much. But however far along the bow a place
        lies, half a millimetre before it, with every tolerance at its worst, is room enough.
        """
        share = self.spare * max(1.0, abs(limit))
        return min(share, ENOUGH) if self.unit == "mm" else share

    @property
    def part(self) -> str:
        return self.id.partition(".")[0]


def at(
    template: str, kind: type[D], where: Callable[[D], tuple[FloatOrArray, FloatOrArray]]
) -> Callable[[Pattern], Place | None]:
    """The place a rule speaks of, from a part's derived dimensions.

    It is there to be looked at: where the numbers make no point, there is none to show.

    Args:
        template: its name, as in ``list``.
        kind: the dimensions it follows from.
        where: the point (mm), in the frame of the template's first view.
    """

    def place(p: Pattern) -> Place | None:
        try:
            with np.errstate(all="ignore"):
                x, y = (float(v) for v in where(p.derive(kind)))
        except (GeometryError, ArithmeticError, ValueError):
            return None
        return (template, (x, y)) if math.isfinite(x) and math.isfinite(y) else None

    return place


def rule(
    id: str,
    description: str,
    *,
    basis: str,
    severity: Severity = Severity.ERROR,
    unit: str = "mm",
    spare: float = 0.1,
    place: Callable[[Pattern], Place | None] | None = None,
    solid: Shown = UNDECLARED,
) -> Callable[[Callable[[Pattern], Bound]], Rule]:
    """Make a function of a pattern a rule."""
    return lambda bound: Rule(id, description, bound, severity, basis, unit, spare, place, solid)
