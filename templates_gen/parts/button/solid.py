"""The button as a solid: a tapered octagon with its counterbore and the screw's hole."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path, circle
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.button import outline
from templates_gen.parts.button.dims import ButtonDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: sections at x, counterbore and hole with their depths (mm)."""

    sections: tuple[tuple[float, Path], ...]
    counterbore: Path
    counterbore_depth: float
    hole: Path
    hole_depth: float
    core: tuple[tuple[float, Path], ...]
    middle: tuple[float, Path]
    bored: tuple[float, Path]


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the button's solid is built from."""
    d = p.scalars(ButtonDims)
    s, length = d.params, d.params.length
    hole = circle((0.0, 0.0), d.screw.diameter / 2)
    deep = (s.counterbore_depth + d.hole_depth) / 2
    return Recipe(
        tuple((x, outline.section(p, x)) for x in (0.0, length)),
        circle((0.0, 0.0), s.counterbore_diameter / 2),
        s.counterbore_depth,
        hole,
        float(d.hole_depth),
        tuple((x, outline.core(p, x)) for x in (0.0, length)),
        (0.8 * length, outline.section(p, 0.8 * length)),
        (deep, outline.section(p, deep)),
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    grip = solids.ruled_loft("x", dict(r.sections))
    bores = (
        solids.prism(r.counterbore, -1.0, r.counterbore_depth, "x"),
        solids.prism(r.hole, -1.0, r.hole_depth, "x"),
    )
    button = solids.cut(grip, *bores, step="bores")
    (at, path), (bored, round_it) = r.middle, r.bored
    sections = (
        solids.Section("x", at, (path,)),
        solids.Section("x", bored, (round_it, r.hole)),
    )
    counterbore, _ = bores
    groups = {
        "counterbore": walls.faces_around(counterbore, "x"),
        "counterbore floor": walls.toward(counterbore, "+x"),
    }
    core = {"core": walls.faces_around(solids.ruled_loft("x", dict(r.core)), "x")}
    return solids.Built(button, sections, groups, core)
