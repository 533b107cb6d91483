"""What was drawn, from what, and what was checked."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any


def manifest(facts: Mapping[str, Any]) -> bytes:
    """Plain facts as JSON, in one order whatever order they came in."""
    text = json.dumps(facts, indent=1, sort_keys=True, ensure_ascii=False, allow_nan=False)
    return (text + "\n").encode("utf-8")
