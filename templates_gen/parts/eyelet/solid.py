"""The eyelet as a solid: a body with its bore, and the shank; threads are left smooth."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry import Path, circle, rectangle
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.eyelet.dims import EyeletDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``, in the frog's frame (mm)."""

    body: Path
    half_width: float
    bore: Path
    half_length: float
    at: float
    shank: Path
    foot: float
    shank_end: float


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the eyelet's solid is built from."""
    d = p.scalars(EyeletDims)
    s, at, half = d.params, d.params.from_heel, d.params.length / 2
    axis, foot = d.seat.axis_height, d.body_foot
    return Recipe(
        rectangle(at - half, foot, at + half, d.body_top),
        s.width / 2,
        circle((0.0, axis), d.bore / 2),
        half,
        at,
        circle((at, 0.0), s.shank_diameter / 2),
        foot,
        d.shank_end,
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    body = solids.prism(r.body, -r.half_width, r.half_width, "y")
    shank = solids.prism(r.shank, r.shank_end, r.foot + 0.1, "z")
    whole = solids.fused(body, shank, step="shank")
    bore = solids.prism(r.bore, r.at - r.half_length - 1.0, r.at + r.half_length + 1.0, "x")
    ring = solids.cut(whole, bore, step="bore")
    middle = (r.shank_end + r.foot) / 2
    groups = {"sides": walls.toward(body, "+y", "-y"), "top": walls.toward(body, "+z")}
    return solids.Built(ring, (solids.Section("z", middle, (r.shank,)),), groups)
