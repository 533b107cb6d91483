"""Solids from outlines (prisms, lofts, revolutions), Booleans, and section checks."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from templates_gen.errors import KernelError
from templates_gen.geometry import Path, Point
from templates_gen.kernel import cq

#: Axis of an extrusion or section. The (u, v) of a path are then (y, z) for x, (x, z) for y and
#: (x, y) for z, so that outlines are in the part's own coordinates.
Axis = Literal["x", "y", "z"]

#: Approximation tolerance (mm) of a smooth loft through sections.
_SMOOTH = 1e-9


@dataclass(frozen=True)
class Section:
    """The outlines a solid must have where a plane square to an axis cuts it (mm)."""

    axis: Axis
    at: float
    outlines: Sequence[Path]


@dataclass(frozen=True)
class Built:
    """A solid, the sections it must have, and the tools that cut its faces.

    Args:
        solid: the solid.
        sections: what plane sections of it must show.
        tools: by group, the tool faces on which the finished faces of the group lie.
        within: by group, faces of things inside the solid that are not cut: a pin, a sheet.
        over: by group, the height (mm) above which its faces count.
        sharp: groups of which only an edge is left, where two others meet.
    """

    solid: Any
    sections: Sequence[Section]
    tools: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    within: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    over: Mapping[str, float] = field(default_factory=dict)
    sharp: frozenset[str] = frozenset()


def point(axis: Axis, at: float, p: Point) -> Any:
    """Convert a point of a path to a point in space (a CadQuery ``Vector``)."""
    u, v = p
    return cq.Vector(*{"x": (at, u, v), "y": (u, at, v), "z": (u, v, at)}[axis])


def _along(axis: Axis, length: float) -> Any:
    """Make a vector of a length (mm) along an axis."""
    return cq.Vector(*(length if a == axis else 0.0 for a in "xyz"))


def wire(path: Path, axis: Axis = "z", at: float = 0.0) -> Any:
    """Convert a closed path to a wire in the plane square to an axis at a position (mm)."""
    return _wire(path, lambda p: point(axis, at, p))


def _wire(path: Path, place: Callable[[Point], Any]) -> Any:
    """Convert a closed path to a wire, placing each of its points."""
    edges = []
    for piece in path.segments:
        a, b = place(piece.start), place(piece.end)
        if piece.is_line:
            edges.append(cq.Edge.makeLine(a, b))
        else:
            edges.append(cq.Edge.makeThreePointArc(a, place(piece.point(0.5)), b))
    return cq.Wire.assembleEdges(edges)


def prism(
    path: Path, start: float, end: float, axis: Axis = "z", holes: Sequence[Path] = ()
) -> Any:
    """Extrude an outline along an axis from ``start`` to ``end`` (mm)."""
    made = cq.Solid.extrudeLinear(
        wire(path, axis, start),
        [wire(h, axis, start) for h in holes],
        _along(axis, end - start),
    )
    return one_solid(made, "prism")


def oblique_prism(
    path: Path, start: float, end: float, drift: tuple[float, float], axis: Axis = "z"
) -> Any:
    """Extrude an outline obliquely to an axis.

    The outline is at its place where the axis is 0, or at ``start`` if that is positive.

    Args:
        path: the outline.
        start, end: ends of the extrusion along the axis (mm).
        drift: shift in u and v per millimetre along the axis.
        axis: the axis.
    """
    back = min(start, 0.0)
    placed = path.moved(drift[0] * back, drift[1] * back)
    u, v = drift[0] * (end - start), drift[1] * (end - start)
    made = cq.Solid.extrudeLinear(wire(placed, axis, start), [], point(axis, end - start, (u, v)))
    return one_solid(made, "oblique prism")


def bent_prism(sections: Sequence[tuple[float, Path]], centre: Point, foot: float) -> Any:
    """Loft sections smoothly along a circular bend in the mid-plane: a length of bent stick.

    Args:
        sections: angle (radians) of each section's vertical from z toward x, and its outline in
            (y, up); all with the same number of pieces.
        centre: x and z (mm) of the bend's axis, above the sections.
        foot: distance (mm) from the axis to the lowest point of every outline.
    """
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections

    loft = BRepOffsetAPI_ThruSections(True, False, _SMOOTH)
    for turn, path in sections:
        loft.AddWire(_wire(path, _on_bend(turn, centre, foot + path.box[1])).wrapped)
    loft.Build()
    return one_solid(cq.Shape.cast(loft.Shape()), "bent stick")


def _on_bend(turn: float, centre: Point, reach: float) -> Callable[[Point], Any]:
    """Make the placement of a section on a bend, its origin ``reach`` (mm) below the axis."""
    (x, z), sine, cosine = centre, math.sin(turn), math.cos(turn)

    def place(p: Point) -> Any:
        up = p[1] - reach
        return cq.Vector(x + up * sine, p[0], z + up * cosine)

    return place


def ruled_loft(axis: Axis, outlines: Mapping[float, Path]) -> Any:
    """Loft outlines at positions along an axis (mm) with ruled faces, vertex to vertex."""
    wires = [wire(path, axis, at) for at, path in sorted(outlines.items())]
    return one_solid(cq.Solid.makeLoft(wires, True), "ruled")


def quarter_revolution(section: Path, at: float, axis_y: float, axis: Axis) -> Any:
    """Revolve a section by 90° about the vertical axis at (``at``, ``axis_y``)."""
    face = cq.Face.makeFromWires(wire(section, axis, at))
    swept = cq.Solid.revolve(face, 90.0, cq.Vector(at, axis_y, 0), cq.Vector(at, axis_y, 1))
    return one_solid(swept, "run-out")


def mirrored(solid: Any, axis: Axis) -> Any:
    """Mirror a solid in the plane through the origin square to an axis."""
    plane = {"x": "YZ", "y": "XZ", "z": "XY"}[axis]
    return one_solid(solid.mirror(plane), "mirror")


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Any:
    """Make a box between two opposite corners (mm)."""
    size = [b - a for a, b in zip(low, high, strict=True)]
    return cq.Solid.makeBox(*size, cq.Vector(*low))


def cylinder(
    foot: tuple[float, float, float],
    along: tuple[float, float, float],
    radius: float,
    length: float,
) -> Any:
    """Make a cylinder.

    Args:
        foot: centre of one end (mm).
        along: direction of the axis.
        radius: mm.
        length: mm.
    """
    return cq.Solid.makeCylinder(radius, length, cq.Vector(*foot), cq.Vector(*along))


def cut(solid: Any, *tools: Any, step: str) -> Any:
    """Cut tools from a solid, all in one step."""
    return one_solid(solid.cut(*tools), step)


def intersection(solid: Any, other: Any, *, step: str, fuzzy: float | None = None) -> Any:
    """Intersect two solids; places closer than ``fuzzy`` (mm) count as one."""
    return one_solid(solid.intersect(other, tol=fuzzy), step)


def fused(solid: Any, *others: Any, step: str) -> Any:
    """Fuse solids that touch."""
    return one_solid(solid.fuse(*others), step)


def one_solid(shape: Any, step: str) -> Any:
    """Extract the one valid solid that a step must give.

    Raises:
        KernelError: there is none, several, or an invalid one.
    """
    solids = shape.Solids()
    if len(solids) != 1 or not solids[0].isValid():
        raise KernelError(f"{step}: expected one valid solid, found {len(solids)}")
    return solids[0]


def volume(solid: Any) -> float:
    """Calculate the volume (mm³) to a relative 1e-9; the kernel's default is too coarse."""
    return float(solid.Volume(1e-9))


