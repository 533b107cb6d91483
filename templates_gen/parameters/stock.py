"""Series of stock sizes: threads, sheet, wire, drills."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

#: Two sizes nearer than this (mm) are the same size.
_SAME = 1e-6
#: Greatest number of sizes listed; longer series are shortened.
_SHOWN = 12


@dataclass(frozen=True)
class Stock:
    """A series of stock sizes.

    Args:
        name: the kind, read before "size" (``drill``).
        sizes: all sizes (mm), rising.
        source: where the series is from.
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

    def beyond(self, value: float, direction: float) -> Iterator[float]:
        """Yield the sizes from a value (mm) on, the nearest first.

        Args:
            value: where to start; included if it is a size.
            direction: upward if positive, else downward.
        """
        ordered = self.sizes if direction > 0 else self.sizes[::-1]
        yield from (s for s in ordered if (s - value) * direction > -_SAME * abs(direction))

    def listed(self, low: float, high: float) -> str:
        """List the sizes between two limits (mm) as text, long series shortened."""
        sizes = [f"{size:g}" for size in self.sizes if low <= size <= high]
        if len(sizes) > _SHOWN:
            sizes = [*sizes[: _SHOWN - 2], "…", sizes[-1]]
        return ", ".join(sizes)


def _steps(first: int, last: int, step: int) -> tuple[float, ...]:
    """Return sizes in mm at equal steps; arguments in hundredths of a millimetre."""
    return tuple(round(i / 100, 2) for i in range(first, last + 1, step))


#: Nominal diameters of coarse threads. Taps for other diameters are made to order.
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
