"""How a table of measured points moves: so that it still agrees with what it agreed with."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from templates_gen.bench.scale.law import AS_IT_WAS, Moved
from templates_gen.parameters import Mark, Parameter, Pattern, Points
from templates_gen.parameters.marks import sum_keys, sum_value
from templates_gen.parameters.value import troubles

#: A carried point is told no finer than a calliper reads (mm): common practice, no source.
_DECIMALS = 2
#: Over less than this (mm) nothing can be told of how a thickness falls: a calliper's reading.
_FLAT = 0.01

Values = Mapping[str, Any]


@dataclass(frozen=True)
class Station:
    """A marked place: where it was and is, what is told there and shall be, and by what factor
    what lies above or below it goes."""

    was: float = 0.0
    now: float = 0.0
    told: float = 0.0
    shall: float = 0.0
    off: float = 1.0


def along(p: Pattern, now: Values) -> dict[str, Moved]:
    """Every table of points that is stated, moved along with the other values.

    Args:
        p: the pattern before.
        now: every value after.
    """
    known = p.schema.parameters
    return {
        key: carried(q, p.values[key], p.values, now)
        for key, q in known.items()
        if q.points is not None
    }


def carried(q: Parameter, points: Points, was: Values, now: Values) -> Moved:
    """A table of points moved so that it agrees with its marks as well, or as badly, as it did.

    Args:
        q: the parameter.
        points: what the pattern states.
        was, now: every number before and after.
    """
    marks = q.points.marks if q.points is not None else ()
    if not points:
        return Moved(points, "not stated")
    if not marks:
        return Moved(points, "the maker's own points stay")
    leading = [key for key in _keys(marks) if was[key] != now[key]]
    if not leading:
        return Moved(points, AS_IT_WAS)
    there = zip(points, _moved(points, marks, was, now), strict=True)
    moved = tuple((_figure(a, u), _figure(b, v)) for (a, b), (u, v) in there)
    if any(troubles(q, moved)):
        return Moved(points, "the maker's own points stay, for moved they would not be possible")
    names = ", ".join(key.rpartition(".")[2].replace("_", " ") for key in leading)
    return Moved(moved, f"along with {names}")


def _figure(was: float, now: float) -> float:
    return was if math.isclose(was, now, abs_tol=1e-9) else round(now, _DECIMALS)


def _keys(marks: Sequence[Mark]) -> dict[str, None]:
    """Each parameter the marks name, once, in their order."""
    return dict.fromkeys(key for m in marks for told in (m.x, m.y) for key in sum_keys(told))


def _moved(
    points: Points, marks: Sequence[Mark], was: Values, now: Values
) -> Iterator[tuple[float, float]]:
    """The points, x stretched from place to place and y from what is told at one to the next."""
    xs, ys = np.array(points).T
    stations = _stations(points, marks, was, now)
    factor = 1.0
    for mark in marks:
        if mark.y and not mark.x:
            most = float(ys.max())
            factor = (
                (most + sum_value(mark.y, now) - sum_value(mark.y, was)) / most if most else 1.0
            )
    for x, y in zip(xs, ys, strict=True):
        yield _between(stations, float(x), float(y) * factor)


def _stations(points: Points, marks: Sequence[Mark], was: Values, now: Values) -> list[Station]:
    """The marks that are places, nought among them."""
    xs, ys = np.array(points).T
    found: list[Station] = []
    for mark in marks:
        if mark.x:
            old, new = sum_value(mark.x, was), sum_value(mark.x, now)
            low, high = sum_value(mark.y, was), sum_value(mark.y, now)
            if mark.exact:  # it says so nearly, and shall be off by as much
                told = float(np.interp(old, xs, ys))
                found.append(Station(old, new, told, told + high - low))
            else:
                found.append(Station(old, new, low, high, high / low if low else 1.0))
    if not found or found[0].was > 0.0:
        found.insert(0, Station())
    return found


def _between(stations: Sequence[Station], x: float, y: float) -> tuple[float, float]:
    """A point carried with the two stations it lies between; beyond the outermost, with that."""
    for one, other in pairwise(stations):
        if one.was <= x <= other.was and other.was > one.was:
            share = (x - one.was) / (other.was - one.was)
            return one.now + share * (other.now - one.now), _height(one, other, share, y)
    last = stations[0] if x < stations[0].was else stations[-1]
    return x - last.was + last.now, last.shall + (y - last.told) * last.off


def _height(one: Station, other: Station, share: float, y: float) -> float:
    """A height between those told at two stations stays as far between them.

    So what falls all the way still does. Where the two are alike, it goes with the place.
    """
    fall = other.told - one.told
    if abs(fall) >= _FLAT:
        share = min(max((y - one.told) / fall, 0.0), 1.0)
    off = (y - one.told - share * fall) * (one if share < 0.5 else other).off
    return one.shall + share * (other.shall - one.shall) + off
