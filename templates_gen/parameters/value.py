"""Judge one value of a parameter file against its declaration."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from templates_gen.parameters.declare import Parameter
from templates_gen.parameters.number import as_float, number_problem
from templates_gen.parameters.point_rows import point_slips
from templates_gen.parameters.words import (
    nearest,
    plain,
    shown,
    span,
    text_trouble,
    with_unit,
    words_of,
)

_LONGEST_NOTE = 200


@dataclass(frozen=True)
class Trouble:
    """One thing wrong with a value.

    Args:
        problem: what is wrong, with the value found.
        cure: what to do, or "" to advise on the value itself.
        member: which member of the value's table is to blame, or "".
    """

    problem: str
    cure: str = ""
    member: str = ""


def members_of(raw: object) -> dict[str, Any]:
    """Return the table of a value; a bare value has only itself."""
    return raw if isinstance(raw, dict) else {"value": raw}


def troubles(
    parameter: Parameter, raw: object, members: Sequence[str] = ("value", "tol", "note")
) -> Iterator[Trouble]:
    """Find everything wrong with what a file states for a parameter.

    Args:
        parameter: its declaration, in the unit of the value.
        raw: what the file states.
        members: what the table of a value may hold.
    """
    stated = members_of(raw)
    for name in stated:
        if name not in members:
            like = nearest(name, members)
            guess = f"; the nearest known name is `{like}`" if like else ""
            cure = f"{{ {', '.join(members)} }} is all a value may hold{guess}"
            yield Trouble(f"{shown(name)} is unknown in its table", cure, name)
    if "unit" in members and stated.get("unit", parameter.unit) != parameter.unit:
        cure = 'a length may be in "mm" or "in"' if parameter.unit == "mm" else "leave the unit out"
        yield Trouble(f"{shown(stated['unit'])} is not its unit", cure, "unit")
        return
    if not stated:
        yield Trouble("its table is empty")
    if "value" in stated:
        member = "value" if isinstance(raw, dict) else ""
        for slip, cure in _value_slips(parameter, stated["value"]):
            yield Trouble(slip, cure, member)
    if "tol" in stated and (trouble := _tol_trouble(parameter, stated["tol"])):
        yield trouble
    if "note" in stated and (problem := text_trouble(stated["note"], _LONGEST_NOTE)):
        cure = f"state a text in quotes on one line, at most {_LONGEST_NOTE} characters"
        yield Trouble(f"note: {problem}", cure, "note")


def _value_slips(parameter: Parameter, value: object) -> Iterator[tuple[str, str]]:
    """Find what is wrong with the value itself, each with its cure, "" for the usual advice."""
    if parameter.points is not None:
        yield from point_slips(parameter.points, value)
        return
    judge = _figure_problem if parameter.choices is None else _choice_problem
    found = judge(parameter, value)
    if found is not None:
        yield found, ""


def _figure_problem(parameter: Parameter, value: object) -> str | None:
    problem = number_problem(value)
    if problem is not None:
        return problem
    number = as_float(value)
    found = with_unit(shown(value), parameter.unit)
    if not parameter.low <= number <= parameter.high:
        possible = span(parameter.low, parameter.high, parameter.unit)
        return f"{found} is outside the possible range of {possible}"
    if parameter.whole and number != math.floor(number):
        return f"{found} is not a whole number"
    return None


def _choice_problem(parameter: Parameter, value: object) -> str | None:
    words = words_of(parameter)
    if not isinstance(value, str):
        return f"{shown(value)} is not a word in quotes"
    if value in words:
        return None
    like = nearest(value, words)
    guess = f', the nearest is "{like}"' if like else ""
    return f"{shown(value)} is not one of its words{guess}"


def _without_tol(parameter: Parameter) -> str:
    """Say what the parameter is, if that has no tolerance."""
    if parameter.points is not None:
        return "a table of points"
    if parameter.choices is not None:
        return "a choice of words"
    return "a count" if parameter.whole else ""


def _tol_trouble(parameter: Parameter, tol: object) -> Trouble | None:
    if kind := _without_tol(parameter):
        return Trouble(f"tol = {shown(tol)} is stated, but {kind} has none", "leave tol out", "tol")
    usual = with_unit(plain(parameter.tol), parameter.unit)
    cure = f"state a ± of 0 or more; without one it is {usual}"
    problem = number_problem(tol)
    if problem is not None:
        return Trouble(f"tol: {problem}", cure, "tol")
    if as_float(tol) < 0:
        return Trouble(f"tol = {shown(tol)} is negative", cure, "tol")
    return None


def too_wide(parameter: Parameter, value: float, tol: float) -> Trouble | None:
    """Report a stated tolerance that could halve the value; the declared one always passes."""
    if tol < abs(value) / 2 or tol <= parameter.tol:
        return None
    wide, of, usual = (with_unit(plain(x), parameter.unit) for x in (tol, value, parameter.tol))
    problem = f"tol = {wide} is too much for a value of {of}"
    return Trouble(problem, f"state less than half the value; without one it is {usual}", "tol")
