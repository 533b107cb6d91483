"""List the paper sizes: ISO A4 to A0, ANSI letter to E."""

from __future__ import annotations

from typing import Final

from templates_gen.errors import DrawingError

#: Width and height in portrait (mm). Source: ISO 216 (A sizes); ASME Y14.1 (ANSI A to E; A is sold
#: as letter, B as tabloid), both from memory.
PAPERS: Final[dict[str, tuple[float, float]]] = {
    "a4": (210.0, 297.0),
    "a3": (297.0, 420.0),
    "a2": (420.0, 594.0),
    "a1": (594.0, 841.0),
    "a0": (841.0, 1189.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
    "ansi-c": (431.8, 558.8),
    "ansi-d": (558.8, 863.6),
    "ansi-e": (863.6, 1117.6),
}

_SERIES: Final = (
    ("a4", "a3", "a2", "a1", "a0"),
    ("letter", "tabloid", "ansi-c", "ansi-d", "ansi-e"),
)


def papers_from(name: str) -> tuple[str, ...]:
    """Return the named paper and the larger ones of its series, smallest first.

    Raises:
        DrawingError: the name is unknown.
    """
    for series in _SERIES:
        if name in series:
            return series[series.index(name) :]
    raise DrawingError(f"unknown paper {name!r}: use {', '.join(PAPERS)}")


def sizes_of(name: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the paper's width and height (mm), in portrait and in landscape."""
    width, height = PAPERS[name]
    return ((width, height), (height, width))


def holds(name: str, size: tuple[float, float]) -> bool:
    """Return whether a sheet of this size (mm) is one page of the named paper."""
    return size in sizes_of(name)
