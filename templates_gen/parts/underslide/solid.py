"""The underslide as a solid: its section drawn out along the frog, with the shank's hole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.parts.underslide import outline
from templates_gen.parts.underslide.dims import UnderslideDims

if TYPE_CHECKING:
    from templates_gen.kernel.solids import Built


@dataclass(frozen=True)
class Recipe:
    """All the builder gets: the section and the hole (mm), and where it starts and ends (mm)."""

    section: Path
    hole: Path
    start: float
    end: float
    thickness: float


def recipe(p: Pattern) -> Recipe | None:
    """What the lining's solid is built from; nothing where the seat is bare."""
    d = p.derive(UnderslideDims)
    if not d.lined:
        return None
    start = float(d.heel.top_radius)
    return Recipe(
        outline.section(p),
        outline.shank_hole(p),
        start,
        start + float(d.length),
        float(d.stated.thickness),
    )


def build(r: Recipe) -> Built:
    """One valid solid and the outlines its sections must show."""
    from templates_gen.kernel import solids

    pressed = solids.prism(r.section, r.start, r.end, "x")
    hole = solids.prism(r.hole, -2 * r.thickness, r.thickness, "z")
    lining = solids.cut(pressed, hole, step="shank hole")
    behind = (r.start + r.hole.box[0]) / 2
    return solids.Built(lining, (solids.Section("x", behind, (r.section,)),))
