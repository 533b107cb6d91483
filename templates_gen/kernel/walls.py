"""Walls and clearances measured between the finished faces of solids.

A finished face is known by the tool that left it: its inner points lie on the tool's surface. So
all pieces of a face that other cuts have split are found, and none that only passes nearby.
Distances are the kernel's own, between whole faces.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from templates_gen.checks.solid import Along, Axis, Extent, Gap, Land, Measure, Radius
from templates_gen.geometry import Path
from templates_gen.kernel import open_kernel
from templates_gen.kernel.solids import point

open_kernel()
import cadquery as cq  # noqa: E402

#: A point no farther than this (mm) from a tool lies on it: a lofted face is that true at worst.
_ON = 2e-5
#: A plane so far away (mm) stands beyond every bow.
_FAR = 2000.0
#: A face is known by this many of its points.
_SAMPLES = 3
#: An edge is known by these places along it.
_ALONG = (0.1, 0.37, 0.5, 0.83)
#: The unit vectors by sign and axis.
_WAYS = {f"{sign}{a}": (cq.Vector(*(s * (a == b) for b in "xyz")))
         for a in "xyz" for sign, s in (("+", 1.0), ("-", -1.0))}  # fmt: skip

Faces = Sequence[Any]


def faces_where(tool: Any, test: Callable[[Any, Any], bool]) -> list[Any]:
    """The faces of a tool whose outward direction and middle pass a test."""
    return [f for f in tool.Faces() if test(f.normalAt(), f.Center())]


def toward(tool: Any, *ways: str) -> list[Any]:
    """The faces of a tool that look one of some ways, as ``+x`` or ``-z``."""
    return faces_where(tool, lambda out, _: any(out.dot(_WAYS[way]) > 0.8 for way in ways))


def faces_around(tool: Any, axis: Axis) -> list[Any]:
    """The faces of a tool but those that look along an axis: all round a prism."""
    return faces_where(tool, lambda out, _: abs(out.dot(_WAYS[f"+{axis}"])) < 0.999)


def round_faces(tool: Any) -> list[Any]:
    """The cylindrical faces of a tool."""
    return [f for f in tool.Faces() if f.geomType() == "CYLINDER"]


def outermost_face(tool: Any, way: str) -> list[Any]:
    """The one face of a tool that stands farthest one way, as ``+x``."""
    return [max(tool.Faces(), key=lambda f: f.Center().dot(_WAYS[way]))]


def lowest_face(faces: Faces) -> list[Any]:
    """The one of some faces whose middle is lowest."""
    return [min(faces, key=lambda f: f.Center().z)]


def swept_faces(
    path: Path, start: float, end: float, axis: Axis, drift: tuple[float, float] = (0.0, 0.0)
) -> list[Any]:
    """Each piece of an outline drawn out along an axis, one face each.

    Args:
        path: the outline, open or closed, true at ``start``.
        start, end: from where to where (mm).
        axis: along which axis.
        drift: how far it moves in its own u and v for each millimetre along the axis.
    """
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism

    long = end - start
    way = point(axis, long, (drift[0] * long, drift[1] * long)).wrapped
    found = []
    for piece in path.segments:
        a, b = (point(axis, start, q) for q in (piece.start, piece.end))
        if piece.is_line:
            edge = cq.Edge.makeLine(a, b)
        else:
            edge = cq.Edge.makeThreePointArc(a, point(axis, start, piece.point(0.5)), b)
        found.append(cq.Shape.cast(BRepPrimAPI_MakePrism(edge.wrapped, way).Shape()))
    return found


class FinishedSolid:
    """A finished solid, whose faces are found by the tools that left them."""

    def __init__(self, solid: Any) -> None:
        self._faces = [(face, _box(face)) for face in solid.Faces()]
        self._places: dict[int, list[Any]] = {}

    def left_by(self, tools: Iterable[Any]) -> list[Any]:
        """The faces that lie on the surface of some tools."""
        surfaces = [(tool, _box(tool)) for tool in tools]
        found = []
        for i, (face, box) in enumerate(self._faces):
            near = [(tool, around) for tool, around in surfaces if not around.IsOut(box)]
            if near and i not in self._places:
                self._places[i] = _within(face)
            if any(_all_on(self._places[i], tool, around) for tool, around in near):
                found.append(face)
        return found

    def edges_on(self, tools: Iterable[Any]) -> list[Any]:
        """The edges that lie on the surface of some tools, where no face is left."""
        surfaces = [(tool, _box(tool)) for tool in tools]
        edges = {e.hashCode(): e for face, _ in self._faces for e in face.Edges()}
        found = []
        for edge in edges.values():
            places = [edge.positionAt(t).toPnt() for t in _ALONG]
            if any(_all_on(places, tool, around) for tool, around in surfaces):
                found.append(edge)
        return found


def _all_on(places: Sequence[Any], tool: Any, box: Any) -> bool:
    """Whether all places lie on a face; the box around it tells most that do not."""
    return not any(box.IsOut(p) for p in places) and all(
        tool.distance(cq.Vertex.makeVertex(p.X(), p.Y(), p.Z())) <= _ON for p in places
    )


def _box(face: Any) -> Any:
    """A box around a face, a little too large."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.Add_s(face.wrapped, box, False)
    box.Enlarge(_ON)
    return box


