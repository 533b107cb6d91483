"""Solids from outlines, and what their sections show."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from templates_gen.errors import KernelError
from templates_gen.geometry import Path, Point
from templates_gen.kernel import open_kernel

open_kernel()
import cadquery as cq  # noqa: E402

#: Along which axis an outline is drawn out or cut. A path's own (u, v) are then
#: x: (y, z), y: (x, z), z: (x, y), so that an outline is read in the part's own coordinates.
Axis = Literal["x", "y", "z"]

#: A smooth face through sections stands no farther than this (mm) from the curve they lie on.
_SMOOTH = 1e-9


@dataclass(frozen=True)
class Section:
    """What a solid must show where a plane square to an axis cuts it (mm)."""

    axis: Axis
    at: float
    outlines: Sequence[Path]


@dataclass(frozen=True)
class Built:
    """A solid, the sections it must show, and the tools that left its faces.

    Args:
        tools: by the name of the group, faces on which the finished faces of the group lie.
        within: likewise, faces of what stands in the solid and is not cut: a pin, a sheet.
        over: the height (mm) from which up the faces of a group count.
        sharp: groups of which only an edge is left, where two others meet.
    """

    solid: Any
    sections: Sequence[Section]
    tools: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    within: Mapping[str, Sequence[Any]] = field(default_factory=dict)
    over: Mapping[str, float] = field(default_factory=dict)
    sharp: frozenset[str] = frozenset()


def point(axis: Axis, at: float, p: Point) -> Any:
    """A plane point as a point in space."""
    u, v = p
    return cq.Vector(*{"x": (at, u, v), "y": (u, at, v), "z": (u, v, at)}[axis])


def _along(axis: Axis, length: float) -> Any:
    return cq.Vector(*(length if a == axis else 0.0 for a in "xyz"))


def wire(path: Path, axis: Axis = "z", at: float = 0.0) -> Any:
    """A closed path as a wire in the plane square to an axis."""
    return _wire(path, lambda p: point(axis, at, p))


def _wire(path: Path, place: Callable[[Point], Any]) -> Any:
    """A closed path as a wire, each of its points where it is placed."""
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
    """An outline drawn out along an axis from ``start`` to ``end`` (mm)."""
    made = cq.Solid.extrudeLinear(
        wire(path, axis, start),
        [wire(h, axis, start) for h in holes],
        _along(axis, end - start),
    )
    return one_solid(made, "prism")


def oblique_prism(
    path: Path, start: float, end: float, drift: tuple[float, float], axis: Axis = "z"
) -> Any:
    """An outline drawn out along an axis while it drifts in its own plane.

    The outline is true where the axis is nought, or at ``start`` where that is beyond.

    Args:
        drift: how far it moves in its own u and v for each millimetre along the axis.
    """
    back = min(start, 0.0)
    placed = path.moved(drift[0] * back, drift[1] * back)
    u, v = drift[0] * (end - start), drift[1] * (end - start)
    made = cq.Solid.extrudeLinear(wire(placed, axis, start), [], point(axis, end - start, (u, v)))
    return one_solid(made, "slanted")


def bent_prism(sections: Sequence[tuple[float, Path]], centre: Point, foot: float) -> Any:
    """Sections square to a bend in the mid-plane joined by smooth faces: a length of bent stick.

    Args:
        sections: by how far (radians) each one's upright is turned from z toward x, its outline in
            (y, up); all of as many pieces.
        centre: x and z (mm) of the bend's axis, above.
        foot: how far (mm) from it every outline's lowest place stands.
    """
    from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections

    loft = BRepOffsetAPI_ThruSections(True, False, _SMOOTH)
    for turn, path in sections:
        loft.AddWire(_wire(path, _on_bend(turn, centre, foot + path.box[1])).wrapped)
    loft.Build()
    return one_solid(cq.Shape.cast(loft.Shape()), "bent stick")


def _on_bend(turn: float, centre: Point, reach: float) -> Callable[[Point], Any]:
    """Where a point of a section stands whose middle is so far (mm) below a bend's axis."""
    (x, z), sine, cosine = centre, math.sin(turn), math.cos(turn)

    def place(p: Point) -> Any:
        up = p[1] - reach
        return cq.Vector(x + up * sine, p[0], z + up * cosine)

    return place


def ruled_loft(axis: Axis, outlines: Mapping[float, Path]) -> Any:
    """Outlines at some places (mm) joined by straight lines, corner to corner."""
    wires = [wire(path, axis, at) for at, path in sorted(outlines.items())]
    return one_solid(cq.Solid.makeLoft(wires, True), "ruled")


def quarter_revolution(section: Path, at: float, axis_y: float, axis: Axis) -> Any:
    """A section square to x turned a quarter round the upright axis at (``at``, ``axis_y``)."""
    face = cq.Face.makeFromWires(wire(section, axis, at))
    swept = cq.Solid.revolve(face, 90.0, cq.Vector(at, axis_y, 0), cq.Vector(at, axis_y, 1))
    return one_solid(swept, "run-out")


def mirrored(solid: Any, axis: Axis) -> Any:
    """The same on the other side of the plane square to an axis."""
    plane = {"x": "YZ", "y": "XZ", "z": "XY"}[axis]
    return one_solid(solid.mirror(plane), "mirror")


def box(low: tuple[float, float, float], high: tuple[float, float, float]) -> Any:
    """An upright box between two corners."""
    size = [b - a for a, b in zip(low, high, strict=True)]
    return cq.Solid.makeBox(*size, cq.Vector(*low))


def cylinder(
    foot: tuple[float, float, float],
    along: tuple[float, float, float],
    radius: float,
    length: float,
) -> Any:
    """A round bar from a foot in a direction."""
    return cq.Solid.makeCylinder(radius, length, cq.Vector(*foot), cq.Vector(*along))


def cut(solid: Any, *tools: Any, step: str) -> Any:
    """A solid less some tools, all in one cut."""
    return one_solid(solid.cut(*tools), step)


def intersection(solid: Any, other: Any, *, step: str) -> Any:
    """What two solids share."""
    return one_solid(solid.intersect(other), step)


def fused(solid: Any, *others: Any, step: str) -> Any:
    """Solids that touch, as one."""
    return one_solid(solid.fuse(*others), step)


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
    """Volume (mm³), integrated finely: the kernel's own choice is loose for many-faced parts."""
    return float(solid.Volume(1e-9))


def centroid(solid: Any) -> tuple[float, float, float]:
    """Centre of volume (mm)."""
    c = solid.Center()
    return (float(c.x), float(c.y), float(c.z))


def section_edges(solid: Any, axis: Axis, at: float) -> list[Any]:
    """Edges of the face a plane cuts from a solid."""
    plane = cq.Face.makePlane(1e4, 1e4, basePnt=_along(axis, at), dir=_along(axis, 1.0))
    return list(solid.intersect(plane).Edges())


def to_plane(axis: Axis, v: Any) -> Point:
    """A point in space as a point of the plane square to an axis."""
    return {"x": (v.y, v.z), "y": (v.x, v.z), "z": (v.x, v.y)}[axis]


def section_error(built: Built) -> float:
    """How far (mm) the solid's sections stand from the outlines they must show, both ways."""
    return max((_one_error(built.solid, s) for s in built.sections), default=math.inf)


def _one_error(solid: Any, s: Section) -> float:
    edges = section_edges(solid, s.axis, s.at)
    if not edges:
        return math.inf
    worst = 0.0
    # Not at the joints: where faces meet tangent or aslope, the kernel places a corner loosely.
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
