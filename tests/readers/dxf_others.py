"""Two readers of DXF written by others, which share no code: ezdxf (Python), GDAL (C++)."""

from __future__ import annotations

import cmath
import io
import math
from collections.abc import Iterator
from typing import Any

import ezdxf
import numpy as np
import pyogrio
import shapely
from ezdxf.math import ConstructionArc
from readers.outline import NODES, Item, Trouble, integrals, piece

pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.02"})


def document(data: bytes) -> Any:
    """The file as ezdxf has it."""
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def by_ezdxf(doc: Any) -> list[Item]:
    """The lines of a document as ezdxf takes them apart."""
    return [_entity(e) for e in doc.modelspace() if e.dxftype() in ("LWPOLYLINE", "CIRCLE", "LINE")]


def audit(doc: Any) -> Iterator[Trouble]:
    """What ezdxf's own audit finds, and whether it takes the file for millimetres."""
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
    parts = [e] if e.dxftype() == "LINE" else list(e.virtual_entities())
    closed = e.dxftype() == "LWPOLYLINE" and bool(e.closed)
    boxes, keys, length, area = [], [], 0.0, 0.0
    at = complex(*e[0][:2]) if e.dxftype() == "LWPOLYLINE" else complex(*e.dxf.start.vec2)
    for part in parts:
        if part.dxftype() == "LINE":
            a, b = complex(*part.dxf.start.vec2), complex(*part.dxf.end.vec2)
            z, v = a + (b - a) * NODES, np.full(len(NODES), b - a)
            boxes.append(
                (min(a.real, b.real), min(a.imag, b.imag), max(a.real, b.real), max(a.imag, b.imag))
            )
            middle = (a + b) / 2
        else:
            z, v, middle, a, b = _arc(part)
            if abs(a - at) > abs(b - at):  # ezdxf gives every arc counter-clockwise
                a, b, z, v = b, a, z, -v
            low, high = ConstructionArc(
                part.dxf.center.vec2, part.dxf.radius, part.dxf.start_angle, part.dxf.end_angle
            ).bounding_box
            boxes.append((low.x, low.y, high.x, high.y))
        at = b
        run, swept = integrals(z, v)
        length, area = length + run, area + swept
        keys.append(piece(a, middle, b))
    left, bottom, right, top = zip(*boxes, strict=True)
    box = (min(left), min(bottom), max(right), max(top))
    return Item(e.dxf.layer, closed, box, length, abs(area), tuple(keys))


def _arc(part: Any) -> tuple[np.ndarray, np.ndarray, complex, complex, complex]:
    centre, r = complex(*part.dxf.center.vec2), part.dxf.radius
    first = math.radians(part.dxf.start_angle)
    turn = math.radians((part.dxf.end_angle - part.dxf.start_angle) % 360.0)
    spin = r * np.exp(1j * (first + turn * NODES))
    a, middle, b = (centre + cmath.rect(r, first + turn * t) for t in (0.0, 0.5, 1.0))
    return centre + spin, 1j * turn * spin, middle, a, b


def by_gdal(data: bytes) -> list[Item]:
    """The lines as GDAL flattens them, measured by shapely (GEOS)."""
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
    # The same set of points whichever way round and wherever it starts is the same line.
    points = np.unique(np.round(points, 4) + 0.0, axis=0)
    first, last = complex(*points[0]), complex(*points[-1])
    key = (first, complex(hash(points.tobytes()) % 2**40, len(points)), last)
    return Item(layer, closed, shape.bounds, shape.length, area, (key,))
