"""Solids from outlines, and what their sections show."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from templates_gen.errors import KernelError
from templates_gen.geometry import Path
from templates_gen.kernel import open_kernel

open_kernel()
import cadquery as cq  # noqa: E402


@dataclass(frozen=True)
class Built:
    """A solid, and the outlines its sections across z must show at some heights (mm)."""

    solid: Any
    sections: Mapping[float, Sequence[Path]]


def wire(path: Path) -> Any:
    """A closed path as a wire in the plane z = 0."""
    edges = []
    for piece in path.segments:
        a, b = cq.Vector(*piece.start, 0), cq.Vector(*piece.end, 0)
        if piece.is_line:
            edges.append(cq.Edge.makeLine(a, b))
        else:
            edges.append(cq.Edge.makeThreePointArc(a, cq.Vector(*piece.point(0.5), 0), b))
    return cq.Wire.assembleEdges(edges)


def prism(path: Path, length: float, holes: Sequence[Path] = ()) -> Any:
    """An outline drawn out along z by a length (mm)."""
    made = cq.Solid.extrudeLinear(wire(path), [wire(h) for h in holes], cq.Vector(0, 0, length))
    return one_solid(made, "prism")


def one_solid(shape: Any, step: str) -> Any:
    """The one valid solid a step must leave.

    Raises:
        KernelError: it left none, several, or a broken one.
    """
    solids = shape.Solids()
    if len(solids) != 1 or not solids[0].isValid():
        raise KernelError(f"{step}: expected one valid solid, found {len(solids)}")
    return solids[0]


def volume(solid: Any) -> float:
    """Volume (mm³)."""
    return float(solid.Volume())


def section_error(built: Built) -> float:
    """How far (mm) the solid's sections stand from the outlines they must show, both ways."""
    worst = 0.0
    for height, outlines in built.sections.items():
        face = cq.Face.makePlane(1e4, 1e4, basePnt=(0, 0, height))
        cutting = built.solid.intersect(face)
        edges = cutting.Edges()
        if not edges:
            return math.inf
        for edge in edges:
            for i in range(5):
                at = edge.positionAt(i / 4)
                worst = max(worst, min(o.distance((at.x, at.y)) for o in outlines))
        compound = cq.Compound.makeCompound(edges)
        for outline in outlines:
            for x, y in (s.point(t) for s in outline.segments for t in (0.0, 0.5)):
                worst = max(worst, float(compound.distance(cq.Vertex.makeVertex(x, y, height))))
    return worst
