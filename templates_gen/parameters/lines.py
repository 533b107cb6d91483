"""Find the line on which a TOML file states a key.

``tomllib`` gives no line numbers. So the text is cut into statements, each is parsed alone, and the
result shows which keys the statement names. The parser itself decides, so quoted keys, dotted keys,
inline tables and comments need no second grammar.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

KeyPath = tuple[str, ...]

#: A statement over many lines is parsed again with each that could end it; after so many
#: characters in all (three times the largest file), no more places are found.
_MOST_PARSED = 3_000_000
#: What runs on over lines, a list or a long text, ends with one of these and maybe a comment.
_COULD_END = re.compile(r"""(?:[\]}]|\"{3}|'{3})[ \t]*(?:#.*)?$""")


def lines_of(text: str) -> dict[KeyPath, int]:
    """Find the 1-based line of every key in a valid TOML text.

    Args:
        text: the whole file. Where a place is not certain, the key is left out.
    """
    places: dict[KeyPath, int] = {}
    for line, paths in _named(text):
        for path in paths:
            places.setdefault(path, line)
    return places


def stated_before(text: str) -> tuple[KeyPath, int, int] | None:
    """Find the section or key of a text's last statement, if an earlier one states it too.

    Args:
        text: the file's lines up to and with that statement; each statement alone is valid TOML.

    Returns:
        its path, the line of the first and of the last.
    """
    places: dict[KeyPath, int] = {}
    found = None
    for line, paths in _named(text):
        again = [path for path in paths if path in places]
        # Within a value that is a table (`{ value = …, tol = … }`), the value's own key is meant.
        path = again[-1][:2] if again else ()
        found = (path, places[path], line) if path else None
        for path in paths:
            places.setdefault(path, line)
    return found


def unfinished(text: str) -> int:
    """Find the line of the statement that the text does not finish."""
    line = 1
    for begins, statement in _statements(text):
        line = begins + statement.count("\n") + 1
    return line


def _named(text: str) -> Iterator[tuple[int, list[KeyPath]]]:
    """Yield the line of each statement, and the keys it names, outermost first."""
    header: KeyPath = ()
    for line, statement in _statements(text):
        table = tomllib.loads(statement)
        if statement.lstrip().startswith("["):
            header = _innermost(table)
            yield line, [header[: i + 1] for i in range(len(header))]
        else:
            yield line, [header + path for path in _paths(table)]


def _statements(text: str) -> Iterator[tuple[int, str]]:
    """Yield each statement with the line it begins on.

    A statement ends with its line unless a bracket or a long text is open; then its first lines
    alone are not valid TOML.
    """
    lines, parsed = [], 0
    for number, line in enumerate(text.replace("\r\n", "\n").split("\n"), start=1):
        lines.append(line)
        if len(lines) > 1 and not _COULD_END.search(line):
            continue
        gathered = "\n".join(lines)
        parsed += len(gathered)
        if parsed > _MOST_PARSED:
            return
        if _sound(gathered):
            yield number - len(lines) + 1, gathered
            lines = []


def _sound(text: str) -> bool:
    try:
        tomllib.loads(text)
    except (ValueError, RecursionError):
        return False
    return True


def _innermost(table: dict[str, Any]) -> KeyPath:
    """Find the path a header names."""
    path: KeyPath = ()
    inner: Any = table
    while inner:
        ((name, inner),) = inner.items()
        path += (name,)
        if isinstance(inner, list):
            inner = inner[0]
    return path


def _paths(table: dict[str, Any]) -> Iterator[KeyPath]:
    for name, value in table.items():
        yield (name,)
        if isinstance(value, dict):
            for path in _paths(value):
                yield (name, *path)
