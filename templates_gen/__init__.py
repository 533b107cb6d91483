"""Lay out a bow and cut it: templates at true size, checked against the stick.

The command's verbs are functions too: ``read``, ``check``, ``draw``, ``scale``, ``weigh``,
``fit``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from templates_gen.bench.fit import fit
    from templates_gen.bench.scale import scale
    from templates_gen.bench.weigh import weigh
    from templates_gen.pipeline import check, draw, read

__all__ = ["check", "draw", "fit", "read", "scale", "weigh"]


def __getattr__(name: str) -> Any:
    # Only what is used is paid for.
    if name == "fit":
        from templates_gen.bench.fit import fit

        return fit
    if name == "scale":
        from templates_gen.bench.scale import scale

        return scale
    if name == "weigh":
        from templates_gen.bench.weigh import weigh

        return weigh
    if name in __all__:
        from templates_gen import pipeline

        return getattr(pipeline, name)
    raise AttributeError(name)
