"""Lay out a bow and cut it: outlines, solids and templates at true size, checked before cutting.

A script library for CadQuery and for CAM. All lengths are in mm::

    import templates_gen as tg

    p = tg.read("dunlin.toml").set("ferrule.outer_width", 23)
    print(tg.check(p))
    frog = tg.solid(p, "frog")
    tg.write_dxf(p, "frog-side", "frog-side.dxf")

``help(tg.check)`` shows arguments and an example of each function; docs/python.md is the guide.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from templates_gen.bench.fit.adapt import fit
    from templates_gen.bench.scale.scaling import scale
    from templates_gen.bench.weigh.weighing import weigh
    from templates_gen.errors import InputError
    from templates_gen.parameters import Pattern
    from templates_gen.pipeline.draw import draw, write_dxf, write_svg
    from templates_gen.pipeline.judging import ChecksFailed, check, new, read
    from templates_gen.pipeline.listing import declarations, templates
    from templates_gen.pipeline.models import assembly, outline, solid

#: Where each name lives. A module is imported when a name of it is first used.
_HOMES = {
    "errors": ("InputError",),
    "parameters": ("Pattern",),
    "pipeline.judging": ("read", "new", "check", "ChecksFailed"),
    "pipeline.listing": ("declarations", "templates"),
    "pipeline.models": ("outline", "solid", "assembly"),
    "pipeline.draw": ("draw", "write_dxf", "write_svg"),
    "bench.scale.scaling": ("scale",),
    "bench.weigh.weighing": ("weigh",),
    "bench.fit.adapt": ("fit",),
}

__all__ = [
    "ChecksFailed",
    "InputError",
    "Pattern",
    "assembly",
    "check",
    "declarations",
    "draw",
    "fit",
    "new",
    "outline",
    "read",
    "scale",
    "solid",
    "templates",
    "weigh",
    "write_dxf",
    "write_svg",
]


def __getattr__(name: str) -> Any:
    home = next((module for module, names in _HOMES.items() if name in names), None)
    if home is None:
        raise AttributeError(f"module 'templates_gen' has no attribute {name!r}")
    return getattr(import_module(f"templates_gen.{home}"), name)


def __dir__() -> list[str]:
    return __all__
