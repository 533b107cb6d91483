"""Write the manifest: files, parameters and checks as JSON."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def manifest(facts: Mapping[str, Any]) -> bytes:
    """Write facts as JSON with sorted keys; the same bytes on every machine."""
    text = json.dumps(_plain(facts), indent=1, sort_keys=True, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")


def _plain(fact: Any) -> Any:
    """Round all numbers to 9 decimals: processors differ in the last digits."""
    if isinstance(fact, float):
        return round(fact, 9) + 0.0
    if isinstance(fact, Mapping):
        return {name: _plain(under) for name, under in fact.items()}
    return [_plain(each) for each in fact] if isinstance(fact, list) else fact
