"""Judge a table of measured points, row by row, against its declaration."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.parameters.declare import MOST_POINTS, PointLimits
from templates_gen.parameters.number import as_float, number_problem
from templates_gen.parameters.words import clipped, plain, shown, span, with_unit

#: With more bad rows than this the whole table is wrong; listing each helps nobody.
_MOST_LISTED = 20
#: What is wrong, and the cure ("" for the advice on the whole table).
Slip = tuple[str, str]


def point_slips(limits: PointLimits, value: object) -> Iterator[Slip]:
    """Find everything wrong with a table of points.

    Args:
        limits: what the table may hold.
        value: what the file states.
    """
    if not isinstance(value, list | tuple):
        kind = "a text, not" if isinstance(value, str) else "not"
        yield f"{shown(value)} is {kind} a list of points", ""
        return
    count = len(value)
    if 0 < count < limits.least:
        yield f"it has {_rows(count)}, at least {limits.least} are needed", ""
    if count > MOST_POINTS:
        yield f"it has {_rows(count)}, at most {MOST_POINTS} can be read", "leave some of them out"
    slips = list(_row_slips(limits, value))
    if limits.rising:
        slips += _order_slips(value)
    # the sort is stable, so the faults of one row stay together
    slips.sort(key=lambda slip: slip[0])
    yield from (slip[1:] for slip in slips[:_MOST_LISTED])
    if len(slips) > _MOST_LISTED:
        yield f"{len(slips) - _MOST_LISTED} more faults in its rows", ""


def _rows(count: int) -> str:
    return "1 row" if count == 1 else f"{count} rows"


def _row_slips(
    limits: PointLimits, rows: list[object] | tuple[object, ...]
) -> Iterator[tuple[int, str, str]]:
    """Find rows that are not two possible numbers; each fault comes with its row's number."""
    ranges = (("x", limits.x_low, limits.x_high), ("y", limits.y_low, limits.y_high))
    for at, row in enumerate(rows, start=1):
        pair = _pair(row)
        if pair is None:
            yield at, f"{_named(at, row)} is not two numbers [x, y]", ""
            continue
        for (axis, low, high), value in zip(ranges, pair, strict=True):
            problem = number_problem(value)
            if problem is not None:
                yield at, f"{_named(at, row)}: {axis}: {problem}", ""
            elif not low <= as_float(value) <= high:
                found, possible = with_unit(shown(value), "mm"), span(low, high, "mm")
                words = f"{axis} = {found} is outside the possible range of {possible}"
                yield at, f"{_named(at, row)}: {words}", ""


def _order_slips(rows: list[object] | tuple[object, ...]) -> Iterator[tuple[int, str, str]]:
    """Find rows that are not beyond the row before, or repeat the place of another."""
    first_at: dict[float, int] = {}
    before: tuple[int, float] | None = None
    for at, row in enumerate(rows, start=1):
        pair = _pair(row)
        if pair is None or number_problem(pair[0]) is not None:
            continue
        x = as_float(pair[0])
        if x in first_at:
            place = with_unit(plain(x), "mm")
            yield at, f"rows {first_at[x]} and {at} are both at x = {place}", "take one of them out"
        elif before is not None and x < before[1]:
            earlier = _named(before[0], rows[before[0] - 1])
            problem = f"{_named(at, row)} does not lie beyond {earlier}"
            yield at, problem, "put the rows in the order of x"
        first_at.setdefault(x, at)
        before = (at, x)


def _pair(row: object) -> tuple[object, object] | None:
    if isinstance(row, list | tuple) and len(row) == 2:
        return row[0], row[1]
    return None


def _named(at: int, row: object) -> str:
    """Name a row for a message: ``row 3, [110, "x"]``."""
    if not isinstance(row, list | tuple):
        return f"row {at}, {shown(row)}"
    return f"row {at}, {clipped('[' + ', '.join(shown(v) for v in row) + ']')}"
