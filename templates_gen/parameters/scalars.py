"""Read derived dimensions as plain floats, as an outline, a solid or a sheet needs them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import is_dataclass
from functools import wraps
from typing import Any

import numpy as np

from templates_gen.geometry import Path


class Scalars:
    """A view of a record whose numbers are floats, also those of its methods and inner records.

    Paths, words and arrays with more than one number pass unchanged.
    """

    def __init__(self, record: Any) -> None:
        self._record = record

    def __getattr__(self, name: str) -> Any:
        found = scalar(getattr(self._record, name))
        setattr(self, name, found)  # a record never changes, so the next look-up costs nothing
        return found


def scalar(value: Any) -> Any:
    """Turn a number into a float; a record, a method or a tuple into one that gives floats."""
    if isinstance(value, np.floating | np.ndarray):
        return float(value) if np.ndim(value) == 0 else value
    if type(value) is tuple:
        return tuple(scalar(v) for v in value)
    if is_dataclass(value) and not isinstance(value, Path):
        return Scalars(value)
    return _plain(value) if callable(value) and not isinstance(value, type) else value


def _plain(method: Callable[..., Any]) -> Callable[..., Any]:
    @wraps(method)
    def call(*args: Any, **named: Any) -> Any:
        return scalar(method(*args, **named))

    return call
