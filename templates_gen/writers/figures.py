"""Round and format numbers for files: coordinates to a nanometre, no ``-0``."""

from __future__ import annotations

from templates_gen.tolerances import BULGE_DECIMALS, COORDINATE_DECIMALS


def coordinate(value: float) -> float:
    """Round a coordinate (mm) for a file."""
    return round(value, COORDINATE_DECIMALS) + 0.0


def bulge(value: float) -> float:
    """Round a bulge for a file."""
    return round(value, BULGE_DECIMALS) + 0.0


def figure(value: float) -> str:
    """Format a coordinate without trailing zeros."""
    text = f"{coordinate(value):.{COORDINATE_DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
