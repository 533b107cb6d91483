"""Numbers as every format gets them: a nanometre at most, and no minus nought."""

from __future__ import annotations

from templates_gen.tolerances import BULGE_DECIMALS, COORDINATE_DECIMALS


def coordinate(value: float) -> float:
    """A coordinate (mm) rounded for a file."""
    return round(value, COORDINATE_DECIMALS) + 0.0


def bulge(value: float) -> float:
    """A bulge rounded for a file."""
    return round(value, BULGE_DECIMALS) + 0.0


def figure(value: float) -> str:
    """A coordinate as text, without trailing noughts."""
    text = f"{coordinate(value):.{COORDINATE_DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
