"""The tassel as a solid."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parts.tassel import outline
from templates_gen.parts.tassel.dims import TasselDims

from templates_gen.geometry import Path
from templates_gen.kernel import solids
from templates_gen.parameters import Pattern


@dataclass(frozen=True)
class Recipe:
    """All the builder gets: paths (mm) and a thickness (mm)."""

    edge: Path
    hole: Path
    thickness: float


def recipe(p: Pattern) -> Recipe:
    """What the solid is built from."""
    return Recipe(outline.edge(p), outline.hole(p), p.scalars(TasselDims).params.thickness)


def build(r: Recipe) -> solids.Built:
    """A disc with a hole."""
    disc = solids.prism(r.edge, 0.0, r.thickness, holes=(r.hole,))
    return solids.Built(disc, (solids.Section("z", r.thickness / 2, (r.edge, r.hole)),))
