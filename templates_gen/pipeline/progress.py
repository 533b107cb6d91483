"""Report the progress of long work to whoever listens; the command shows it on the terminal."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from contextvars import ContextVar
from typing import TypeVar

T = TypeVar("T")

#: Called with the kind of thing, which one it is (from 1) and how many there are.
LISTENER: ContextVar[Callable[[str, int, int], None] | None] = ContextVar("LISTENER", default=None)


def tracked(items: Collection[T], what: str) -> Iterator[T]:
    """Yield the items one by one, and report each before it is worked on.

    Args:
        items: what is worked on.
        what: the kind of thing, in the singular (``sheet``).
    """
    report = LISTENER.get()
    for number, item in enumerate(items, start=1):
        if report is not None:
            report(what, number, len(items))
        yield item
