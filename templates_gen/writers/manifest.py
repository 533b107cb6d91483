"""What was drawn, from what, and what was checked."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def manifest(facts: Mapping[str, Any]) -> bytes:
    """Plain facts as JSON, in one order whatever order they came in, on whatever machine."""
    text = json.dumps(_plain(facts), indent=1, sort_keys=True, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")


def _plain(fact: Any) -> Any:
    """A fact without a number's last figures, in which one processor differs from the next."""
    if isinstance(fact, float):
        return round(fact, 9) + 0.0
    if isinstance(fact, Mapping):
        return {name: _plain(under) for name, under in fact.items()}
    return [_plain(each) for each in fact] if isinstance(fact, list) else fact
