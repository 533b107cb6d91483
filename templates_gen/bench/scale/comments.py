"""Replace a starter's own comments on usual values by those of another family."""

from __future__ import annotations

import re
import textwrap

from templates_gen.parameters import Schema
from templates_gen.parameters.lines import lines_of
from templates_gen.parameters.starter import starter

_WIDTH = 100
#: Between two words of a comment: a blank, or the beginning of the next line.
_GAP = r"(?:[ \t]+|[ \t]*\n[ \t]*#[ \t]+)"
_VALUE = re.compile(r"(\w+) +=.*?  # (.*)")


def refreshed(text: str, old: str, new: str, schema: Schema) -> str:
    """Return a text with the starter's comments replaced by those of the new family.

    Comments that the maker wrote or changed stay word for word.

    Args:
        text: a valid parameter file.
        old, new: the families.
        schema: the records the file holds.
    """
    was, now = (starter(family, schema) for family in (old, new))
    text = text.replace(was.splitlines()[0], now.splitlines()[0], 1)
    fresh, stale, places = _comments(now), _comments(was), lines_of(text)
    # From the last to the first: what is replaced moves no line above it.
    for path, line in sorted(places.items(), key=lambda place: -place[1]):
        key = ".".join(path)
        if key in stale and stale[key] != fresh[key]:
            text = _replaced(text, line, stale[key], fresh[key])
    return text


def _comments(text: str) -> dict[str, str]:
    """Return a starter's comment on each value, on one line."""
    found: dict[str, str] = {}
    section = key = ""
    for line in text.splitlines():
        if line.startswith("["):
            section = line.strip("[]")
        elif value := _VALUE.match(line):
            key = f"{section}.{value[1]}"
            found[key] = value[2]
        elif key and line.startswith(" "):
            found[key] += " " + line.strip(" #")
        else:
            key = ""
    return found


def _replaced(text: str, line: int, old: str, new: str) -> str:
    """Return the text with the comment of the value on a line replaced, if it is as expected."""
    start = sum(len(each) for each in text.splitlines(keepends=True)[: line - 1])
    end_of_line = text.find("\n", start)
    words = _GAP.join(re.escape(word) for word in old.split())
    found = re.compile(rf"# {words}[ \t]*$", re.MULTILINE).search(text, start)
    if found is None or not start < found.start() < (end_of_line if end_of_line > 0 else len(text)):
        return _tail_replaced(text, end_of_line, old.split(), new.split())
    return text[: found.start()] + _wrapped(new, found.start() - start) + text[found.end() :]


def _tail_replaced(text: str, at: int, old: list[str], new: list[str]) -> str:
    """Return the text with the rest of a comment replaced whose first line the maker rewrote.

    Args:
        text: the text.
        at: the end of the first line.
        old, new: the whole comment's words.
    """
    left = re.compile(r"(?:\n[ \t]+#[^\n]*)+").match(text, at) if at > 0 else None
    tail = (
        [word for line in left[0].split("\n") for word in line.strip(" \t#\r").split()]
        if left
        else []
    )
    if left is None or not tail or len(tail) >= len(old) or old[-len(tail) :] != tail:
        return text
    head = old[: -len(tail)]
    rest = new[len(head) :] if new[: len(head)] == head else []
    column = left[0].index("#") - 1
    line = f"\n{' ' * column}{_wrapped(' '.join(rest), column)}" if rest else ""
    return text[: left.start()] + line + text[left.end() :]


def _wrapped(words: str, column: int) -> str:
    """Return a comment that begins in a column."""
    room = max(_WIDTH - column - 2, 30)
    lines = textwrap.wrap(words, room, break_long_words=False, break_on_hyphens=False)
    return "# " + f"\n{' ' * column}# ".join(lines)