def _within(face: Any) -> list[Any]:
    """Some points of a face, away from its edges: on its largest triangles."""
    from OCP.BRep import BRep_Tool
    from OCP.GeomAPI import GeomAPI_ProjectPointOnSurf

    corners, triangles = face.tessellate(0.05, 0.3)
    middles = []
    for a, b, c in ((corners[i] for i in t) for t in triangles):
        middles.append(((b - a).cross(c - a).Length, (a + b + c) * (1 / 3)))
    middles.sort(key=lambda m: -m[0])
    surface = BRep_Tool.Surface_s(face.wrapped)
    found = []
    for _, middle in middles[:_SAMPLES]:
        found.append(GeomAPI_ProjectPointOnSurf(middle.toPnt(), surface).NearestPoint())
    return found


def parts_above(faces: Faces, height: float) -> list[Any]:
    """What of some faces lies above a height (mm)."""
    above = cq.Solid.makeBox(_FAR, _FAR, _FAR, cq.Vector(-_FAR / 2, -_FAR / 2, height))
    return [part for face in faces for part in face.intersect(above).Faces()]


def measure_faces(measure: Measure, groups: Mapping[str, Faces]) -> float:
    """What a measure finds (mm); 0 where one of its groups has been cut away.

    Args:
        measure: what to measure.
        groups: the finished faces of each group, all in one frame; those of a part that this bow
            has not are left out.
    """
    faces = [[f for name in names for f in groups.get(name, ())] for names in measure.groups]
    if not all(faces):
        return 0.0
    return measure.times * _measured(measure, faces)


def _measured(measure: Measure, faces: Sequence[Faces]) -> float:
    if isinstance(measure, Gap):
        first, *others = faces
        return min(_apart(first, other) for other in others)
    if isinstance(measure, Land):
        return _apart(*(_shared(faces[0], other) for other in faces[1:]))
    if isinstance(measure, Along):
        return _reach(faces[1], measure.axis)[0] - _reach(faces[0], measure.axis)[0]
    if isinstance(measure, Extent):
        low, high = _reach(faces[0], measure.axis)
        return high - low
    assert isinstance(measure, Radius)
    round_ = (f for group in faces for f in group if f.geomType() in ("CYLINDER", "CIRCLE"))
    return min(map(_radius, round_), default=math.inf)


def _apart(some: Sequence[Any], others: Sequence[Any]) -> float:
    if not some or not others:
        return 0.0
    one, other = (cq.Compound.makeCompound(list(shapes)) for shapes in (some, others))
    return float(one.distance(other))


def _shared(faces: Faces, others: Faces) -> list[Any]:
    """The edges at which some faces meet others."""
    known = {edge.hashCode(): edge for face in others for edge in face.Edges()}
    edges = (edge for face in faces for edge in face.Edges())
    return [e for e in edges if e.hashCode() in known and e.isSame(known[e.hashCode()])]


def _reach(faces: Faces, axis: Axis) -> tuple[float, float]:
    """How far some faces reach along an axis, both ways (mm): as far planes stand from them."""
    shape, way = cq.Compound.makeCompound(list(faces)), _WAYS[f"+{axis}"]
    low, high = (
        cq.Face.makePlane(4 * _FAR, 4 * _FAR, basePnt=way * far, dir=way) for far in (-_FAR, _FAR)
    )
    return float(shape.distance(low)) - _FAR, _FAR - float(shape.distance(high))


def _radius(shape: Any) -> float:
    """The radius (mm) of a cylinder's face or a round edge."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface

    if shape.geomType() == "CIRCLE":
        return float(shape.radius())
    return float(BRepAdaptor_Surface(shape.wrapped).Cylinder().Radius())
