"""Families of bows and the usual values of their parameters (``families.csv``)."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from templates_gen.parameters.declare import Points


@dataclass(frozen=True)
class Family:
    """A family of bows.

    Args:
        name: name in files, ``bass-french``.
        instrument: name on sheets, ``double bass, overhand``.
        bass: whether the heavier limits of bass bows apply.
    """

    name: str
    instrument: str
    bass: bool


FAMILIES = {
    f.name: f
    for f in (
        Family("violin", "violin", bass=False),
        Family("viola", "viola", bass=False),
        Family("cello", "cello", bass=False),
        Family("bass-french", "double bass, overhand (French)", bass=True),
        Family("bass-german", "double bass, underhand (German)", bass=True),
    )
}


@dataclass(frozen=True)
class Band:
    """The usual band of a parameter in a family.

    A choice has only a usual word; tables of points are usually empty.

    Args:
        usual: the usual value.
        low, high: limits of the band, or None.
        basis: letters of the sources, see ``BASIS``.
    """

    usual: float | str | Points
    low: float | None
    high: float | None
    basis: str

    @property
    def figure(self) -> float:
        """The usual value as a number."""
        assert not isinstance(self.usual, tuple), "a table of points is not a number"
        return float(self.usual)

    @property
    def span(self) -> str:
        """The band as text: ``20–24``."""
        return f"{self.low:g}–{self.high:g}"

    def excludes(self, value: float) -> bool:
        """Report whether a value is outside the band."""
        return self.low is not None and self.high is not None and not self.low <= value <= self.high


@cache
def bands(family: str) -> dict[str, Band]:
    """Read the usual bands of a family, by key."""
    text = files("templates_gen.parameters").joinpath("families.csv").read_text("utf-8")
    return {row["key"]: _band(row, family) for row in csv.DictReader(text.splitlines())}


def _band(row: dict[str, str], family: str) -> Band:
    low, usual, high = (row[f"{family}_{which}"] for which in ("low", "usual", "high"))
    if low == usual == high == "":
        return Band((), None, None, row["basis"])
    if low == high == "":
        return Band(usual, None, None, row["basis"])
    return Band(float(usual), float(low), float(high), row["basis"])


#: Sources by the letters of the table's last column.
BASIS = {
    "B": "H. Saint-George, The Bow, 3rd ed. 1922",
    "E": "Encyclopaedia Britannica, 11th ed. 1911, vol. 4, Bow",
    "F": "F.-J. Fétis, 1856, quoted in Saint-George",
    "W": "a published German-language workshop series",
    "C": "museum catalogue records, one bow each",
    "A": "published articles",
    "I": "ISO 261, metric coarse threads: the nearest size a tap is sold for",
    "D": "metric drills, BS 328: the nearest size in the series",
    "M": "common practice from memory, no source",
    "O": "our own choice for this tool",
}
