"""The underslide as a solid: pressed round the tapering handle, with the shank's hole."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.underslide import outline
from templates_gen.parts.underslide.dims import UnderslideDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: sections with their positions, and the hole (mm)."""

    start: float
    end: float
    at_start: Path
    at_end: Path
    between: float
    at_between: Path
    hole: Path
    top: float


def recipe(p: Pattern) -> Recipe | None:
    """Collect the outlines and lengths of the lining's solid; None for a bare seat."""
    d = p.scalars(UnderslideDims)
    if not d.lined:
        return None
    start, end, hole = d.start, d.end, outline.shank_hole(p)
    # Ahead of the hole the section is complete.
    between = (hole.box[2] + end) / 2
    return Recipe(
        start,
        end,
        outline.section(p, start),
        outline.section(p, end),
        between,
        outline.section(p, between),
        hole,
        d.land_height(start) + 1.0,
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    pressed = solids.ruled_loft("x", {r.start: r.at_start, r.end: r.at_end})
    hole = solids.prism(r.hole, r.top - 5.0, r.top, "z")
    lining = solids.cut(pressed, hole, step="shank hole")
    diagonals = walls.faces_where(pressed, lambda out, _: 0.5 < out.z < 0.9)
    groups = {
        "land": walls.toward(pressed, "+z"),
        "wings": [f for f in diagonals if f.normalAt().y * f.Center().y < 0.0],
        "tops": [f for f in diagonals if f.normalAt().y * f.Center().y > 0.0],
    }
    return solids.Built(lining, (solids.Section("x", r.between, (r.at_between,)),), groups)
