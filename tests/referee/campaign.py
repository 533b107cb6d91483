"""Compare the closed form of every clearance with the solids of a walk's patterns.

Run as a program, it compares one chunk of a walk and prints the result as JSON. A crash of the
modeller then costs one chunk, and the caller knows which.
"""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, replace
from typing import Any

from referee import walk

from templates_gen import registry
from templates_gen.checks.rule import Rule
from templates_gen.checks.solid import Measure
from templates_gen.errors import KernelError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import walls

#: Closed form and solid agree within this (mm).
AGREE = 0.005


@dataclass(frozen=True)
class Compared:
    """The comparison of one clearance of one pattern (mm, or the rule's unit).

    Args:
        where: family, chunk and step.
        rule: the clearance.
        over: closed form's margin minus the solid's; if positive, the claim is too high.
    """

    where: str
    rule: str
    over: float


class Solids:
    """Build a pattern's solids, and measure again only the parts that changed."""

    def __init__(self) -> None:
        self._known: dict[str, tuple[str, Any, dict[str, float]]] = {}

    def measured(self, p: Pattern) -> dict[str, float]:
        """Return everything measured, by the id of its rule."""
        built, found = {}, {}
        for builder in registry.builders():
            recipe = builder.recipe(p)
            if recipe is None:
                self._known.pop(builder.part, None)
                continue
            recipe = _for_walls(builder.part, recipe)
            name = repr(recipe)
            known = self._known.get(builder.part)
            if known is None or known[0] != name:
                made = builder.build(recipe)
                known = (name, made, walls.alone(builder.part, made))
                self._known[builder.part] = known
            built[builder.part] = known[1]
            found |= known[2]
        return found | walls.together(p, built)


def _for_walls(part: str, recipe: Any) -> Any:
    """Reduce a recipe to what the walls need: of the stick, the handle and the next piece."""
    return replace(recipe, ahead=recipe.ahead[:2]) if part == "stick" else recipe


def over(rule: Rule, measure: Measure, p: Pattern, value: float) -> float | None:
    """Return the closed form's margin minus the solid's at nominal values; None if absent."""
    stated = rule.bound(p)
    margin = float(stated.margin)
    if margin == math.inf:
        return None
    if measure.limit is not None:
        shown = value - measure.limit
    else:
        shown = value - float(stated.limit)
        shown = shown if stated.sense == ">=" else -shown
    return margin - shown


def compare(where: str, p: Pattern, solids: Solids) -> Iterator[Compared]:
    """Compare every clearance of a pattern that can be measured on its solids."""
    values = solids.measured(p)
    for rule, measure in walls.measures():
        if rule.id in values:
            found = over(rule, measure, p, values[rule.id])
            if found is not None:
                yield Compared(where, rule.id, found)


def chunk(family: str, number: int, patterns: int = walk.PATTERNS) -> dict[str, Any]:
    """Compare all patterns of one chunk of the walk."""
    solids = Solids()
    compared: list[Compared] = []
    broken: dict[str, str] = {}
    reached, refused = [], {}
    for i, step in enumerate(walk.walk(family, number, patterns)):
        where = f"{family} {number}.{i}"
        reached += step.reached
        refused |= {f"{where} {key} {way}": why for (key, way), why in step.refused.items()}
        try:
            compared += compare(where, step.pattern, solids)
        except KernelError as e:
            broken[where] = str(e)
            solids = Solids()
    return {
        "compared": [asdict(c) for c in compared],
        "broken": broken,
        "reached": reached,
        "refused": refused,
    }


def worst(compared: Iterable[Compared]) -> dict[str, dict[str, Any]]:
    """Return, by rule, the number of patterns and the largest differences in both directions."""
    rows: dict[str, dict[str, Any]] = {}
    for c in compared:
        row = rows.setdefault(
            c.rule, {"patterns": 0, "over": 0.0, "over_at": "", "under": 0.0, "under_at": ""}
        )
        row["patterns"] += 1
        if c.over > row["over"]:
            row["over"], row["over_at"] = c.over, c.where
        if -c.over > row["under"]:
            row["under"], row["under_at"] = -c.over, c.where
    return rows


if __name__ == "__main__":
    print(json.dumps(chunk(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))))
