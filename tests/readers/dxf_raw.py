"""A DXF reader that knows only group codes and shares no code with the writer.

Source for the codes: the DXF reference (HEADER, TABLES, BLOCKS, ENTITIES; LWPOLYLINE 10, 20, 42,
70; CIRCLE 40; TEXT 1, 11, 21, 40, 50, 72) and its bulge, the tangent of a quarter of the angle.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from readers.outline import Box, Item, Run, joined, piece, straight

Pair = tuple[int, str]


@dataclass(frozen=True)
class Entity:
    """One entity: its kind and its group codes in order."""

    kind: str
    pairs: tuple[Pair, ...]

    def first(self, code: int, default: str = "") -> str:
        return next((v for c, v in self.pairs if c == code), default)

    def number(self, code: int, default: float = 0.0) -> float:
        return float(self.first(code, str(default)))

    @property
    def layer(self) -> str:
        return self.first(8)

    @property
    def corners(self) -> list[tuple[complex, float]]:
        """Vertices and bulges of a polyline, the ends of a line."""
        if self.kind == "LINE":
            ends = ((10, 20), (11, 21))
            return [(complex(self.number(x), self.number(y)), 0.0) for x, y in ends]
        out: list[tuple[complex, float]] = []
        for code, value in self.pairs:
            if code == 10:
                out.append((complex(float(value), 0.0), 0.0))
            elif code == 20 and out:
                out[-1] = (complex(out[-1][0].real, float(value)), out[-1][1])
            elif code == 42 and out:
                out[-1] = (out[-1][0], float(value))
        return out

    @property
    def closed(self) -> bool:
        return self.kind == "CIRCLE" or (
            self.kind == "LWPOLYLINE" and int(self.first(70, "0")) & 1 == 1
        )


@dataclass(frozen=True)
class RawDxf:
    """A DXF file's header values, its layers, what its blocks hold, and its entities."""

    header: dict[str, dict[int, str]]
    layers: dict[str, Entity]
    block_content: list[str]
    entities: list[Entity]

    @property
    def lines(self) -> list[Entity]:
        return [e for e in self.entities if e.kind in ("LWPOLYLINE", "CIRCLE", "LINE")]

    @property
    def texts(self) -> list[Entity]:
        return [e for e in self.entities if e.kind == "TEXT"]

    @property
    def items(self) -> list[Item]:
        return [_item(e) for e in self.lines]

    @property
    def extents(self) -> Box:
        low, high = self.header["$EXTMIN"], self.header["$EXTMAX"]
        return (float(low[10]), float(low[20]), float(high[10]), float(high[20]))


@lru_cache(1000)
def read(data: bytes) -> RawDxf:
    """Read a DXF file in text form."""
    lines = data.decode("utf-8").splitlines()
    assert len(lines) % 2 == 0, "a DXF file is made of pairs of lines"
    pairs = [(int(c), v) for c, v in zip(lines[::2], lines[1::2], strict=True)]
    assert pairs[-1] == (0, "EOF"), "the file ends before its end"
    sections = {name: list(body) for name, body in _sections(pairs)}
    tables = _entities(sections["TABLES"])
    blocks = [e.kind for e in _entities(sections["BLOCKS"])]
    return RawDxf(
        _header(sections["HEADER"]),
        {e.first(2): e for e in tables if e.kind == "LAYER"},
        [kind for kind in blocks if kind not in ("BLOCK", "ENDBLK")],
        _entities(sections["ENTITIES"]),
    )


def _sections(pairs: list[Pair]) -> Iterator[tuple[str, list[Pair]]]:
    start = None
    for i, pair in enumerate(pairs):
        if pair == (0, "SECTION"):
            start = i
        elif pair == (0, "ENDSEC"):
            assert start is not None
            yield pairs[start + 1][1], pairs[start + 2 : i]


def _header(body: list[Pair]) -> dict[str, dict[int, str]]:
    found: dict[str, dict[int, str]] = {}
    name = ""
    for code, value in body:
        if code == 9:
            name = value
            found[name] = {}
        else:
            found[name][code] = value
    return found


def _entities(body: list[Pair]) -> list[Entity]:
    starts = [i for i, (code, _) in enumerate(body) if code == 0] + [len(body)]
    return [Entity(body[a][1], tuple(body[a + 1 : b])) for a, b in pairwise(starts)]


def repeated_start(entity: Entity) -> bool:
    """Report whether a closed polyline repeats its first point at the end."""
    corners = entity.corners
    return entity.closed and len(corners) > 1 and abs(corners[0][0] - corners[-1][0]) < 1e-6


def still(entity: Entity) -> bool:
    """Report whether two neighbouring vertices coincide."""
    return any(abs(a - b) < 1e-6 for (a, _), (b, _) in pairwise(entity.corners))


def _item(entity: Entity) -> Item:
    if entity.kind == "CIRCLE":
        centre, r = complex(entity.number(10), entity.number(20)), entity.number(40)
        box = (centre.real - r, centre.imag - r, centre.real + r, centre.imag + r)
        low, high = centre - 1j * r, centre + 1j * r
        halves = (piece(low, centre + r, high), piece(high, centre - r, low))
        return Item(entity.layer, True, box, math.tau * r, math.pi * r * r, halves)
    corners = entity.corners
    ring = corners + corners[:1] if entity.closed else corners
    runs = [
        straight(a, b) if bulge == 0.0 else _arc(a, b, bulge)
        for (a, bulge), (b, _) in pairwise(ring)
    ]
    return joined(entity.layer, entity.closed, runs)


def _arc(a: complex, b: complex, bulge: float) -> Run:
    angle = 4 * math.atan(bulge)
    r = abs(b - a) / 2 / abs(math.sin(angle / 2))
    # The sagitta of an arc is bulge times half the chord.
    middle = (a + b) / 2 - 0.5j * (b - a) * bulge
    centre = middle + r * 1j * (b - a) / abs(b - a) * math.copysign(1.0, bulge)
    ends = [a, b, *(centre + r * axis for axis in (1, 1j, -1, -1j) if _on(axis, a - centre, angle))]
    xs, ys = [z.real for z in ends], [z.imag for z in ends]
    area = (a.conjugate() * b).imag / 2 + r * r / 2 * (angle - math.sin(angle))
    return Run((min(xs), min(ys), max(xs), max(ys)), r * abs(angle), area, piece(a, middle, b))


def _on(axis: complex, start: complex, angle: float) -> bool:
    """Report whether an arc by ``angle`` from ``start`` passes the direction ``axis``."""
    swept = cmath.phase(axis / start) * math.copysign(1.0, angle) % math.tau
    return swept <= abs(angle)
