"""Load a TOML file: its bytes, its text, its tables, and the line of each key."""

from __future__ import annotations

import os
import stat
import tomllib
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

from templates_gen.errors import Fault, InputError
from templates_gen.parameters.lines import KeyPath, lines_of
from templates_gen.parameters.slips import broken

_LARGEST = 1_000_000
#: The parser's memory grows with the square of a dotted key's length.
_LONGEST_LINE = 1_000
#: The numbers of `{ value = [[x, y], …] }` in a section.
_DEEPEST = 5


@dataclass(frozen=True)
class Source:
    """One file as it was loaded.

    Args:
        file: its name as the maker gave it.
        path: where it is.
        text: the whole text.
        table: the parsed TOML.
    """

    file: str
    path: Path
    text: str = field(repr=False)
    table: dict[str, Any] = field(repr=False)

    @cached_property
    def _lines(self) -> dict[KeyPath, int]:
        return lines_of(self.text)

    def place(self, *path: str) -> tuple[str, int | None]:
        """Find file and line of a key; the line is None where it is not certain."""
        return self.file, self._lines.get(path)


def load(path: str | os.PathLike[str], file: str | None = None) -> Source:
    """Load a TOML file, whatever its name turns out to be.

    Args:
        path: where it is.
        file: what messages call it; its path if None.

    Raises:
        InputError: it cannot be read as TOML text; one fault says why.
    """
    if file is None:
        file = os.fsencode(path).decode("utf-8", "backslashreplace") or "."
    path = Path(path)
    return source_of(_text(_bytes(path, file), file), path, file)


def source_of(text: str, path: Path, file: str) -> Source:
    """Parse the text of a parameter file.

    Args:
        text: the whole text.
        path: where it is.
        file: what messages call it.

    Raises:
        InputError: it is not TOML; one fault says why.
    """
    return Source(file, path, text, _table(text, file))


def _refuse(file: str, problem: str, cure: str, line: int | None = None) -> InputError:
    return InputError([Fault(file, line, "", problem, cure)])


def _bytes(path: Path, file: str) -> bytes:
    try:
        found = path.stat()
        if stat.S_ISDIR(found.st_mode):
            raise _refuse(file, "it is a folder", "name a parameter file in it")
        # a named pipe or a device could block for ever
        if not stat.S_ISREG(found.st_mode):
            raise _refuse(file, "it is not an ordinary file", "name a parameter file")
        with path.open("rb") as stream:
            data = stream.read(_LARGEST + 1)
    except FileNotFoundError:
        raise _refuse(file, "there is no such file", "check its name and folder") from None
    except (OSError, ValueError) as e:
        why = e.strerror if isinstance(e, OSError) and e.strerror else str(e)
        cure = "check its name and that you may read it"
        raise _refuse(file, f"it cannot be read ({why.lower()})", cure) from None
    if len(data) > _LARGEST:
        problem = f"with {max(len(data), found.st_size) / 1e6:.1f} MB it is too large, 1 MB is read"
        raise _refuse(file, problem, "name a parameter file")
    return data


def _text(data: bytes, file: str) -> str:
    zero = data.find(b"\0")
    if zero >= 0:
        problem = "it holds NUL bytes, so it is not plain text"
        raise _refuse(file, problem, "save it as text in UTF-8", data.count(b"\n", 0, zero) + 1)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as e:
        # the error counts from after a byte order mark, so count in the bytes it holds
        line = e.object.count(b"\n", 0, e.start) + 1
        problem = f"byte 0x{e.object[e.start]:02x} is not UTF-8"
        raise _refuse(file, problem, "save the file as text in UTF-8", line) from None


def _table(text: str, file: str) -> dict[str, Any]:
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > _LONGEST_LINE:
            problem = f"the line has {len(line)} characters, at most {_LONGEST_LINE} can be read"
            raise _refuse(file, problem, "break it up or shorten it", number)
    problem = "tables or lists are nested too deep"
    too_deep = _refuse(file, problem, "write [section] and under it key = value, no deeper")
    try:
        table = tomllib.loads(text if text.endswith("\n") else text + "\n")
    except RecursionError:
        raise too_deep from None
    except ValueError as e:
        raise broken(str(e), text, file) from None
    if _depth_exceeds(table, _DEEPEST):
        raise too_deep
    return table


def _depth_exceeds(table: object, most: int) -> bool:
    level = [table]
    for _ in range(most + 1):
        level = [
            inner
            for outer in level
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
    return bool(level)
