"""Lay out a bow and cut it: templates at true size, checked against the stick.

The command's verbs are functions too: ``read``, ``check``, ``draw``, ``scale``, ``weigh``,
``fit``.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from templates_gen.bench.fit import fit
    from templates_gen.bench.scale import scale
    from templates_gen.bench.weigh import weigh
    from templates_gen.pipeline import check, draw, read

__all__ = ["check", "draw", "fit", "read", "scale", "weigh"]

#: What a maker does with a pattern, each in a module of its name.
_BENCH = ("fit", "scale", "weigh")


def __getattr__(name: str) -> Any:
    # Only what is used is paid for.
    if name in _BENCH:
        return getattr(import_module(f"templates_gen.bench.{name}"), name)
    if name in __all__:
        from templates_gen import pipeline

        return getattr(pipeline, name)
    raise AttributeError(name)
