"""What bows are made of: densities and moduli, each with who says so (``materials.csv``).

A table tells of a kind of wood. The blank in hand, weighed and tapped, tells of itself: see
``wood``.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True)
class Band:
    """A figure with the least and the most that is met with."""

    low: float
    usual: float
    high: float


@dataclass(frozen=True)
class Material:
    """One material.

    Args:
        name: ``pernambuco``, ``sterling silver``.
        density: kg/m³; wood at 12 % moisture.
        modulus: of a wood along the grain (GPa), or None where it is not needed.
        basis: who says so.
    """

    name: str
    density: Band
    modulus: Band | None
    basis: str


@cache
def materials() -> dict[str, Material]:
    """Every material by its name."""
    text = files("templates_gen.mechanics").joinpath("materials.csv").read_text("utf-8")
    rows = csv.DictReader(text.splitlines())
    return {row["material"]: _material(row) for row in rows}


def _material(row: dict[str, str]) -> Material:
    density, modulus = (_band(row, what) for what in ("density", "modulus"))
    if density is None:
        raise ValueError(f"{row['material']} has no density")
    return Material(row["material"], density, modulus, row["basis"])


def _band(row: dict[str, str], what: str) -> Band | None:
    figures = [row[f"{what}{which}"] for which in ("_low", "", "_high")]
    return Band(*map(float, figures)) if all(figures) else None
