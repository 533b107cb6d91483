"""Scale a table of measured points so that it still agrees with the values it agreed with."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from templates_gen.bench.scale.law import AS_IT_WAS, Moved
from templates_gen.parameters import Mark, Parameter, Pattern, Points, troubles
from templates_gen.parameters.marks import sum_keys, sum_value

#: Decimals of a scaled point (mm): callipers read no finer. Common practice, no source.
_DECIMALS = 2
#: A fall of thickness less than this (mm), a calliper's reading, gives no direction.
_FLAT = 0.01

Values = Mapping[str, Any]


@dataclass(frozen=True)
class Station:
    """A marked place before and after scaling.

    Args:
        was, now: its x before and after (mm).
        y_was, y_now: the height there before and after (mm).
        factor: factor of a point's distance above or below that height.
    """

    was: float = 0.0
    now: float = 0.0
    y_was: float = 0.0
    y_now: float = 0.0
    factor: float = 1.0


def along(p: Pattern, now: Values) -> dict[str, Moved]:
    """Return every stated table of points, scaled with the other values.

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
    """Return a table of points that agrees with its marks as well, or as badly, as before.

    Args:
        q: the parameter.
        points: the points stated.
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
        return Moved(points, "the maker's own points stay; scaled they would not be possible")
    names = ", ".join(key.rpartition(".")[2].replace("_", " ") for key in leading)
    return Moved(moved, f"follows {names}")


def _figure(was: float, now: float) -> float:
    return was if math.isclose(was, now, abs_tol=1e-9) else round(now, _DECIMALS)


def _keys(marks: Sequence[Mark]) -> dict[str, None]:
    """Return each parameter the marks name, once, in their order."""
    return dict.fromkeys(key for m in marks for name in (m.x, m.y) for key in sum_keys(name))


def _moved(
    points: Points, marks: Sequence[Mark], was: Values, now: Values
) -> Iterator[tuple[float, float]]:
    """Yield the points, stretched between the stations in x and in y."""
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
    """Return the marks that have a place, and zero."""
    xs, ys = np.array(points).T
    found: list[Station] = []
    for mark in marks:
        if mark.x:
            old, new = sum_value(mark.x, was), sum_value(mark.x, now)
            low, high = sum_value(mark.y, was), sum_value(mark.y, now)
            if mark.exact:  # the points stand off the mark, and keep that distance
                y = float(np.interp(old, xs, ys))
                found.append(Station(old, new, y, y + high - low))
            else:
                found.append(Station(old, new, low, high, high / low if low else 1.0))
    if not found or found[0].was > 0.0:
        found.insert(0, Station())
    return found


def _between(stations: Sequence[Station], x: float, y: float) -> tuple[float, float]:
    """Return a point moved with the two stations beside it, or with the outermost beyond it."""
    for one, other in pairwise(stations):
        if one.was <= x <= other.was and other.was > one.was:
            share = (x - one.was) / (other.was - one.was)
            return one.now + share * (other.now - one.now), _height(one, other, share, y)
    last = stations[0] if x < stations[0].was else stations[-1]
    return x - last.was + last.now, last.y_now + (y - last.y_was) * last.factor


def _height(one: Station, other: Station, share: float, y: float) -> float:
    """Return a height that keeps its share of the fall between two stations.

    So a steady fall stays one. Between two equal heights the share is that of the place.
    """
    fall = other.y_was - one.y_was
    if abs(fall) >= _FLAT:
        share = min(max((y - one.y_was) / fall, 0.0), 1.0)
    off = (y - one.y_was - share * fall) * (one if share < 0.5 else other).factor
    return one.y_now + share * (other.y_now - one.y_now) + off
