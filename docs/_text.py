"""Markdown, as far as the made pages need it."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import PurePosixPath

NOTICE = "<!-- Made by docs/make.py from the declarations; change those, not this page. -->"


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A table; signs that would end a cell are escaped."""
    lines = ["| " + " | ".join(head) + " |", "|" + "---|" * len(head)]
    for row in rows:
        lines.append("| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |")
    return "\n".join(lines)


def code(text: str) -> str:
    """Text as it stands in a file; nothing stays nothing."""
    return f"`{text}`" if text else ""


def sentence(text: str) -> str:
    """Words as a sentence."""
    return text[:1].upper() + text[1:].rstrip(".") + "."


def link(target: str, page: str) -> str:
    """The way from a page to another file, both told from the repository's root."""
    return PurePosixPath(os.path.relpath(target, os.path.dirname(page) or ".")).as_posix()  # noqa: PTH120


def picture(name: str, description: str, page: str) -> str:
    """A picture of ``docs/pictures`` on a page."""
    return f"![{description}]({link(f'docs/pictures/{name}.svg', page)})"
