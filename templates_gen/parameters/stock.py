"""Sizes in which things are sold, by kind: screws by thread, sheet by gauge, holes by drill."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

#: Two sizes nearer than this (mm) are the same size.
_SAME = 1e-6
#: So many sizes are shown; the rest of a longer series is left out.
_SHOWN = 12


@dataclass(frozen=True)
class Stock:
    """A series of sizes in which one kind of thing is sold.

    Args:
        name: the kind, to be read before "size" (``drill``).
        sizes: every size in it (mm), rising.
        source: who says so.
    """

    name: str
    sizes: tuple[float, ...]
    source: str

    def holds(self, value: float) -> bool:
        """Report whether a value (mm) is one of the sizes."""
        return any(abs(size - value) < _SAME for size in self.sizes)

    def nearest(self, value: float) -> float:
        """Return the size nearest to a value (mm); the smaller of two equally near."""
        return min(self.sizes, key=lambda size: (round(abs(size - value), 9), size))

    def beyond(self, value: float, way: float) -> Iterator[float]:
        """Yield the sizes from a value (mm) on, the nearest first.

        Args:
            value: where to begin; it is one of them if it is a size.
            way: upward if positive, else downward.
        """
        rising = self.sizes if way > 0 else tuple(reversed(self.sizes))
        yield from (size for size in rising if (size - value) * way > -_SAME * abs(way))

    def listed(self, low: float, high: float) -> str:
        """Return the sizes between two limits (mm) as text, a long series shortened."""
        sizes = [f"{size:g}" for size in self.sizes if low <= size <= high]
        if len(sizes) > _SHOWN:
            sizes = [*sizes[: _SHOWN - 2], "…", sizes[-1]]
        return ", ".join(sizes)


def _steps(first: int, last: int, step: int) -> tuple[float, ...]:
    """Return sizes by even steps, all in hundredths of a millimetre."""
    return tuple(round(i / 100, 2) for i in range(first, last + 1, step))


#: Nominal diameters of coarse threads. A tap for another diameter is made to order.
THREAD = Stock(
    "coarse-thread",
    (2.0, 2.2, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0),
    "ISO 261, metric coarse threads, first and second choice",
)
_GAUGES = (*_steps(10, 60, 5), *_steps(70, 160, 10), 1.8, 2.0, 2.5, 3.0)
#: Thicknesses of silver, nickel silver and brass sheet, and diameters of wire.
SHEET = Stock("sheet", _GAUGES, "gauges usual with metal dealers: common practice, no source")
WIRE = Stock("wire", _GAUGES, SHEET.source)
#: Diameters of twist drills.
DRILL = Stock("drill", (*_steps(100, 295, 5), *_steps(300, 1390, 10)), "metric drills, BS 328")
