"""Measure walls and clearances between the finished faces of solids.

A finished face is identified by the tool that cut it: its inner points lie on the tool's surface.
This finds all pieces of a face that other cuts have split, and no face that only passes nearby.
Distances are the kernel's, between whole faces.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from typing import Any

from templates_gen.checks import Along, Axis, Extent, Gap, Land, Measure, Radius
from templates_gen.geometry import Path
from templates_gen.kernel import cq
from templates_gen.kernel.solids import point

#: A point within this distance (mm) of a tool is on it: the worst accuracy of a lofted face.
_ON = 2e-5
#: Distance (mm) of a plane beyond every bow.
_FAR = 2000.0
#: Number of points that identify a face.
_SAMPLES = 3
#: Fractions of the length at which an edge is sampled.
_EDGE_SAMPLES = (0.1, 0.37, 0.5, 0.83)
Faces = Sequence[Any]


@cache
def _direction(name: str) -> Any:
    """Return the unit vector of a sign and an axis, as ``+x``."""
    sign = {"+": 1.0, "-": -1.0}[name[0]]
    return cq.Vector(*(sign * (axis == name[1:]) for axis in "xyz"))


def faces_where(tool: Any, test: Callable[[Any, Any], bool]) -> list[Any]:
    """List the faces of a tool whose normal and centre pass a test."""
    return [f for f in tool.Faces() if test(f.normalAt(), f.Center())]


def toward(tool: Any, *directions: str) -> list[Any]:
    """List the faces of a tool that face one of some directions, as ``+x`` or ``-z``."""
    return faces_where(
        tool, lambda normal, _: any(normal.dot(_direction(d)) > 0.8 for d in directions)
    )


def faces_around(tool: Any, axis: Axis) -> list[Any]:
    """List the faces of a tool round an axis: all but those square to it."""
    return faces_where(tool, lambda normal, _: abs(normal.dot(_direction(f"+{axis}"))) < 0.999)


def round_faces(tool: Any) -> list[Any]:
    """List the cylindrical faces of a tool."""
    return [f for f in tool.Faces() if f.geomType() == "CYLINDER"]


def outermost_face(tool: Any, direction: str) -> list[Any]:
    """Find the face of a tool that is farthest in a direction, as ``+x``."""
    return [max(tool.Faces(), key=lambda f: f.Center().dot(_direction(direction)))]


def lowest_face(faces: Faces) -> list[Any]:
    """Find the face whose centre is lowest."""
    return [min(faces, key=lambda f: f.Center().z)]


def swept_faces(
    path: Path, start: float, end: float, axis: Axis, drift: tuple[float, float] = (0.0, 0.0)
) -> list[Any]:
    """Sweep each piece of an outline along an axis to a face.

    Args:
        path: the outline at ``start``, open or closed.
        start, end: ends of the sweep along the axis (mm).
        axis: the axis.
        drift: shift in u and v per millimetre along the axis.
    """
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism

    length = end - start
    vector = point(axis, length, (drift[0] * length, drift[1] * length)).wrapped
    found = []
    for piece in path.segments:
        a, b = (point(axis, start, q) for q in (piece.start, piece.end))
        if piece.is_line:
            edge = cq.Edge.makeLine(a, b)
        else:
            edge = cq.Edge.makeThreePointArc(a, point(axis, start, piece.point(0.5)), b)
        found.append(cq.Shape.cast(BRepPrimAPI_MakePrism(edge.wrapped, vector).Shape()))
    return found


class FinishedSolid:
    """A finished solid whose faces are identified by the tools that cut them."""

    def __init__(self, solid: Any) -> None:
        self._faces = [(face, _box(face)) for face in solid.Faces()]
        self._places: dict[int, list[Any]] = {}

    def faces_on(self, tools: Iterable[Any]) -> list[Any]:
        """List the faces that lie on the surface of some tools."""
        surfaces = [(tool, _box(tool)) for tool in tools]
        found = []
        for i, (face, box) in enumerate(self._faces):
            near = [(tool, around) for tool, around in surfaces if not around.IsOut(box)]
            if near and i not in self._places:
                self._places[i] = _inner_points(face)
            if any(_all_on(self._places[i], tool, around) for tool, around in near):
                found.append(face)
        return found

    def edges_on(self, tools: Iterable[Any]) -> list[Any]:
        """List the edges that lie on the surface of some tools, where no face is left."""
        surfaces = [(tool, _box(tool)) for tool in tools]
        edges = {e.hashCode(): e for face, _ in self._faces for e in face.Edges()}
        found = []
        for edge in edges.values():
            places = [edge.positionAt(t).toPnt() for t in _EDGE_SAMPLES]
            if any(_all_on(places, tool, around) for tool, around in surfaces):
                found.append(edge)
        return found


def _all_on(points: Sequence[Any], tool: Any, box: Any) -> bool:
    """Report whether all points lie on a face; its bounding box excludes most."""
    return not any(box.IsOut(p) for p in points) and all(
        tool.distance(cq.Vertex.makeVertex(p.X(), p.Y(), p.Z())) <= _ON for p in points
    )


def _box(face: Any) -> Any:
    """Make a bounding box of a face, enlarged a little."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    BRepBndLib.Add_s(face.wrapped, box, False)
    box.Enlarge(_ON)
    return box


