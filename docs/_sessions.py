"""Run the listings of a page in an empty folder, and write what they print under them.

A ``console`` listing holds lines ``$ templates-gen …`` and what they print. Above it may stand
``<!-- shown: WORDS | WORDS -->``: of the output only lines with such words are kept, and ``…`` for
the rest. A ``toml`` listing under ``<!-- in FILE -->`` is what the reader changes in the file, one
under ``<!-- as FILE -->`` a file the reader writes.
"""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import tempfile
from pathlib import Path

from templates_gen import cli

_LISTING = re.compile(
    r"(?:<!-- (shown: |in |as )([^\n]*) -->\n)?```(console|toml)\n(.*?)```", re.DOTALL
)
_PROMPT = "$ "


def refreshed(text: str) -> str:
    """Refresh every output of a page; its listings run in order, in one folder."""

    def run(match: re.Match[str]) -> str:
        directive, words, kind, body = match[1], match[2], match[3], match[4]
        if kind == "toml":
            if directive == "in ":
                _edit(Path(words), body)
            elif directive == "as ":
                Path(words).write_text(body, "utf-8")
            return match[0]
        shown = [w.strip() for w in words.split("|")] if directive == "shown: " else []
        lines = []
        for command in commands(body):
            lines += [_PROMPT + command, *_kept(_run(command), shown)]
        opening = f"<!-- shown: {words} -->\n" if shown else ""
        return opening + "```console\n" + "\n".join(lines) + "\n```"

    with tempfile.TemporaryDirectory() as folder, contextlib.chdir(folder):
        return _LISTING.sub(run, text)


def commands(body: str) -> list[str]:
    """List the commands of a listing."""
    return [line.removeprefix(_PROMPT) for line in body.splitlines() if line.startswith(_PROMPT)]


def _run(command: str) -> list[str]:
    """Run one command; return what it prints, both streams in the order they were written."""
    program, *argv = shlex.split(command, comments=True)
    if program != "templates-gen":
        raise ValueError(f"a listing may only call templates-gen, not {program}")
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(printed):
        try:
            status = cli.main(argv)
        except SystemExit as e:
            status = int(e.code or 0)
    if status not in (cli.OK, cli.FAILED, cli.INPUT):
        raise RuntimeError(f"{command}: {printed.getvalue()}")
    return [line.rstrip() for line in printed.getvalue().rstrip().splitlines()]


def _kept(printed: list[str], shown: list[str]) -> list[str]:
    """Keep the lines with the words to show, and put ``…`` for those left out."""
    kept: list[str] = []
    for line in printed:
        if not shown or any(words in line for words in shown):
            kept.append(line)
        elif not kept or kept[-1] != "…":
            kept.append("…")
    return kept


def _edit(file: Path, changes: str) -> None:
    """Change a parameter file as a reader does: the value on its line, the comment left alone.

    A value that is there only as an example, behind a ``#``, replaces the example.
    """
    lines = file.read_text("utf-8").splitlines()
    for at, line in _values(changes.splitlines()).items():
        there, examples = _values(lines), _values(lines, examples=True)
        if at not in examples:
            raise ValueError(f"{file} has no {' '.join(at)}")
        place = there.get(at, examples[at])
        _, sign, comment = lines[place].partition("#") if at in there else ("", "", "")
        lines[place] = f"{changes.splitlines()[line]}  {sign}{comment}".rstrip()
    file.write_text("\n".join(lines) + "\n", "utf-8")


def _values(lines: list[str], *, examples: bool = False) -> dict[tuple[str, str], int]:
    """Find the line of each value, by section and name; or also those behind a ``#``."""
    found, section = {}, ""
    for i, line in enumerate(lines):
        if line.startswith("["):
            section = line.strip()
        elif "=" in line and (examples or not line.startswith("#")):
            found[section, line.removeprefix("# ").partition("=")[0].strip()] = i
    return found
