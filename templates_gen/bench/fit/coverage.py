"""Calculate how much of the stick the stations cover, and where to measure the rest."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from templates_gen.parameters import plain

#: Least share of the stretch that counts which the stations must cover; two stations farther apart
#: than this share of it cover nothing between them. Our own choice.
LEAST = 0.5
#: A longer stretch (mm) without a station, at an end or between two stations, is reported.
_END, _BETWEEN = 30.0, 200.0
#: Greatest distance between proposed stations (mm).
_APART = 150.0

#: Stations are stated to the millimetre.
_ROUNDED = 1.0

Stretch = tuple[float, float]


def counts(values: Mapping[str, Any]) -> Stretch | None:
    """Return the stretch (mm) whose thickness the measurements depend on; None without any.

    Args:
        values: what was measured, by key.
    """
    length = float(values["stick.length"])
    found: list[Stretch] = []
    if "weighed.mass" in values or "tapped.frequency" in values:
        clamped = "weighed.mass" not in values and "tapped.free_length" in values
        found.append((length - float(values["tapped.free_length"]) if clamped else 0.0, length))
    if "loaded.front" in values:
        found.append((float(values["loaded.rear"]), float(values["loaded.front"])))
    return (min(a for a, _ in found), max(b for _, b in found)) if found else None


def gaps(values: Mapping[str, Any]) -> tuple[Stretch, ...]:
    """Return the stretches (mm) that count and have no station near, from butt to head.

    Args:
        values: what was measured, by key.
    """
    needed, places = counts(values), [float(x) for x, _ in values.get("stick.stations", ())]
    if needed is None or not places:
        return ()
    start, end = needed
    first, last = min(places[0], end), max(places[-1], start)
    found = [(start, first)] if first - start > _END else []
    apart = min(_BETWEEN, _longest(end - start))
    found += [(a, b) for a, b in _between(places, needed) if b - a > apart]
    return (*found, *([(last, end)] if end - last > _END else []))


def missing(values: Mapping[str, Any]) -> str:
    """Return where else to measure (mm), as text: ``0, 630 and 712 mm``.

    Args:
        values: what was measured, by key.
    """
    stations = {float(x) for x, _ in values["stick.stations"]}
    places = sorted({x for gap in gaps(values) for x in _proposed(gap, stations)} - stations)
    *others, last = [plain(round(x)) for x in places]
    return f"{', '.join(others)} and {last} mm" if others else f"{last} mm"


def _proposed(gap: Stretch, stations: Collection[float]) -> Iterator[float]:
    """Yield both ends of a stretch and places between; at least one if both are stations."""
    start, end = gap
    least = 2 if {start, end} <= {*stations} else 1
    pieces = max(math.ceil((end - start) / _APART), least)
    yield from (start + (end - start) * i / pieces for i in range(pieces + 1))


def _between(places: Sequence[float], needed: Stretch) -> Iterator[Stretch]:
    """Yield the stretches between two stations, as far as they count."""
    start, end = needed
    for a, b in pairwise(places):
        yield min(max(a, start), end), max(min(b, end), start)


def _longest(whole: float) -> float:
    """Return the greatest distance (mm) at which two stations cover the stretch between them."""
    return LEAST * whole + _ROUNDED


def too_little(values: Mapping[str, Any]) -> tuple[str, str] | None:
    """Return problem and cure if the stations cover too little to calculate the wood; else None.

    Args:
        values: what was measured, by key.
    """
    needed, stations = counts(values), values.get("stick.stations", ())
    if needed is None or not stations:
        return None
    first, last = float(stations[0][0]), float(stations[-1][0])
    whole = needed[1] - needed[0]
    pieces = [b - a for a, b in _between([float(x) for x, _ in stations], needed)]
    covered = sum(piece for piece in pieces if piece <= _longest(whole))
    if covered >= LEAST * whole - _ROUNDED:
        return None
    problem = (
        f"the {len(stations)} stations, from {plain(first)} to {plain(last)} mm, cover "
        f"{plain(round(covered))} of the {plain(round(whole))} mm whose thickness counts: at least "
        "half is needed, from stations that are no farther apart than that"
    )
    return problem, f"measure the thickness at {missing(values)} too"
