"""The ordered list of parts. A new part is a folder and a line here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Any

from templates_gen.checks.rule import Rule
from templates_gen.drawing.template import Template
from templates_gen.parameters import Schema
from templates_gen.parts.ferrule.params import Ferrule
from templates_gen.parts.hair.params import Hair

SCHEMA = Schema((Hair, Ferrule))

#: Parts in the order their dimensions follow from one another; what each has beside its record.
PARTS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("hair", ("rules",)),
    ("ferrule", ("rules", "sheets", "solid")),
)


def _modules(kind: str) -> list[tuple[str, Any]]:
    return [
        (name, import_module(f"templates_gen.parts.{name}.{kind}"))
        for name, has in PARTS
        if kind in has
    ]


@cache
def rules() -> tuple[Rule, ...]:
    """Every clearance, in the order of the parts."""
    return tuple(rule for _, module in _modules("rules") for rule in module.RULES)


@cache
def templates() -> tuple[Template, ...]:
    """Every template, in the order of the parts."""
    return tuple(t for _, module in _modules("sheets") for t in module.TEMPLATES)


@dataclass(frozen=True)
class Builder:
    """How a part becomes a solid: what it is built from, and the building."""

    part: str
    recipe: Callable[..., Any]
    build: Callable[..., Any]


@cache
def builders() -> tuple[Builder, ...]:
    """Every solid, in the order of the parts."""
    return tuple(Builder(name, m.recipe, m.build) for name, m in _modules("solid"))
