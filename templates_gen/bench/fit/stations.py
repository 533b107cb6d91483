"""What comes off the stick where, and whether there is wood enough for the pattern."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.bench.fit.coverage import Stretch, gaps, missing
from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.thickness import STATION
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
        rows: by place, as far as the face; none where no thickness was measured.
        head: places and thickness ahead of the face, where the head stands: not planed.
        unmeasured: stretches (mm) whose thickness counts and is far from any station.
        missing: where to measure them, as text.
        reach: where the pattern's face ends the stick (mm from the butt's shoulder).
        short: by how much (mm) the stick in hand ends before; 0 where it does not.
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
