"""How a table of measured points moves: x along the bow or the frog, y as it was declared."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from templates_gen.bench.scale_law import Moved, by, moved_by
from templates_gen.parameters import Parameter, Points, Scale
from templates_gen.parameters.declare import ALONG
from templates_gen.parameters.value import troubles

#: What the leader of a kind was and is; None where none moved.
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
        return Moved(points, "the same in both")
    if any(troubles(q, moved)):
        return Moved(points, "the maker's own points stay, for moved they would not be possible")
    return Moved(moved, f"x {_told(*along)}, y {_told(*across)}")


def _moved(q: Parameter, step: Step, value: float) -> float:
    return value if step is None else round(moved_by(q, value, *step), _DECIMALS)


def _told(q: Parameter, step: Step) -> str:
    return "stays" if step is None else by(q, *step)
