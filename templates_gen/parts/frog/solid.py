"""The frog as a solid: its side drawn out, tapered in plan, its seat cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims

if TYPE_CHECKING:
    from templates_gen.kernel.solids import Built


@dataclass(frozen=True)
class Recipe:
    """All the builder gets: outlines in the frog's frame (mm)."""

    side: Path
    plan: Path
    trench: Path
    middle: Path
    across: Path
    across_at: float
    beyond: float


def recipe(p: Pattern) -> Recipe:
    """What the frog's solid is built from."""
    d = p.derive(FrogDims)
    beyond = float(d.ferrule.stated.length) + 10.0
    at = float(d.heel.stated.bottom_radius + d.heel_lean + d.throat.deepest) / 2
    return Recipe(
        outline.side(p),
        outline.plan(p, beyond),
        outline.trench(p),
        outline.middle(p),
        outline.across(p, at),
        at,
        beyond,
    )


def build(r: Recipe) -> Built:
    """One valid solid and the outlines its sections must show."""
    from templates_gen.kernel import solids

    wide = max(abs(y) for _, y, _ in r.plan.vertices) + 1.0
    left, _, right, top = r.side.box
    block = solids.prism(r.side, -wide, wide, "y")
    tapered = solids.common(block, solids.prism(r.plan, -1.0, top + 1.0, "z"), step="plan taper")
    seat = solids.prism(r.trench, left - 1.0, right + 1.0, "x")
    frog = solids.cut(tapered, seat, step="seat")
    return solids.Built(
        frog,
        (
            solids.Section("y", 0.0, (r.middle,)),
            solids.Section("x", r.across_at, (r.across,)),
        ),
    )
