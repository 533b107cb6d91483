"""Two independent DXF readers: ezdxf (Python) and GDAL (C++)."""

from __future__ import annotations

import cmath
import io
import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import ezdxf
import numpy as np
import pyogrio
import shapely
from ezdxf.math import ConstructionArc
from readers.outline import NODES, Item, Run, Trouble, integrals, joined, piece, straight

pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.02"})


def document(data: bytes) -> Any:
    """Read the file with ezdxf."""
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def by_ezdxf(doc: Any) -> list[Item]:
    """List the lines of a document as ezdxf explodes them."""
    return [_entity(e) for e in doc.modelspace() if e.dxftype() in ("LWPOLYLINE", "CIRCLE", "LINE")]


def audit(doc: Any) -> Iterator[Trouble]:
    """Run ezdxf's audit and check that it reads millimetres."""
    for fault in doc.audit().errors:
        yield Trouble("audit", "", fault.message)
    if doc.units != ezdxf.units.MM:
        yield Trouble("units", "", f"ezdxf takes them for {ezdxf.units.unit_name(doc.units)}")


def _entity(e: Any) -> Item:
    if e.dxftype() == "CIRCLE":
        x, y, r = e.dxf.center.x, e.dxf.center.y, e.dxf.radius
        box = (x - r, y - r, x + r, y + r)
        key = piece(complex(x, y - r), complex(x + r, y), complex(x, y + r))
        return Item(e.dxf.layer, True, box, math.tau * r, math.pi * r * r, (key,))
    if e.dxftype() == "LINE":
        return joined(e.dxf.layer, False, [_straight(e)])
    return joined(e.dxf.layer, bool(e.closed), _runs(e))


def _runs(polyline: Any) -> Iterator[Run]:
    at = complex(*polyline[0][:2])
    for part in polyline.virtual_entities():
        if part.dxftype() == "LINE":
            at = complex(*part.dxf.end.vec2)
            yield _straight(part)
        else:
            a, b, run = _arc(part)
            # ezdxf returns arcs counter-clockwise; the polyline may run clockwise.
            forward = abs(a - at) <= abs(b - at)
            at = b if forward else a
            yield run if forward else run._replace(area=-run.area)


def _straight(part: Any) -> Run:
    return straight(complex(*part.dxf.start.vec2), complex(*part.dxf.end.vec2))


def _arc(part: Any) -> tuple[complex, complex, Run]:
    """Both ends of an arc, and the arc."""
    centre, r = complex(*part.dxf.center.vec2), part.dxf.radius
    first = math.radians(part.dxf.start_angle)
    turn = math.radians((part.dxf.end_angle - part.dxf.start_angle) % 360.0)
    spin = r * np.exp(1j * (first + turn * NODES))
    length, area = integrals(centre + spin, 1j * turn * spin)
    a, middle, b = (centre + cmath.rect(r, first + turn * t) for t in (0.0, 0.5, 1.0))
    low, high = ConstructionArc(
        part.dxf.center.vec2, r, part.dxf.start_angle, part.dxf.end_angle
    ).bounding_box
    return a, b, Run((low.x, low.y, high.x, high.y), length, area, piece(a, middle, b))


@lru_cache(1000)
def by_gdal(data: bytes) -> list[Item]:
    """List the lines as GDAL flattens them, measured by shapely (GEOS)."""
    _, _, wkb, fields = pyogrio.raw.read(data, columns=["Layer"])
    shapes = shapely.from_wkb(wkb)
    return [
        _flattened(layer, shape)
        for layer, shape in zip(fields[0], shapes, strict=True)
        if shape.geom_type != "Point"
    ]


def _flattened(layer: str, shape: Any) -> Item:
    closed = bool(shape.geom_type == "LineString" and shape.is_closed)
    area = shapely.Polygon(shape).area if closed else 0.0
    points = shapely.get_coordinates(shape)
    # The same set of points is the same line, whatever its direction and start.
    points = np.unique((np.round(points, 4) + 0.0) @ (1, 1j))
    key = (points[0], complex(hash(points.tobytes()) % 2**40, len(points)), points[-1])
    return Item(layer, closed, shape.bounds, shape.length, area, (key,))
