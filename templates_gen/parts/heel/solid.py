"""The heel plate as a solid: its bent section, as wide as the frog's heel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry import Path, Point
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.heel import outline
from templates_gen.parts.heel.dims import HeelDims


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: the section and the width (mm), and the pins of the rear leg.

    Args:
        pins: x and z of the head of each pin, on the outside of the plate.
        way: direction (x, z) in which they are driven, square to the rear leg.
        radius: of a pin.
        depth: from the outside of the plate to the point of a pin.
    """

    side: Path
    width: float
    pins: tuple[Point, ...]
    way: Point
    radius: float
    depth: float


def recipe(p: Pattern) -> Recipe | None:
    """Collect the outlines and lengths of the plate's solid; None without a plate."""
    d = p.scalars(HeelDims)
    if not d.plated:
        return None
    s, lean = d.params, math.radians(d.params.lean_deg)
    heights = d.pin_heights
    return Recipe(
        outline.side(p),
        d.frog.width_heel,
        tuple((d.corner + up * math.sin(lean), up * math.cos(lean)) for up in heights),
        (math.cos(lean), -math.sin(lean)),
        s.pin_diameter / 2,
        s.plate_thickness + s.pin_length,
    )


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outline its section must show and the tools that cut its faces."""
    plate = solids.prism(r.side, -r.width / 2, r.width / 2, "y")
    bends = walls.round_faces(plate)
    groups = {
        "outside": plate.Faces(),
        "bottom": walls.outermost_face(plate, "-z"),
        "leg end": walls.lowest_face(walls.toward(plate, "+x")),
        "rear": walls.toward(plate, "-x"),
        "top": walls.outermost_face(plate, "+z"),
        "rounding": sorted(bends, key=lambda f: f.Area())[-1:],
    }
    (dx, dz), deep = r.way, r.depth
    pins = [solids.cylinder((x, 0.0, z), (dx, 0.0, dz), r.radius, deep) for x, z in r.pins]
    pinned = {"pins": [f for pin in pins for f in pin.Faces()]}
    return solids.Built(plate, (solids.Section("y", 0.0, (r.side,)),), groups, pinned)
