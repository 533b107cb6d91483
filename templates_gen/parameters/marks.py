"""Dimensions a table of points must agree with, as sums of parameters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Mark:
    """A dimension a table of points must agree with, also after scaling.

    Positions and values are sums of parameters, ``stick.length - head.face_length``; "0" is zero.

    Args:
        x: a position along the table, or "".
        y: the table's value there; without a position, its greatest value; or "".
        exact: whether the table must have this value; else its values are only in proportion to it.
    """

    x: str = ""
    y: str = ""
    exact: bool = True


def sum_keys(total: str) -> tuple[str, ...]:
    """List the keys of the parameters in a sum."""
    return tuple(word for word in total.split() if word not in ("+", "-", "0"))


def sum_value(total: str, values: Mapping[str, Any]) -> float:
    """Calculate a sum of parameters; an empty one is 0.

    Args:
        total: keys with ``+`` and ``-`` between them.
        values: numbers by key.
    """
    result, sign = 0.0, 1.0
    for word in total.split():
        if word in ("+", "-"):
            sign = 1.0 if word == "+" else -1.0
        elif word != "0":
            result += sign * float(values[word])
    return result
