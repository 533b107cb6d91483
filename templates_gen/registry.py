"""The ordered list of parts. A new part is a folder and a line here.

What the whole bow adds to the parts' rules and templates is joined to them in ``bow.catalogue``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from importlib.resources import files
from typing import Any

from templates_gen.checks.rule import Rule
from templates_gen.drawing.template import Template
from templates_gen.errors import Fault
from templates_gen.mechanics.assembly import Frame, Portion, VolumeAt
from templates_gen.parameters import Pattern, Schema
from templates_gen.parameters.declare import records_in

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


def _modules(kind: str) -> list[tuple[str, Any]]:
    """Import the file of one kind of every part that has it."""
    here = files("templates_gen.parts")
    return [
        (name, import_module(f"templates_gen.parts.{name}.{kind}"))
        for name in PARTS
        if here.joinpath(name, f"{kind}.py").is_file()
    ]


SCHEMA = Schema(tuple(r for _, params in _modules("params") for r in records_in(params)))


@cache
def rules() -> tuple[Rule, ...]:
    """List the rules of all parts, in the order of the parts."""
    return tuple(rule for _, module in _modules("rules") for rule in module.RULES)


def faults(p: Pattern) -> list[Fault]:
    """List the faults that make a part impossible to build, whatever the rules say."""
    found = (getattr(module, "faults", None) for _, module in _modules("rules"))
    return [fault for faults_of in found if faults_of is not None for fault in faults_of(p)]


@cache
def templates() -> tuple[Template, ...]:
    """List the templates of all parts, in the order of the parts."""
    return tuple(t for _, module in _modules("sheets") for t in module.TEMPLATES)


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
