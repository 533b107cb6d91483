"""Call the command as a maker does, and check what all its messages have in common."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from templates_gen.cli import main

#: A sound file that states one number of its own; line 8 is that number's.
SOUND = """\
units = "mm"
based_on = "violin"

[pattern]
name = "Dunlin"

[ferrule]
outer_width = 12.7
"""
#: The same but for a number with which an error-check fails.
FAILING = SOUND.replace("outer_width = 12.7", "outer_width = 11").replace("Dunlin", "Knot")

#: Every way to hand the command a parameter file.
WAYS = {
    "check": ["check", "{}"],
    "check-json": ["check", "--json", "{}"],
    "list": ["list", "{}"],
    "list-json": ["list", "--json", "{}"],
    "draw": ["draw", "--plane", "--format", "svg", "{}", "-o", "out"],
    "draw-force": ["draw", "--plane", "--force", "--format", "svg", "{}", "-o", "out"],
}


@dataclass(frozen=True)
class Said:
    """The exit status of a call, and what it printed."""

    status: int
    out: str
    err: str


def call(capsys, *argv: str) -> Said:
    """One call in this process, as ``templates-gen ARGV``."""
    capsys.readouterr()
    try:
        status = main([str(a) for a in argv])
    except SystemExit as e:  # argparse ends so
        status = int(e.code or 0)
    out, err = capsys.readouterr()
    return Said(status, out, err)


def way(name: str, file: str) -> list[str]:
    return [word.format(file) if word == "{}" else word for word in WAYS[name]]


def write(name: str, content: str | bytes) -> str:
    data = content.encode() if isinstance(content, str) else content
    Path(name).write_bytes(data)
    return name


def refused(said: Said, status: int = 2, messages: int | None = 1) -> list[str]:
    """Return the messages of a refusal: nothing on standard output, no traceback, no empty words.

    Faults of the input are on lines of at most 80 columns, unless one word is longer; all but a
    message's first begin with blanks. ``messages`` None: as many as there are.
    """
    assert said.status == status, said
    assert said.out == ""
    assert "Traceback" not in said.err and 'File "' not in said.err
    if status == 2:
        screen = said.err.splitlines()
        assert all(len(line) <= 80 or " " not in line.strip() for line in screen), said.err
    lines = said.err.replace("\n    ", " ").splitlines()
    assert lines and messages in (None, len(lines)), said.err
    assert all(line.strip() and line.isprintable() for line in lines)
    return lines


def tree(folder: Path | str = ".") -> dict[str, bytes | None]:
    """Everything in a folder, with what the small files hold."""
    return {
        str(p): p.read_bytes() if p.is_file() and p.stat().st_size < 100_000 else None
        for p in sorted(Path(folder).rglob("*"))
        if not p.is_fifo()
    }
