"""The ordered list of parts. A new part is a folder and a line here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from importlib.resources import files
from re import fullmatch
from typing import Any, TypeVar

from templates_gen.checks.rule import Rule
from templates_gen.drawing.template import Template
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern, Schema
from templates_gen.parameters.declare import records_in

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


#: What takes more than one part comes last.
_PACKAGES = (*((name, f"parts.{name}") for name in PARTS), ("bow", "bow"))


@cache
def _modules(kind: str) -> tuple[tuple[str, Any], ...]:
    """Import the files of one kind of every part: ``rules.py``, then ``rules_*.py`` by name."""
    here = files("templates_gen")
    return tuple(
        (name, import_module(f"templates_gen.{package}.{found.removesuffix('.py')}"))
        for name, package in _PACKAGES
        for found in sorted(f.name for f in here.joinpath(*package.split(".")).iterdir())
        if fullmatch(rf"{kind}(_\w+)?\.py", found)
    )


def declared(module: Any, what: type[T]) -> list[T]:
    """List what a module declares by decorator (``Rule``, ``Template``), in the order written.

    A tuple of them, made in a loop, counts too.
    """
    values = (v if isinstance(v, tuple) else (v,) for v in vars(module).values())
    return [found for group in values for found in group if isinstance(found, what)]


SCHEMA = Schema(tuple(r for _, params in _modules("params") for r in records_in(params)))


@cache
def rules() -> tuple[Rule, ...]:
    """List every rule, in the order of the parts."""
    return tuple(rule for _, module in _modules("rules") for rule in declared(module, Rule))


def faults(p: Pattern) -> list[Fault]:
    """List the faults that make a pattern impossible to build, whatever its rules say."""
    found = (getattr(module, "faults", None) for _, module in _modules("rules"))
    return [fault for faults_of in found if faults_of is not None for fault in faults_of(p)]


@cache
def templates() -> tuple[Template, ...]:
    """List every template, in the order of the parts."""
    order = [name for name, _ in _PACKAGES]
    found = (t for _, module in _modules("sheets") for t in declared(module, Template))
    # A sheet of an earlier part may need a later part's dims; it is then declared in ``bow``.
    return tuple(sorted(found, key=lambda t: order.index(t.part)))


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
