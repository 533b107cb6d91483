"""Every rule and template of a bow: those of the parts, and those that take several parts."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from templates_gen import registry
from templates_gen.checks import Rule
from templates_gen.drawing import Template


@cache
def rules() -> tuple[Rule, ...]:
    """List every rule: those of the parts in their order, then the whole bow's."""
    return (*registry.rules(), *_own("rules", Rule))


@cache
def templates() -> tuple[Template, ...]:
    """List every template in the order of the parts it belongs to, the whole bow's last."""
    order = (*registry.PARTS, "bow")
    # A sheet of a part that needs a later part's dims is declared there, or here.
    found = (*registry.templates(), *_own("sheets", Template))
    return tuple(sorted(found, key=lambda t: order.index(t.part)))


def _own(kind: str, record: type[Any]) -> Iterator[Any]:
    """List what the modules of one kind declare for the whole bow."""
    for module in registry.modules_in("bow", kind):
        yield from registry.declared(module, record)
