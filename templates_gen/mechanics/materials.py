"""Densities and moduli of materials, each with its source (``materials.csv``).

The table gives ranges for kinds of wood; measure the blank in hand.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files


@dataclass(frozen=True)
class Band:
    """A usual value with its lower and upper limit."""

    low: float
    usual: float
    high: float


@dataclass(frozen=True)
class Material:
    """One material.

    Args:
        name: ``pernambuco``, ``sterling silver``.
        density: kg/m³; of wood at 12 % moisture.
        modulus: of wood along the grain (GPa), None where it is not needed.
        basis: the source.
    """

    name: str
    density: Band
    modulus: Band | None
    basis: str


@cache
def materials() -> dict[str, Material]:
    """Read the table of materials, by name."""
    text = files("templates_gen.mechanics").joinpath("materials.csv").read_text("utf-8")
    rows = csv.DictReader(text.splitlines())
    return {row["material"]: _material(row) for row in rows}


def _material(row: dict[str, str]) -> Material:
    density, modulus = (_band(row, name) for name in ("density", "modulus"))
    if density is None:
        raise ValueError(f"{row['material']} has no density")
    return Material(row["material"], density, modulus, row["basis"])


def _band(row: dict[str, str], name: str) -> Band | None:
    values = [row[f"{name}{which}"] for which in ("_low", "", "_high")]
    return Band(*map(float, values)) if all(values) else None
