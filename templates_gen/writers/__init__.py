"""Write sheets as files, one module a format. A new format adds a module and its name here."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from templates_gen.drawing import Sheet

FORMATS = ("dxf", "svg", "pdf", "csv")


def writer(form: str) -> Callable[[Sheet], bytes]:
    """Return the ``write`` function of a format; its library is imported only now."""
    write: Callable[[Sheet], bytes] = import_module(f"templates_gen.writers.{form}").write
    return write
