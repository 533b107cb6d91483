"""A strip or pocket that grows evenly wider along its length."""

from __future__ import annotations

from templates_gen.geometry import Path, polygon


def trapezoid(start: float, end: float, width_start: float, width_end: float) -> Path:
    """Along x from ``start`` to ``end``, its widths (mm) across y, middle on y = 0."""
    a, b = width_start / 2, width_end / 2
    return polygon([(start, -a), (end, -b), (end, b), (start, a)])
