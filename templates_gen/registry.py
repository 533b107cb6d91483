"""The ordered list of parts. A new part is a folder and a line here.

What the whole bow adds to the parts' rules and templates is joined to them in ``bow.catalogue``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from importlib.resources import files
from re import fullmatch
from typing import Any, TypeVar

from templates_gen.checks import Rule
from templates_gen.drawing import Template
from templates_gen.errors import Fault
from templates_gen.mechanics import Frame, Portion, VolumeAt
from templates_gen.parameters import Pattern, Schema, records_in

T = TypeVar("T")

#: Parts in the order their dimensions follow from one another.
PARTS = (
    "hair",
    "stick",
    "ferrule",
    "slide",
    "heel",
    "underslide",
    "eyelet",
    "screw",
    "frog",
    "head",
    "button",
    "leather",
    "material",
    "form",
)

#: The template that shows a pattern in a notebook.
PICTURE = "frog-side"


@cache
def _modules(kind: str) -> tuple[tuple[str, Any], ...]:
    """Import the files of one kind of every part: ``rules.py``, then ``rules_*.py`` by name."""
    return tuple((name, module) for name in PARTS for module in modules_in(f"parts.{name}", kind))


def modules_in(package: str, kind: str) -> list[Any]:
    """Import the files of one kind of a package: ``rules.py``, then ``rules_*.py`` by name."""
    here = files("templates_gen").joinpath(*package.split("."))
    return [
        import_module(f"templates_gen.{package}.{found.removesuffix('.py')}")
        for found in sorted(f.name for f in here.iterdir())
        if fullmatch(rf"{kind}(_\w+)?\.py", found)
    ]


def declared(module: Any, what: type[T]) -> list[T]:
    """List what a module declares by decorator (``Rule``, ``Template``), in the order written.

    A tuple of them, made in a loop, counts too.
    """
    values = (v if isinstance(v, tuple) else (v,) for v in vars(module).values())
    return [found for group in values for found in group if isinstance(found, what)]


@cache
def rules() -> tuple[Rule, ...]:
    """List the rules of all parts, in the order of the parts."""
    return tuple(rule for _, module in _modules("rules") for rule in declared(module, Rule))


def faults(p: Pattern) -> list[Fault]:
    """List the faults that make a part impossible to build, whatever the rules say."""
    found = (getattr(module, "faults", None) for _, module in _modules("rules"))
    return [fault for faults_of in found if faults_of is not None for fault in faults_of(p)]


@cache
def templates() -> tuple[Template, ...]:
    """List the templates of all parts, in the order of the parts."""
    return tuple(t for _, module in _modules("sheets") for t in declared(module, Template))


def picture(p: Pattern) -> str:
    """Draw a pattern as SVG text, lines only: the frog's side at true size."""
    from templates_gen.writers.svg import write_view

    (t,) = (t for t in templates() if t.name == PICTURE)
    return write_view(t.views(p)[0], f"{p.identity.name}: {t.title}").decode()


SCHEMA = Schema(
    tuple(r for _, params in _modules("params") for r in records_in(params)), faults, picture
)


@dataclass(frozen=True)
class Builder:
    """How to build a part's solid.

    Args:
        recipe: returns what the solid is built from, or None where the pattern has no such part.
        build: builds the solid from it.
    """

    part: str
    recipe: Callable[..., Any]
    build: Callable[..., Any]


@cache
def builders() -> tuple[Builder, ...]:
    """List the builders of all solids, in the order of the parts."""
    return tuple(Builder(name, m.recipe, m.build) for name, m in _modules("solid"))


@dataclass(frozen=True)
class Member:
    """What a part is in the assembly and on the scales (``assembly.py`` of its folder).

    Args:
        moves_with: its group, ``FROG`` or ``STICK`` of ``mechanics.assembly``.
        frame: returns its frame in the group's; the group's own for a part that defines none.
        volume: returns its volume, x in the group's frame, or None where the bow has no such part.
        portions: splits its volume, x in the stick's frame, by material.
    """

    part: str
    moves_with: str
    frame: Callable[[Pattern], Frame]
    volume: Callable[[Pattern], VolumeAt | None]
    portions: Callable[[Pattern, VolumeAt], tuple[Portion, ...]]


@cache
def members() -> tuple[Member, ...]:
    """List what every part is in the assembly, in the order of the parts."""
    return tuple(
        Member(name, m.MOVES_WITH, getattr(m, "frame", _group_frame), m.volume, m.portions)
        for name, m in _modules("assembly")
    )


def _group_frame(p: Pattern) -> Frame:
    return Frame()
