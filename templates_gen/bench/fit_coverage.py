"""How much of the stick its stations cover, and where to measure what they leave out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any

from templates_gen.parameters.words import plain

#: Stations cover at least so much of what counts, else the wood would be guessed; two stations
#: farther apart than this share of it cover nothing between them. Our own choice.
LEAST = 0.5
#: A stretch so long (mm) without a station at an end, or between two stations, is mentioned.
_END, _BETWEEN = 30.0, 200.0
#: Stations proposed stand at most so far apart (mm).
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
    if "weighed.mass" in values or "tapped.tone" in values:
        clamped = "weighed.mass" not in values and "tapped.free_length" in values
        found.append((length - float(values["tapped.free_length"]) if clamped else 0.0, length))
    if "loaded.front" in values:
        found.append((float(values["loaded.rear"]), float(values["loaded.front"])))
    return (min(a for a, _ in found), max(b for _, b in found)) if found else None


def gaps(values: Mapping[str, Any]) -> tuple[Stretch, ...]:
    """Return the stretches (mm) that count and are far from any station, from butt to head.

    Args:
        values: what was measured, by key.
    """
    needed, places = counts(values), [float(x) for x, _ in values.get("stick.stations", ())]
    if needed is None or not places:
        return ()
    start, end = needed
    found = [(start, places[0])] if places[0] - start > _END else []
    inner = ((max(a, start), min(b, end)) for a, b in pairwise(places))
    found += [(a, b) for a, b in inner if b - a > _BETWEEN]
    return (*found, *([(places[-1], end)] if end - places[-1] > _END else []))


def missing(values: Mapping[str, Any]) -> str:
    """Return where (mm) else to measure, as text: ``0, 630 and 712 mm``.

    Args:
        values: what was measured, by key.
    """
    stations = {float(x) for x, _ in values["stick.stations"]}
    places = sorted({x for gap in gaps(values) for x in _between(gap)} - stations)
    words = [plain(round(x)) for x in places]
    return f"{' and '.join([', '.join(words[:-1]), words[-1]][not words[:-1] :])} mm"


def _between(gap: Stretch) -> Iterator[float]:
    start, end = gap
    pieces = max(int(-(-(end - start) // _APART)), 1)
    yield from (start + (end - start) * i / pieces for i in range(pieces + 1))


def too_little(values: Mapping[str, Any]) -> tuple[str, str] | None:
    """Return problem and cure where the stations cover too little to tell anything of the wood.

    Args:
        values: what was measured, by key.
    """
    needed, stations = counts(values), values.get("stick.stations", ())
    if needed is None or not stations:
        return None
    first, last = float(stations[0][0]), float(stations[-1][0])
    whole = needed[1] - needed[0]
    near = [(float(a), float(b)) for (a, _), (b, _) in pairwise(stations)]
    pieces = [max(min(b, needed[1]) - max(a, needed[0]), 0.0) for a, b in near]
    covered = sum(piece for piece in pieces if piece <= LEAST * whole + _ROUNDED)
    if covered >= LEAST * whole - _ROUNDED:
        return None
    problem = (
        f"the {len(stations)} stations, from {plain(first)} to {plain(last)} mm, cover "
        f"{plain(round(covered))} of the {plain(round(whole))} mm whose thickness counts: at least "
        "half is needed, with no longer stretch between two"
    )
    return problem, f"measure the thickness at {missing(values)} too"
