"""Parse and validate the settings of `scale`: ``KEY=VALUE``, judged as in a parameter file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from templates_gen.errors import Fault, raise_faults
from templates_gen.parameters import Parameter, Schema, clipped, nearest, plain, troubles, value_in
from templates_gen.parameters.words import allowed


def parsed(words: Iterable[str]) -> dict[str, float | str]:
    """Parse the settings of the command line.

    Args:
        words: each ``KEY=VALUE``.

    Raises:
        InputError: a word is not a setting, or a key is set twice.
    """
    found: dict[str, float | str] = {}
    faults = []
    for word in words:
        key, sign, text = (part.strip() for part in word.partition("="))
        if not sign or not key or not text:
            problem = f'"{clipped(word)}" is not a setting'
            faults.append(_fault("", problem, "write it as KEY=VALUE, `ferrule.outer_width=23`"))
        elif key in found:
            faults.append(_fault(clipped(key), "is set twice", "set it once"))
        else:
            found[key] = _value(text)
    raise_faults(faults)
    return found


def settings_in(schema: Schema, settings: Mapping[str, float | str]) -> dict[str, Any]:
    """Return settings as a pattern holds them.

    Raises:
        InputError: every invalid setting.
    """
    faults = []
    for key, raw in settings.items():
        parameter = schema.parameters.get(key)
        if parameter is None:
            like = nearest(key, schema.parameters)
            cure = f"did you mean {like}?" if like else "`explain` lists all parameters"
            faults.append(_fault(clipped(key), "is not a parameter", cure))
            continue
        if parameter.points is not None:
            cure = "state its points in the parameter file"
            faults.append(_fault(key, "is a table of points", cure))
            continue
        cure = _with_a_point(parameter, raw) or f"state {allowed(parameter)}"
        faults += [_fault(key, t.problem, t.cure or cure) for t in troubles(parameter, raw)]
    raise_faults(faults)
    return {key: value_in(schema.parameters[key], raw) for key, raw in settings.items()}


def _with_a_point(parameter: Parameter, raw: float | str) -> str:
    """Return how to write a number that has a decimal comma; "" for anything else."""
    if not parameter.numeric or not isinstance(raw, str) or raw.count(",") != 1:
        return ""
    try:
        return f"write {plain(float(raw.replace(',', '.')))}"
    except ValueError:
        return ""


def _value(text: str) -> float | str:
    """Return a number, or a word without its quotes."""
    try:
        return float(text)
    except ValueError:
        return text.strip("\"'")


def _fault(key: str, problem: str, cure: str) -> Fault:
    return Fault("--set", None, key, problem, cure)
