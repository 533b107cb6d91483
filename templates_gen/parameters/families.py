"""The five families and their usual bands, read from the packaged table ``families.csv``."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from templates_gen.parameters.declare import Points


@dataclass(frozen=True)
class Family:
    """A kind of bow.

    Args:
        name: as in the file, ``bass-french``.
        instrument: as on a sheet, ``double bass, overhand``.
        bass: whether the sturdier limits of the bass bow apply.
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
    """What is usual for one parameter in one family.

    A choice has only its usual word; a table of points is usually not stated.
    """

    usual: float | str | Points
    low: float | None
    high: float | None
    basis: str

    @property
    def figure(self) -> float:
        """The usual value of what is a number."""
        assert not isinstance(self.usual, tuple), "a table of points is no number"
        return float(self.usual)

    @property
    def span(self) -> str:
        """What is usual, in few words: ``20–24``."""
        return f"{self.low:g}–{self.high:g}"

    def left_by(self, value: float) -> bool:
        """Whether a value is less or more than what is usual."""
        return self.low is not None and self.high is not None and not self.low <= value <= self.high


@cache
def bands(family: str) -> dict[str, Band]:
    """The usual band of every parameter, by key."""
    text = files("templates_gen.parameters").joinpath("families.csv").read_text("utf-8")
    return {row["key"]: _band(row, family) for row in csv.DictReader(text.splitlines())}


def _band(row: dict[str, str], family: str) -> Band:
    low, usual, high = (row[f"{family}_{which}"] for which in ("low", "usual", "high"))
    if low == usual == high == "":
        return Band((), None, None, row["basis"])
    if low == high == "":
        return Band(usual, None, None, row["basis"])
    return Band(float(usual), float(low), float(high), row["basis"])


#: What the letters in the table's last column stand for.
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
