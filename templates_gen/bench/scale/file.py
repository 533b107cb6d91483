"""Write the parameter file of a scaled pattern: the maker's own text with the new values."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any

from templates_gen.bench.scale.comments import refreshed
from templates_gen.bench.scale.scaling import Scaled
from templates_gen.errors import EnvironmentFault, Fault, InputError
from templates_gen.parameters import FAMILIES, Pattern, bands
from templates_gen.parameters.rewrite import Bare, New, set_values


def write(scaled: Scaled, out: str, more: Mapping[str, New] = MappingProxyType({})) -> None:
    """Write the file; an existing file is never overwritten.

    Args:
        scaled: what to write; its source must have been read from a file.
        out: the file to write.
        more: further values to state, by key.

    Raises:
        InputError: the file exists.
        EnvironmentFault: the file cannot be written.
    """
    target = Path(out)
    text = text_of(scaled, target.parent, more)
    try:
        with target.open("x", encoding="utf-8", newline="") as stream:
            stream.write(text)
    except FileExistsError:
        fault = Fault(out, None, "", "already exists", "name another file with -o")
        raise InputError([fault]) from None
    except OSError as e:
        raise EnvironmentFault(f"{out}: cannot be written ({e.strerror})") from e


def text_of(scaled: Scaled, folder: Path, more: Mapping[str, New] = MappingProxyType({})) -> str:
    """Return the source's text with its comments, and with the values of the scaled pattern.

    A pattern based on another file becomes one based on the family's starter that states all that
    differs, unless it stays in its family and in the folder of the file it is based on.

    Args:
        scaled: the pattern before and after.
        folder: where the file is to be written.
        more: further values to state, by key.
    """
    source, made = scaled.source, scaled.pattern
    file = Path(source.identity.file)
    text = file.read_bytes().decode("utf-8-sig")
    table = tomllib.loads(text)
    base = table.get("based_on")
    carried = made.family != source.family
    moved_away = base is not None and base not in FAMILIES and not _same(file.parent, folder)
    flat = base is not None and (carried or moved_away)
    keys = _differing(made, table) if flat else [c.key for c in scaled.changes if c.changed]
    changes: dict[str, New] = {key: _entry(made, key, _stated(table, key), flat) for key in keys}
    if flat:
        changes["based_on"] = made.family.name
    if flat or carried:
        changes["pattern.family"] = made.family.name
    if carried:
        text = refreshed(text, source.family.name, made.family.name, source.schema)
    if made.identity.name != source.identity.name:
        changes["pattern.name"] = made.identity.name
    return set_values(text, {**changes, **more})


def _same(one: Path, other: Path) -> bool:
    return one.resolve() == other.resolve()


def _differing(made: Pattern, table: dict[str, Any]) -> list[str]:
    """Return the keys that a text based on the family's starter must state."""
    usual = bands(made.family.name)
    return [
        key
        for key, value in made
        if value != usual[key].usual
        or key in made.tolerances
        or key in made.notes
        or _stated(table, key) is not None
    ]


def _entry(made: Pattern, key: str, own: Any, flat: bool) -> New:
    """Return a value to state, with its note, and with its ± if that came from another file."""
    members: dict[str, Bare] = {"value": made.values[key]}
    stated = own if isinstance(own, dict) else {}
    if flat and key in made.tolerances and "tol" not in stated:
        members["tol"] = made.tolerances[key]
    if key in made.notes and made.notes[key] != stated.get("note"):
        members["note"] = made.notes[key]
    return members if len(members) > 1 else made.values[key]


def _stated(table: dict[str, Any], key: str) -> Any:
    section, _, name = key.partition(".")
    return table.get(section, {}).get(name)