def _inner_points(face: Any) -> list[Any]:
    """List some points of a face away from its edges, in its largest triangles."""
    from OCP.BRep import BRep_Tool
    from OCP.GeomAPI import GeomAPI_ProjectPointOnSurf

    corners, triangles = face.tessellate(0.05, 0.3)
    centres = []
    for a, b, c in ((corners[i] for i in t) for t in triangles):
        centres.append(((b - a).cross(c - a).Length, (a + b + c) * (1 / 3)))
    centres.sort(key=lambda m: -m[0])
    surface = BRep_Tool.Surface_s(face.wrapped)
    found = []
    for _, centre in centres[:_SAMPLES]:
        found.append(GeomAPI_ProjectPointOnSurf(centre.toPnt(), surface).NearestPoint())
    return found


def parts_above(faces: Faces, height: float) -> list[Any]:
    """Cut out the parts of faces above a height (mm)."""
    above = cq.Solid.makeBox(_FAR, _FAR, _FAR, cq.Vector(-_FAR / 2, -_FAR / 2, height))
    return [part for face in faces for part in face.intersect(above).Faces()]


def measure_faces(measure: Measure, groups: Mapping[str, Faces]) -> float:
    """Take a measure (mm) between groups of faces; 0 where a group has been cut away.

    Args:
        measure: what to measure.
        groups: the finished faces of each group, all in one frame; without those of absent parts.
    """
    faces = [[f for name in names for f in groups.get(name, ())] for names in measure.groups]
    if not all(faces):
        return 0.0
    return measure.times * _measured(measure, faces)


def _measured(measure: Measure, faces: Sequence[Faces]) -> float:
    if isinstance(measure, Gap):
        first, *others = faces
        return min(_distance(first, other) for other in others)
    if isinstance(measure, Land):
        return _distance(*(_shared_edges(faces[0], other) for other in faces[1:]))
    if isinstance(measure, Along):
        return _extent(faces[1], measure.axis)[0] - _extent(faces[0], measure.axis)[0]
    if isinstance(measure, Extent):
        low, high = _extent(faces[0], measure.axis)
        return high - low
    assert isinstance(measure, Radius)
    curved = (f for group in faces for f in group if f.geomType() in ("CYLINDER", "CIRCLE"))
    return min(map(_radius, curved), default=math.inf)


def _distance(some: Sequence[Any], others: Sequence[Any]) -> float:
    if not some or not others:
        return 0.0
    one, other = (cq.Compound.makeCompound(list(shapes)) for shapes in (some, others))
    return float(one.distance(other))


def _shared_edges(faces: Faces, others: Faces) -> list[Any]:
    """List the edges at which some faces meet others."""
    known = {edge.hashCode(): edge for face in others for edge in face.Edges()}
    edges = (edge for face in faces for edge in face.Edges())
    return [e for e in edges if e.hashCode() in known and e.isSame(known[e.hashCode()])]


def _extent(faces: Faces, axis: Axis) -> tuple[float, float]:
    """Measure the extent (mm) of faces along an axis, as distances from far planes."""
    shape, unit = cq.Compound.makeCompound(list(faces)), _direction(f"+{axis}")
    low, high = (
        cq.Face.makePlane(4 * _FAR, 4 * _FAR, basePnt=unit * far, dir=unit) for far in (-_FAR, _FAR)
    )
    return float(shape.distance(low)) - _FAR, _FAR - float(shape.distance(high))


def _radius(shape: Any) -> float:
    """Return the radius (mm) of a cylindrical face or a circular edge."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface

    if shape.geomType() == "CIRCLE":
        return float(shape.radius())
    return float(BRepAdaptor_Surface(shape.wrapped).Cylinder().Radius())
