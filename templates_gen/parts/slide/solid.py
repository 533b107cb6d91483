"""The slide as a solid: a tapered dovetail."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.slide import outline
from templates_gen.parts.slide.dims import SlideDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: sections at both ends, halfway along and halfway up; lengths (mm)."""

    front: Path
    heel: Path
    middle: Path
    half_up: Path
    length: float
    thickness: float


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the slide's solid is built from."""
    s = p.scalars(SlideDims).params
    return Recipe(
        outline.section_front(p),
        outline.section_heel(p),
        outline.section_middle(p),
        outline.half_up(p),
        s.length,
        s.thickness,
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    strip = solids.ruled_loft("x", {0.0: r.front, r.length: r.heel})
    return solids.Built(
        strip,
        (
            solids.Section("x", r.length / 2, (r.middle,)),
            solids.Section("z", r.thickness / 2, (r.half_up,)),
        ),
        {"top": walls.toward(strip, "+z"), "rear": walls.toward(strip, "+x")},
    )
