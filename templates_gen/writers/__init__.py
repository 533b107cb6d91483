"""A sheet in, bytes out. A new format is one file and one line here."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from templates_gen.drawing.sheet import Sheet

FORMATS = ("dxf", "svg", "pdf", "csv")


def writer(form: str) -> Callable[[Sheet], bytes]:
    """The writer of a format, imported only now: each costs its library's start."""
    write: Callable[[Sheet], bytes] = import_module(f"templates_gen.writers.{form}").write
    return write
