"""Validate numbers in files."""

from __future__ import annotations

import math

from templates_gen.parameters.words import shown


def number_problem(value: object) -> str | None:
    """Explain why a value is not a valid number, or return None if it is one."""
    if isinstance(value, str):
        return f"{shown(value)} is a text, not a number"
    if isinstance(value, bool) or not isinstance(value, int | float):
        return f"{shown(value)} is not a number"
    if not math.isfinite(as_float(value)):
        return f"{shown(value)} is not a finite number"
    return None


def as_float(value: object) -> float:
    """Convert a number to a float; a too large whole number becomes infinite."""
    try:
        return float(value)  # type: ignore[arg-type]
    except OverflowError:
        return math.inf
