"""What comes off the stick where, and whether there is wood enough for the pattern."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.bench.fit_measured import Measured
from templates_gen.bench.fit_model import Blank
from templates_gen.bench.fit_wood import STATION
from templates_gen.parameters import Pattern
from templates_gen.parts.stick.dims import StickDims

#: A stage is worth while if at least this comes off everywhere (mm).
WORTH = 0.05


@dataclass(frozen=True)
class Station:
    """One place along the stick (mm): its thickness, what it shall be finished, and next."""

    x: float
    measured: float
    finished: float
    next: float

    @property
    def off(self) -> float:
        """What comes off the thickness for the next stage (mm); negative where it is too thin."""
        return self.measured - self.next

    @property
    def lacks(self) -> float:
        """What it lacks to be finished (mm); 0 where calipers would not tell."""
        short = self.finished - self.measured
        return short if short > STATION else 0.0


@dataclass(frozen=True)
class Stations:
    """The way from the stick in hand to the finished one.

    Args:
        oversize: what the next stage leaves on (mm).
        rows: by place; none where no thickness was measured.
        reach: where the pattern's face ends the stick (mm from the butt's shoulder).
        short: by how much (mm) the stick in hand ends before; 0 where it does not.
    """

    oversize: float
    rows: tuple[Station, ...]
    reach: float
    short: float

    @property
    def thin(self) -> tuple[Station, ...]:
        """Where it is thinner than it shall be finished."""
        return tuple(s for s in self.rows if s.lacks)

    @property
    def ahead(self) -> tuple[Station, ...]:
        """Where it is thinner already than the next stage asks, though not too thin."""
        return tuple(s for s in self.rows if s.off < -STATION and not s.lacks)

    @property
    def allows(self) -> float:
        """By what the finished diameters would have to be multiplied for this wood: ≤ 1."""
        return min((s.measured / s.finished for s in self.thin), default=1.0)

    @property
    def enough(self) -> bool:
        """Whether the pattern can be made of it at all."""
        return not (self.short or self.thin)


def stations_of(p: Pattern, measured: Measured) -> Stations:
    """What the next stage leaves on, what comes off where, and what is lacking.

    The next stage is the coarsest that leaves something to plane everywhere, or the one asked for.
    """
    d = p.derive(StickDims)
    reach = float(d.face_rear)
    short = reach - float(measured.values["stick.length"])
    short = short if short > measured.tolerance("stick.length") else 0.0
    if not measured.values.get("stick.stations"):
        return Stations(0.0, (), reach, short)
    blank = Blank.of(p, measured)
    finished = np.asarray(d.diameter(blank.places))
    spare = float((blank.thickness - finished).min())
    stage = next((s for s in d.stages.values() if spare >= s + WORTH), 0.0)
    left = float(measured.values.get("next.oversize", stage))
    rows = zip(blank.places, blank.thickness, finished, strict=True)
    stations = (Station(float(x), float(t), float(f), float(f) + left) for x, t, f in rows)
    return Stations(left, tuple(stations), reach, short)
