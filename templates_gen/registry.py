"""The ordered list of parts. A new part is a folder and a line here."""

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

#: The template that shows a pattern in a notebook.
PICTURE = "frog-side"

#: What takes more than one part comes last.
_PACKAGES = (*((name, f"parts.{name}") for name in PARTS), ("bow", "bow"))


def _modules(kind: str) -> list[tuple[str, Any]]:
    """The file of one kind of every part that has it."""
    here = files("templates_gen")
    return [
        (name, import_module(f"templates_gen.{package}.{kind}"))
        for name, package in _PACKAGES
        if here.joinpath(*package.split("."), f"{kind}.py").is_file()
    ]


@cache
def rules() -> tuple[Rule, ...]:
    """Every clearance, in the order of the parts."""
    return tuple(rule for _, module in _modules("rules") for rule in module.RULES)


def faults(p: Pattern) -> list[Fault]:
    """What no maker could make of a pattern, whatever the clearances."""
    asked = (getattr(module, "faults", None) for _, module in _modules("rules"))
    return [fault for ask in asked if ask is not None for fault in ask(p)]


@cache
def templates() -> tuple[Template, ...]:
    """Every template, in the order of the parts."""
    order = [name for name, _ in _PACKAGES]
    found = (t for _, module in _modules("sheets") for t in module.TEMPLATES)
    # What takes a later part's dims may yet belong to an earlier part.
    return tuple(sorted(found, key=lambda t: order.index(t.part)))


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
    """How a part becomes a solid: what it is built from (None for no such part), the building."""

    part: str
    recipe: Callable[..., Any]
    build: Callable[..., Any]


@cache
def builders() -> tuple[Builder, ...]:
    """Every solid, in the order of the parts."""
    return tuple(Builder(name, m.recipe, m.build) for name, m in _modules("solid"))
