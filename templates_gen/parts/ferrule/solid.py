"""The ferrule as a solid: its D with the opening left out, as long as the ferrule."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule import outline
from templates_gen.parts.ferrule.dims import FerruleDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: paths (mm) and a length (mm)."""

    outside: Path
    opening: Path
    length: float


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the ferrule's solid is built from."""
    return Recipe(outline.outside(p), outline.opening(p), p.scalars(FerruleDims).params.length)


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    ring = solids.prism(r.outside, 0.0, r.length, holes=(r.opening,))
    within = solids.prism(r.opening, 0.0, r.length)
    groups = {
        "opening": walls.faces_around(within, "z"),
        "plate top": walls.toward(within, "-y"),
        "plate bottom": walls.outermost_face(ring, "-y"),
    }
    return solids.Built(ring, (solids.Section("z", r.length / 2, (r.outside, r.opening)),), groups)
