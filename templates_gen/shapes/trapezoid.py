"""Trapezoids: strips and pockets with a linear taper."""

from __future__ import annotations

from templates_gen.geometry import Path, polygon


def trapezoid(start: float, end: float, width_start: float, width_end: float) -> Path:
    """Draw a trapezoid along x, symmetric about y = 0.

    Args:
        start, end: x of its ends (mm).
        width_start, width_end: widths at the ends (mm).
    """
    a, b = width_start / 2, width_end / 2
    return polygon([(start, -a), (end, -b), (end, b), (start, a)])
