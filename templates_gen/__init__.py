"""Lay out a bow and cut it: templates at true size, checked against the stick.

The command's verbs are functions too: ``read``, ``check``, ``draw``, ``scale``, ``weigh``,
``fit``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from templates_gen.bench.fit.adapt import fit
    from templates_gen.bench.scale.scaling import scale
    from templates_gen.bench.weigh.weighing import weigh
    from templates_gen.pipeline.rendering import check, draw, read

__all__ = ["check", "draw", "fit", "read", "scale", "weigh"]


def __getattr__(name: str) -> Any:
    # Only what is used is paid for.
    if name == "fit":
        from templates_gen.bench.fit.adapt import fit

        return fit
    if name == "scale":
        from templates_gen.bench.scale.scaling import scale

        return scale
    if name == "weigh":
        from templates_gen.bench.weigh.weighing import weigh

        return weigh
    if name in __all__:
        from templates_gen.pipeline import rendering

        return getattr(rendering, name)
    raise AttributeError(name)
