"""Outlines read back from a file, as numbers, and their differences from the sheet.

Every reader gives the same few numbers for each line it meets. They are held against the numbers
of the sheet the file was made from: box, length, area, closed or not, doubled or not. A box alone
would not do: a flipped bulge, an open outline and a doubled one all keep it.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from templates_gen.drawing.sheet import Layer, Sheet
from templates_gen.geometry import Path

Box = tuple[float, float, float, float]
#: Key of a piece in either direction: its two ends and its midpoint, rounded.
Piece = tuple[complex, complex, complex]


@dataclass(frozen=True)
class Item:
    """One line of a drawing, read back (mm, mm²); a layer of "" where the format knows none."""

    layer: str
    closed: bool
    box: Box
    length: float
    area: float
    pieces: tuple[Piece, ...] = ()


class Run(NamedTuple):
    """One piece of a line: its box, length, contribution to the area, and key."""

    box: Box
    length: float
    area: float
    key: Piece


def joined(layer: str, closed: bool, runs: Iterable[Run]) -> Item:
    """A line from its pieces."""
    boxes, lengths, areas, keys = zip(*runs, strict=True)
    left, bottom, right, top = zip(*boxes, strict=True)
    box = (min(left), min(bottom), max(right), max(top))
    return Item(layer, closed, box, sum(lengths), abs(sum(areas)), keys)


def straight(a: complex, b: complex) -> Run:
    """A straight piece."""
    box = (min(a.real, b.real), min(a.imag, b.imag), max(a.real, b.real), max(a.imag, b.imag))
    return Run(box, abs(b - a), (a.conjugate() * b).imag / 2, piece(a, (a + b) / 2, b))


class Trouble(NamedTuple):
    """A difference: what is wrong, its layer ("" for the whole file), and the numbers."""

    what: str
    layer: str
    detail: str


@dataclass(frozen=True)
class Tolerance:
    """Tolerances of a reader: positions and lengths (mm), and relative ones."""

    position: float
    length: float
    area: float
    relative_length: float
    relative_area: float


#: ezdxf and the raw reader read the bulges; coordinates are rounded to 1e-6.
EXACT = Tolerance(1e-6, 2e-6, 2e-6, 1e-6, 1e-6)
#: GDAL flattens arcs at 0.02°.
FLATTENED = Tolerance(1e-5, 1e-5, 1e-3, 1e-5, 1e-5)
#: SVG arcs are given by ends and radius, each rounded, which shifts their midpoint.
ARCS = Tolerance(3e-6, 4e-6, 4e-6, 1e-6, 1e-6)
#: PDF numbers are multiplied by a scale of seven digits, and arcs are Bézier curves.
BEZIER = Tolerance(1e-3, 1e-3, 1e-4, 1e-6, 1e-4)


def piece(a: complex, middle: complex, b: complex) -> Piece:
    """The key of a piece, the same for both directions of travel."""
    a, middle, b = (complex(round(z.real, 4) + 0.0, round(z.imag, 4) + 0.0) for z in (a, middle, b))
    first, last = sorted((a, b), key=lambda z: (z.real, z.imag))
    return (first, middle, last)


def expected(sheet: Sheet, to_file: Callable[[Path], Path]) -> list[Item]:
    """List the sheet's lines in the file's frame, in the order of its layers."""
    marks = [(s.layer, s.path) for s in sheet.strokes] + [(f.layer, f.path) for f in sheet.fills]
    return [
        Item(
            layer.value,
            path.closed,
            path.box,
            path.length,
            abs(path.area) if path.closed else 0.0,
        )
        for layer, path in ((layer, to_file(path)) for layer, path in marks)
    ]


def by_layer(items: Iterable[Item]) -> list[Item]:
    """Sort by the sheet's layers, else keep the order."""
    order = {layer.value: i for i, layer in enumerate(Layer)}
    return sorted(items, key=lambda item: order.get(item.layer, len(order)))


