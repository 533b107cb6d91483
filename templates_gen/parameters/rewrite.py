"""Change values in the text of a parameter file; comments, notes and order stay."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, MutableMapping
from typing import Any

from templates_gen.errors import RewriteError
from templates_gen.parameters.declare import Points
from templates_gen.parameters.families import bands
from templates_gen.parameters.lines import lines_of
from templates_gen.parameters.pattern import Pattern
from templates_gen.parameters.starter import starter
from templates_gen.parameters.stated import value_in
from templates_gen.parameters.value import members_of
from templates_gen.parameters.words import plain

#: What a value, or a member of it, may be set to.
Bare = float | str | Points
#: A value, or those of its members to be set: ``{"value": 9.3, "tol": 0.02, "note": "gauged"}``.
New = Bare | Mapping[str, Bare]
#: A list longer than this is written a row a line.
_LONGEST_LIST = 80


def set_values(text: str, changes: Mapping[str, New]) -> str:
    """Change some values in a parameter file's text; comments, notes and order stay.

    A key or a section the text lacks is added.

    Args:
        text: a parameter file without faults.
        changes: values by key (``ferrule.outer_width``, ``pattern.name``, ``based_on``), or
            members of a value, of which those not named stay.

    Raises:
        RewriteError: the text cannot take a change.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    neat = {key: _neat(value) for key, value in changes.items()}
    crlf = "\r\n" in text
    try:
        document = tomlkit.parse(_with_top_keys(text.replace("\r\n", "\n"), neat))
        for key, value in neat.items():
            _set(document, key, value)
        changed = tomlkit.dumps(document)
    except (TOMLKitError, ValueError, TypeError, AttributeError) as e:
        raise RewriteError(f"the parameter file cannot take the new values: {e}") from e
    _confirm(text, neat, changed)
    return changed.replace("\n", "\r\n") if crlf else changed


def file_text(p: Pattern) -> str:
    """Return the text of a parameter file that reads back as a pattern, its comments kept.

    Args:
        p: the pattern; without a text of its own it gets the starter's of its family.

    Raises:
        RewriteError: the text does not read back as the pattern.
    """
    i, usual = p.identity, bands(p.family.name)
    text = p.text or starter(i.family.name, p.schema, i.name)
    table = tomllib.loads(text)
    base = table.get("based_on")
    heading = {"revision": "A", "family": base} | table.get("pattern", {})
    wanted = {"name": i.name, "revision": i.revision, "family": i.family.name}
    changes: dict[str, New] = {
        f"pattern.{name}": value for name, value in wanted.items() if heading.get(name) != value
    }
    if base not in (None, i.family.name):
        changes["based_on"] = i.family.name
    for key, value in p:
        q = p.schema.parameters[key]
        stated = {"value": () if q.points else base and usual[key].usual}
        stated |= members_of(table.get(q.section, {}).get(q.name, stated))
        if stated["value"] is None or value_in(q, stated["value"]) != value:
            changes[key] = value
        members = {"value": value} | _of(p.tolerances, key, "tol") | _of(p.notes, key, "note")
        if any(stated.get(name) != each for name, each in members.items() if name != "value"):
            changes[key] = members
    return set_values(text, changes)


def _of(values: Mapping[str, Bare], key: str, member: str) -> dict[str, Bare]:
    """Return the member of a value's table, if there is one."""
    return {member: values[key]} if key in values else {}


def _neat(value: New) -> Any:
    """Round a value to the six decimals a file shows; a whole number has none."""
    if isinstance(value, Mapping):
        return {member: _neat(each) for member, each in value.items()}
    if isinstance(value, str):
        return str(value)
    if isinstance(value, tuple):
        return [[_neat(x), _neat(y)] for x, y in value]
    number = float(plain(value))
    return int(number) if number.is_integer() else number


def _with_top_keys(text: str, changes: Mapping[str, Any]) -> str:
    """Add the keys that belong to no section right under the unit.

    Left to tomlkit they would come between the first section and its heading comment.
    """
    import tomlkit

    known = tomllib.loads(text)
    new = [key for key in changes if "." not in key and key not in known]
    lines = text.split("\n")
    under = lines_of(text).get(("units",), 0)
    lines[under:under] = [f"{key} = {tomlkit.item(changes[key]).as_string()}" for key in new]
    return "\n".join(lines)


def _set(document: Any, key: str, value: Any) -> None:
    import tomlkit

    section, _, name = key.rpartition(".")
    if section and section not in document:
        document.append(section, tomlkit.table())
    table = document[section] if section else document
    old = table.get(name)
    if isinstance(old, MutableMapping):
        for member, each in _members(value).items():
            _put(old, member, each)
        return
    if isinstance(value, dict):
        whole = tomlkit.inline_table()
        members = ({} if old is None else {"value": old}) | value
        whole.update({member: _item(each) for member, each in members.items()})
        _put(table, name, whole)
    else:
        _put(table, name, value)


def _members(value: Any) -> dict[str, Any]:
    return value if isinstance(value, dict) else {"value": value}


def _put(table: Any, name: str, value: Any) -> None:
    from tomlkit.items import Array

    old = table.get(name)
    # a list on one line holds no comments, and might become too long for it
    if isinstance(value, list) and isinstance(old, Array) and "\n" in old.as_string():
        _fill(old, value)
        return
    new = _item(value)
    if name in table:
        _keep_column(old, new)
        table[name] = new
    else:
        _add(table, name, new)


def _item(value: Any) -> Any:
    """Make a value tomlkit's; a long list gets a line for each row."""
    import tomlkit

    new = tomlkit.item(value)
    if isinstance(value, list) and len(new.as_string()) > _LONGEST_LIST:
        new.multiline(True)
    return new


def _fill(rows: Any, new: list[list[float]]) -> None:
    """Put new points into a list row by row, so that the comment on each row stays."""
    del rows[len(new) :]
    for row, point in zip(rows, new, strict=False):
        for i, number in enumerate(point):
            if row[i] != number:
                row[i] = number
    for point in new[len(rows) :]:
        rows.append(point)


def _keep_column(old: Any, new: Any) -> None:
    """Keep the comment behind a value in its column, at least two spaces away."""
    gap = old.trivia.comment_ws
    if old.trivia.comment and gap.strip(" ") == "":
        spare = len(old.as_string()) - len(new.as_string())
        old.trivia.comment_ws = " " * max(len(gap) + spare, min(len(gap), 2))


def _add(table: Any, name: str, new: Any) -> None:
    """Add a key after the last one, before the blank line and the next section's heading."""
    from tomlkit.items import Table, Whitespace

    if not isinstance(table, Table):
        table[name] = new
        return
    body = table.value.body
    end = len(body)
    while end and body[end - 1][0] is None:
        end -= 1
    while end < len(body) and not isinstance(body[end][1], Whitespace):
        end += 1  # a comment right below the last key belongs to that key
    following = body[end:]
    del body[end:]
    table[name] = new
    body.extend(following)


def _confirm(text: str, changes: Mapping[str, Any], changed: str) -> None:
    """Read the result with another parser: it has the changes, and nothing else differs."""
    expected = tomllib.loads(text)
    for key, value in changes.items():
        section, _, name = key.rpartition(".")
        table = expected.setdefault(section, {}) if section else expected
        old = table.get(name)
        if isinstance(old, dict):
            old.update(_members(value))
        elif isinstance(value, dict):
            table[name] = ({} if old is None else {"value": old}) | value
        else:
            table[name] = value
    if tomllib.loads(changed) != expected:
        raise RewriteError("the rewritten parameter file did not read back as intended")