def centroid(solid: Any) -> tuple[float, float, float]:
    """Calculate the centre of volume (mm)."""
    c = solid.Center()
    return (float(c.x), float(c.y), float(c.z))


def section_edges(solid: Any, axis: Axis, at: float) -> list[Any]:
    """Find the edges of a plane section of a solid."""
    plane = cq.Face.makePlane(1e4, 1e4, basePnt=_along(axis, at), dir=_along(axis, 1.0))
    return list(solid.intersect(plane).Edges())


def to_plane(axis: Axis, v: Any) -> Point:
    """Convert a point in space to a point of a path square to an axis."""
    return {"x": (v.y, v.z), "y": (v.x, v.z), "z": (v.x, v.y)}[axis]


def section_error(built: Built) -> float:
    """Measure the greatest distance (mm) between a solid's sections and their outlines."""
    return max((_one_section_error(built.solid, s) for s in built.sections), default=math.inf)


def _one_section_error(solid: Any, s: Section) -> float:
    edges = section_edges(solid, s.axis, s.at)
    if not edges:
        return math.inf
    worst = 0.0
    # Not at the joints, where the kernel places vertices less exactly.
    for edge in edges:
        for t in (0.02, 0.25, 0.5, 0.75, 0.98):
            here = to_plane(s.axis, edge.positionAt(t))
            worst = max(worst, min(o.distance(here) for o in s.outlines))
    compound = cq.Compound.makeCompound(edges)
    for outline in s.outlines:
        for p in (piece.point(t) for piece in outline.segments for t in (0.1, 0.5, 0.9)):
            there = point(s.axis, s.at, p)
            worst = max(worst, float(compound.distance(cq.Vertex.makeVertex(*there.toTuple()))))
    return worst
