"""Every rule and template of a bow: those of the parts, and those that take several parts."""

from __future__ import annotations

from functools import cache

from templates_gen import registry
from templates_gen.bow import rules as own_rules
from templates_gen.bow import sheets as own_sheets
from templates_gen.checks.rule import Rule
from templates_gen.drawing.template import Template


@cache
def rules() -> tuple[Rule, ...]:
    """List every rule: those of the parts in their order, then the whole bow's."""
    return (*registry.rules(), *own_rules.RULES)


@cache
def templates() -> tuple[Template, ...]:
    """List every template in the order of the parts it belongs to, the whole bow's last."""
    order = (*registry.PARTS, "bow")
    # A sheet of a part that needs a later part's dims is declared there, or here.
    found = (*registry.templates(), *own_sheets.TEMPLATES)
    return tuple(sorted(found, key=lambda t: order.index(t.part)))
