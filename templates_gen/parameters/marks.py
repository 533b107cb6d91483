"""Numbers a table of points must agree with, told as sums of parameters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Mark:
    """A number that a table of points agrees with, and agrees with still when it has changed.

    Places and heights are sums of parameters, ``stick.length - head.face_length``; "0" is nought.

    Args:
        x: a place along the table, or "".
        y: what the table says there; without a place, the greatest it says anywhere; or "".
        said: whether it is to say so; else y is only what its heights are in proportion to.
    """

    x: str = ""
    y: str = ""
    said: bool = True


def sum_keys(total: str) -> tuple[str, ...]:
    """The parameters a sum is made of."""
    return tuple(word for word in total.split() if word not in ("+", "-", "0"))


def sum_value(total: str, values: Mapping[str, Any]) -> float:
    """What a sum comes to; an empty one to nought.

    Args:
        total: parameters with ``+`` and ``-`` between them.
        values: every number by key.
    """
    found, sign = 0.0, 1.0
    for word in total.split():
        if word in ("+", "-"):
            sign = 1.0 if word == "+" else -1.0
        elif word != "0":
            found += sign * float(values[word])
    return found
