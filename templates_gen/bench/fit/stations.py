"""Calculate what to plane off the stick where, and whether the wood suffices."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.bench.fit.coverage import Stretch, gaps, missing
from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.thickness import STATION
from templates_gen.parameters import Pattern
from templates_gen.parts.stick.dims import StickDims

#: A stage counts if at least this comes off everywhere (mm).
WORTH = 0.05


@dataclass(frozen=True)
class Station:
    """One place along the stick: thickness now, finished, and at the next stage (mm)."""

    x: float
    measured: float
    finished: float
    next: float

    @property
    def off(self) -> float:
        """Return what comes off for the next stage (mm); negative where it is too thin."""
        return self.measured - self.next

    @property
    def lacks(self) -> float:
        """Return how much thinner than finished it is (mm); 0 within a calliper's reading."""
        short = self.finished - self.measured
        return short if short > STATION else 0.0


@dataclass(frozen=True)
class Stations:
    """What to plane off, from the stick in hand to the finished one.

    Args:
        oversize: thickness over finished that the next stage leaves (mm).
        rows: places as far as the face; empty if no thickness was measured.
        reach: place of the pattern's face, the stick's end (mm from the butt's shoulder).
        short: how much shorter the stick in hand is (mm); 0 if it is not.
        head: places and thickness ahead of the face, where the head is: not planed.
        unmeasured: stretches (mm) whose thickness counts and that have no station near.
        missing: where to measure them, as text.
    """

    oversize: float
    rows: tuple[Station, ...]
    reach: float
    short: float
    head: tuple[tuple[float, float], ...] = ()
    unmeasured: tuple[Stretch, ...] = ()
    missing: str = ""

    @property
    def thin(self) -> tuple[Station, ...]:
        """Return the places where it is thinner than finished."""
        return tuple(s for s in self.rows if s.lacks)

    @property
    def ahead(self) -> tuple[Station, ...]:
        """Return the places where it is thinner than the next stage, but not than finished."""
        return tuple(s for s in self.rows if s.off < -STATION and not s.lacks)

    @property
    def allows(self) -> float:
        """Return the factor of the finished diameters that this wood allows: ≤ 1."""
        return min((s.measured / s.finished for s in self.thin), default=1.0)

    @property
    def enough(self) -> bool:
        """Report whether the pattern can be made of it."""
        return not (self.short or self.thin)


def stations_of(p: Pattern, measured: Measured) -> Stations:
    """Return the next stage, what comes off where, and what is missing.

    The next stage is the one stated, else the coarsest that leaves something to plane everywhere.
    """
    d = p.derive(StickDims)
    reach = float(d.face_rear)
    short = reach - float(measured.values["stick.length"])
    short = short if short > measured.tolerance("stick.length") else 0.0
    seen = measured.values.get("stick.stations", ())
    if not seen:
        return Stations(0.0, (), reach, short)
    end = reach + measured.tolerance("stick.length")
    stick = [(x, t, float(d.diameter(x))) for x, t in seen if x <= end]
    spare = min((t - finished for _, t, finished in stick), default=0.0)
    stage = next((s for s in d.stages.values() if spare >= s + WORTH), 0.0)
    left = float(measured.values.get("next.oversize", stage))
    rows = tuple(Station(x, t, finished, finished + left) for x, t, finished in stick)
    stretches = gaps(measured.values)
    return Stations(
        left,
        rows,
        reach,
        short,
        tuple((x, t) for x, t in seen if x > end),
        stretches,
        missing(measured.values) if stretches else "",
    )
