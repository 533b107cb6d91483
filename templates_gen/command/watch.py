"""Redraw whenever a parameter file is saved, in one process that keeps everything warm."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Generator, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path as FilePath

from templates_gen.command.text import table
from templates_gen.errors import TemplatesGenError
from templates_gen.parameters import Pattern, plain, wrapped, written
from templates_gen.pipeline import rendering
from templates_gen.pipeline.judging import Checked, Report
from templates_gen.writers.files import write_all
from templates_gen.writers.page.facts import NAME
from templates_gen.writers.page.reload import WATCH_SCRIPT, with_reload

#: How often the files are looked at, and how long one must stay unchanged to count as saved (s).
LOOK, STILL = 0.05, 0.02
#: So many changes are listed one by one.
_MOST_LISTED = 6

#: Makes a set of files by name; if the last argument is true, only the page, which is far faster.
Render = Callable[[Report, bool], dict[str, bytes]]
Stamps = dict[str, tuple[int, int, int] | None]


@dataclass
class Watched:
    """One pattern that is watched.

    Args:
        file: its parameter file.
        target: the folder its set is written to.
        judge: what judges it.
        render: what makes the set.
        force: draw though an error-check fails.
        report: the pattern as last read, and its checks.
    """

    file: str
    target: FilePath
    judge: Callable[[Pattern], Report]
    render: Render
    force: bool
    report: Report

    def __post_init__(self) -> None:
        self.stamps = stamps(self.report.pattern)
        self.written: dict[str, bytes] = {}
        self.broken = False
        # Whether the sheets in the folder are older than the file.
        self.behind = True

    def first(self) -> Iterator[str]:
        """Draw it for the first time; yield what to print."""
        yield from self._draw()

    def look(self) -> Iterator[str]:
        """Redraw it if a file of it was saved; yield what to print."""
        now = _stamps(self.stamps)
        if now == self.stamps or now[self.file] is None:
            return
        while (still := _after(STILL, self.stamps)) != now:
            now = still
        self.stamps = now
        try:
            fresh = rendering.read(self.file)
        except TemplatesGenError as e:
            self.broken = True
            yield f"{e}\n{self._stay()}"
            return
        report = self.judge(fresh)
        changed = _listed(changes(self.report.pattern, fresh)) + _listed(moves(self.report, report))
        self.report, self.stamps = report, stamps(fresh)
        if changed:
            yield wrapped(f"{self.file}: ", "; ".join(changed))
            yield from self._draw()
            if self.written and not self.behind:
                yield f"{self.target}: sheets written; {report.summary}"
        elif self.broken:
            yield f"{self.file}: can be read again; nothing changed"
        self.broken = False

    def leave(self) -> None:
        """Leave the set as ``draw`` without ``--watch`` would write it."""
        if self.written:
            plain_ones = {n: self.written[n] for n in (NAME, "manifest.json")}
            write_all(self.target, plain_ones)
        with suppress(OSError):
            (self.target / WATCH_SCRIPT).unlink(missing_ok=True)

    def _draw(self) -> Iterator[str]:
        self.behind = True
        if not (self.report.ok or self.force):
            yield f"{table(self.report.failing)}\n{self._stay()}; cure it, or draw with --force"
            return
        try:
            # The page first: it shows what moved long before every sheet is written.
            write_all(self.target, with_reload(self.render(self.report, True)))
            self._write(self.render(self.report, False))
            self.behind = False
        except (TemplatesGenError, ArithmeticError, ValueError) as e:
            if self.written:
                write_all(self.target, with_reload(self.written))
            yield f"{' '.join(str(e).split())}\n{self._stay()}"

    def _stay(self) -> str:
        return "the old files stay" if self.written else "nothing drawn"

    def _write(self, files: dict[str, bytes]) -> None:
        write_all(self.target, with_reload(files))
        for name in self.written.keys() - files.keys():
            # Drawn a moment ago for numbers that have changed: nobody should cut by it.
            with suppress(OSError):
                (self.target / name).unlink(missing_ok=True)
        self.written = files


def follow(
    all_watched: Sequence[Watched], pause: Callable[[float], None]
) -> Generator[str, None, None]:
    """Draw every pattern, then redraw what is saved, until stopped; yield what to print.

    Args:
        all_watched: the patterns.
        pause: waits so many seconds.
    """
    try:
        for w in all_watched:
            yield from w.first()
        # What is loaded by now stays, so the garbage collector may skip it from here on.
        gc.collect()
        gc.freeze()
        yield from _ready(all_watched)
        while True:
            pause(LOOK)
            for w in all_watched:
                yield from w.look()
    finally:
        for w in all_watched:
            w.leave()


def _ready(all_watched: Sequence[Watched]) -> Iterator[str]:
    for w in all_watched:
        if w.written:
            counted = f"{len(w.written) - 1} files in {w.target}; {w.report.summary}"
            yield f"{w.report.pattern.identity.name}: {counted}"
    pages = " and ".join(str(w.target / NAME) for w in all_watched)
    yield wrapped("next: ", f"open {pages}; save a parameter file and the page follows")
    yield "Ctrl-C ends it"


def stamps(p: Pattern) -> Stamps:
    """Find when every file of a pattern was last saved."""
    return _stamps([p.identity.file, *(file for file, _ in p.places.values())])


def _stamps(files: Sequence[str] | Mapping[str, object]) -> Stamps:
    return {file: _stamp(file) for file in files}


def _stamp(file: str) -> tuple[int, int, int] | None:
    try:
        seen = FilePath(file).stat()
    except OSError:
        return None
    return (seen.st_mtime_ns, seen.st_size, seen.st_ino)


def _after(seconds: float, files: Mapping[str, object]) -> Stamps:
    time.sleep(seconds)
    return _stamps(files)


def changes(old: Pattern, new: Pattern) -> list[str]:
    """List what differs between two patterns, each as ``key old → new``."""
    a, b = old.identity, new.identity
    found = [
        f"pattern.{name} {written(was)} → {written(now)}"
        for name, was, now in (
            ("name", a.name, b.name),
            ("revision", a.revision, b.revision),
            ("family", a.family.name, b.family.name),
        )
        if was != now
    ]
    for key in new.values:
        if old.values[key] != new.values[key]:
            found.append(f"{key} {written(old.values[key])} → {written(new.values[key])}")
        if old.tolerance(key) != new.tolerance(key):
            found.append(f"{key} ± {plain(old.tolerance(key))} → {plain(new.tolerance(key))}")
        if old.notes.get(key) != new.notes.get(key):
            found.append(f"note of {key}")
    return found


def moves(old: Sequence[Checked], new: Sequence[Checked]) -> list[str]:
    """List the checks whose verdict changed, each as ``check old → new``."""
    before = {c.result.rule.id: c.result.verdict for c in old}
    return [
        f"{c.result.rule.id} {before[c.result.rule.id]} → {c.result.verdict}"
        for c in new
        if before[c.result.rule.id] != c.result.verdict
    ]


def _listed(lines: list[str]) -> list[str]:
    """The first few lines, and how many more there are."""
    more = len(lines) - _MOST_LISTED
    return [*lines[:_MOST_LISTED], f"and {more} more"] if more > 0 else lines