def compare(meant: Sequence[Item], found: Sequence[Item], tol: Tolerance) -> Iterator[Trouble]:
    """List the differences between the lines found and those expected."""
    yield from _counts(meant, found)
    for m, f in _paired(by_layer(meant), by_layer(found)):
        at = f"at ({m.box[0]:.2f}, {m.box[1]:.2f})"
        if m.closed != f.closed:
            yield Trouble("open" if m.closed else "closed", m.layer, at)
        off = max(abs(a - b) for a, b in zip(m.box, f.box, strict=True))
        if not off <= tol.position:
            yield Trouble("box", m.layer, f"{at}: {m.box} read as {f.box}, {off:.1e} off")
        if not abs(m.length - f.length) <= tol.length + tol.relative_length * m.length:
            yield Trouble("length", m.layer, f"{at}: {m.length!r} read as {f.length!r}")
        area_off = abs(m.area - f.area) if m.closed and f.closed else 0.0
        if not area_off <= tol.area + tol.relative_area * m.area:
            yield Trouble("area", m.layer, f"{at}: {m.area!r} read as {f.area!r}")


def doubled(items: Iterable[Item]) -> Iterator[Trouble]:
    """List pieces drawn twice, in the same outline or another."""
    seen: set[Piece] = set()
    for item in items:
        for key in item.pieces:
            if key in seen:
                yield Trouble("doubled", item.layer, f"at {key[1]}")
            seen.add(key)


def no_length(items: Iterable[Item]) -> Iterator[Trouble]:
    """List lines of zero length."""
    for item in items:
        if not item.length > 1e-6:
            yield Trouble("no length", item.layer, f"at {item.box[:2]}")


def square(items: Iterable[Item], tol: Tolerance) -> Iterator[Trouble]:
    """Check that the measuring square is 50 mm in both directions."""
    if not any(_is_square(i, 2 * tol.position) for i in items):
        yield Trouble("square", "", "no square of 50 mm")


def _is_square(item: Item, off: float) -> bool:
    left, bottom, right, top = item.box
    sides = abs(right - left - 50.0) <= off and abs(top - bottom - 50.0) <= off
    return item.closed and sides and abs(item.area - 2500.0) <= 100 * off


def _counts(meant: Sequence[Item], found: Sequence[Item]) -> Iterator[Trouble]:
    wanted, there = Counter(i.layer for i in meant), Counter(i.layer for i in found)
    for layer in sorted({*wanted, *there}):
        if wanted[layer] != there[layer]:
            yield Trouble("count", layer, f"{wanted[layer]} lines drawn, {there[layer]} read")


def _paired(meant: list[Item], found: list[Item]) -> Iterator[tuple[Item, Item]]:
    """Pair each expected line with one found: in order if close, else the nearest remaining."""
    if len(meant) == len(found) and all(
        _apart(m, f) < 0.01 for m, f in zip(meant, found, strict=True)
    ):
        yield from zip(meant, found, strict=True)
        return
    left = list(found)
    for m in meant:
        if not left:
            return
        nearest = min(left, key=lambda f: _apart(m, f))
        left.remove(nearest)
        yield m, nearest


def _apart(m: Item, f: Item) -> float:
    if m.layer != f.layer:
        return math.inf
    corners = sum(abs(a - b) for a, b in zip(m.box, f.box, strict=True))
    return corners + abs(m.length - f.length)


#: Gauss-Legendre on 0 … 1: twelve points integrate an arc of a right angle beyond 1e-14.
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)
NODES, WEIGHTS = (_NODES + 1) / 2, _WEIGHTS / 2


def integrals(point: np.ndarray, velocity: np.ndarray) -> tuple[float, float]:
    """Calculate length and ½∮(x dy − y dx) of a curve given at the nodes as complex numbers."""
    length = float(np.dot(WEIGHTS, np.abs(velocity)))
    return length, float(np.dot(WEIGHTS, (point.conjugate() * velocity).imag)) / 2
