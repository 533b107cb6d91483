"""Record which parameters a function reads."""

from __future__ import annotations

import dataclasses
from collections.abc import Hashable, Mapping
from functools import cache
from typing import Any, cast

import numpy as np

from templates_gen.parameters.declare import section_of


def without_zero_division(value: Any) -> Any:
    """Turn a number into numpy's, whose division by zero raises nothing."""
    if isinstance(value, tuple):
        return tuple((np.float64(x), np.float64(y)) for x, y in value)
    return np.float64(value) if isinstance(value, float) else value


class TrackingRecord:
    """A record that adds the key of every field that is read to a set."""

    def __init__(self, record: Any, seen: set[str]) -> None:
        self._record = record
        self._seen = seen
        self._keys = _keys(cast(Hashable, type(record)))

    def __getattr__(self, name: str) -> Any:
        if name in self._keys:
            self._seen.add(self._keys[name])
        return getattr(self._record, name)


@cache
def _keys(kind: Any) -> Mapping[str, str]:
    """Map each field of a record to its key."""
    prefix = section_of(kind)
    return {f.name: f"{prefix}.{f.name}" for f in dataclasses.fields(kind)}
