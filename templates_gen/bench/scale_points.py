"""How a table of measured points moves: x along the bow or the frog, y as it was declared."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TypeGuard

from templates_gen.bench.scale_law import AS_IT_WAS, Moved, by, moved_by
from templates_gen.parameters import Parameter, Points, Scale
from templates_gen.parameters.declare import ALONG
from templates_gen.parameters.value import troubles

#: What the leader of a kind was and is; None where none leads.
Step = tuple[float, float] | None

#: A carried point is told no finer than a calliper reads (mm): common practice, no source.
_DECIMALS = 2


def carried(q: Parameter, points: Points, step_of: Callable[[Scale], Step]) -> Moved:
    """A table of points moved after what leads its x and what leads its y.

    Args:
        q: the parameter.
        points: what the pattern states.
        step_of: what the leader of a kind was and is.
    """
    if not points:
        return Moved(points, "not stated")
    if q.scale not in ALONG:
        return Moved(points, "the maker's own points stay")
    # a difference in width is one across the hair, never along the bow
    along = (replace(q, scale=ALONG[q.scale]), step_of(ALONG[q.scale]))
    across = (q, step_of(q.scale))
    moved = tuple((_moved(*along, x), _moved(*across, y)) for x, y in points)
    if moved == points:
        return Moved(points, AS_IT_WAS)
    if any(troubles(q, moved)):
        return Moved(points, "the maker's own points stay, for moved they would not be possible")
    return Moved(moved, f"x {_told(*along)}, y {_told(*across)}")


def led(q: Parameter, step_of: Callable[[Scale], Step]) -> bool:
    """Whether anything leads the points' x or y."""
    kinds = (ALONG[q.scale], q.scale) if q.scale in ALONG else ()
    return any(step_of(kind) is not None for kind in kinds)


def _moved(q: Parameter, step: Step, value: float) -> float:
    return round(moved_by(q, value, *step), _DECIMALS) if _goes(step) else value


def _told(q: Parameter, step: Step) -> str:
    return by(q, *step) if _goes(step) else "stays"


def _goes(step: Step) -> TypeGuard[tuple[float, float]]:
    return step is not None and step[0] != step[1]
