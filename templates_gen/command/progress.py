"""Show the progress of long work on a terminal: what is being done, and how much of it is done."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

from templates_gen.parameters.words import WIDTH, clipped
from templates_gen.pipeline.progress import LISTENER

#: The line is written again at most so often (s).
_EVERY = 0.1


@contextmanager
def busy(description: str) -> Iterator[None]:
    """Show one line on the error stream while work goes on, then erase it.

    Nothing is written where the stream is a file or a pipe.

    Args:
        description: what is being done, in a few words.
    """
    if not sys.stderr.isatty():
        yield
        return
    line = _Line(clipped(description))
    token = LISTENER.set(line.count)
    try:
        yield
    finally:
        LISTENER.reset(token)
        line.write("")


class _Line:
    """The line on the terminal."""

    def __init__(self, description: str) -> None:
        self.description, self.length = description, 0
        self.write(f"{description} …")
        self.written = time.monotonic()

    def count(self, what: str, done: int, of: int) -> None:
        """Show how many are done; called far more often than a screen can show."""
        if time.monotonic() - self.written >= _EVERY:
            self.write(f"{self.description}: {what} {done} of {of}")
            self.written = time.monotonic()

    def write(self, text: str) -> None:
        shown = text[: WIDTH - 1]
        sys.stderr.write(f"\r{shown}{' ' * (self.length - len(shown))}")
        sys.stderr.write("" if shown else "\r")
        sys.stderr.flush()
        self.length = len(shown)
