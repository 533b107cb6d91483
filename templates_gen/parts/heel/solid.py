"""The heel plate as a solid: its bent section, as wide as the frog's heel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.parts.heel import outline
from templates_gen.parts.heel.dims import HeelDims

if TYPE_CHECKING:
    from templates_gen.kernel.solids import Built


@dataclass(frozen=True)
class Recipe:
    """All the builder gets: the section (mm) and the width (mm)."""

    side: Path
    width: float


def recipe(p: Pattern) -> Recipe | None:
    """What the plate's solid is built from; nothing where there is no plate."""
    d = p.derive(HeelDims)
    return Recipe(outline.side(p), float(d.frog.width_heel)) if d.plated else None


def build(r: Recipe) -> Built:
    """One valid solid and the outlines its sections must show."""
    from templates_gen.kernel import solids

    plate = solids.prism(r.side, -r.width / 2, r.width / 2, "y")
    return solids.Built(plate, (solids.Section("y", 0.0, (r.side,)),))
