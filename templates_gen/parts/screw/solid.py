"""The screw as a solid: thread and plain tip, its thread left smooth at the major diameter."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path, circle
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.screw.dims import ScrewDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: two circles and the x at which each ends (mm)."""

    shaft: Path
    tip: Path
    shaft_end: float
    tip_end: float


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the screw's solid is built from."""
    d = p.scalars(ScrewDims)
    return Recipe(
        circle((0.0, 0.0), d.params.diameter / 2),
        circle((0.0, 0.0), d.tip_diameter / 2),
        d.params.thread_end,
        d.params.length,
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    shaft = solids.prism(r.shaft, 0.0, r.shaft_end, "x")
    tip = solids.prism(r.tip, r.shaft_end, r.tip_end, "x")
    screw = solids.fused(shaft, tip, step="tip")
    ends = ((r.shaft_end / 2, r.shaft), ((r.shaft_end + r.tip_end) / 2, r.tip))
    groups = {
        "thread": walls.faces_around(shaft, "x"),
        "shaft end": [*walls.toward(shaft, "+x"), *walls.toward(tip, "-x")],
        "end": walls.toward(tip, "+x"),
    }
    return solids.Built(screw, [solids.Section("x", x, (path,)) for x, path in ends], groups)
