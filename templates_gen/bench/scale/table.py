"""Format what `scale` did, as text 80 columns wide and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby
from typing import Any

from templates_gen.bench.scale.law import AS_IT_WAS
from templates_gen.bench.scale.scaling import Change, Scaled
from templates_gen.parameters.words import format_value, point_count, wrapped


def table(scaled: Scaled) -> str:
    """Return old value, new value and reason of every change; then what stays, and why."""
    lines = [*moved(scaled)]
    stays = sorted((c for c in scaled.changes if not c.changed), key=lambda c: c.why)
    for why, group in groupby(stays, key=lambda c: c.why):
        keys = [c.key for c in group]
        which = f": {len(keys)} values" if why == AS_IT_WAS else f" ({why}): {', '.join(keys)}"
        lines.append(wrapped("  ", f"unchanged{which}"))
    return "\n".join(lines)


def moved(scaled: Scaled) -> Iterator[str]:
    """Yield old value, new value and reason of every change."""
    found = [c for c in scaled.changes if c.changed]
    yield f"  {'':<29} {'was':>7}   {'is':<7} why" if found else "  nothing changes"
    for change in found:
        yield _row(change)
    if any(c.own for c in found):
        said = "your own value: it keeps its difference or ratio to the usual value"
        yield wrapped("  * ", said)


def unlisted_warnings(scaled: Scaled, warnings: Iterable[str]) -> list[str]:
    """Return the warnings but those on values that the table already calls unusual."""
    listed = [f": {c.key}: " for c in scaled.changes if c.beyond]
    return [w for w in warnings if not any(key in w for key in listed)]


def as_data(scaled: Scaled) -> dict[str, Any]:
    """Return the same as plain data, numbers unrounded."""
    return {
        "family": scaled.pattern.family.name,
        "name": scaled.pattern.identity.name,
        "ok": not scaled.failing,
        "changes": changes(scaled),
        "stays": [_plain(c) for c in scaled.changes if not c.changed],
        "failing": [r.rule.id for r in scaled.failing],
    }


def changes(scaled: Scaled) -> list[dict[str, Any]]:
    """Return the values that changed, as plain data."""
    return [_plain(c) for c in scaled.changes if c.changed]


def _plain(change: Change) -> dict[str, Any]:
    return {
        "key": change.key,
        "old": _json(change.old),
        "new": _json(change.new),
        "why": change.description,
        "own": change.own,
    }


def _json(value: Any) -> float | str | list[list[float]]:
    if isinstance(value, tuple):
        return [[float(x), float(y)] for x, y in value]
    return str(value) if isinstance(value, str) else float(value)


def _row(change: Change) -> str:
    old, new = (_shown(v) for v in (change.old, change.new))
    line = f"  {change.key:<29} {old:>7} → {new:<7} "
    why = f"{change.description} *" if change.own else change.description
    return wrapped(line, why, len(line))


def _shown(value: Any) -> str:
    return point_count(value) if isinstance(value, tuple) else format_value(value)
