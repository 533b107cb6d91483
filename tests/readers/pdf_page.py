"""Read PDF files with pdfplumber (pdfminer), in millimetres.

Source: ISO 32000-1, 8.5 (paths), 9.9 (embedded fonts), table 150 (PrintScaling), 1/72 inch units.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np
import pdfplumber
from pdfminer.layout import LTChar, LTCurve
from pdfminer.pdftypes import resolve1
from readers.outline import NODES, Item, Run, integrals, joined, piece, straight

_MM = 25.4 / 72


@dataclass(frozen=True)
class Pen:
    """How a line is drawn: width and dashes (mm), and whether it is filled instead."""

    width: float
    dashes: tuple[float, ...]
    filled: bool


class Letter(NamedTuple):
    """A letter and its extent (mm)."""

    text: str
    left: float
    right: float


@dataclass(frozen=True)
class PdfPage:
    """Number of pages in the file, and one page's size (mm), lines with their pens, letters, fonts,
    wish for the printer."""

    pages: int
    size: tuple[float, float]
    items: list[Item]
    pens: list[Pen]
    letters: list[Letter]
    loose_fonts: list[str]
    fonts: list[str]
    scaling: str
    user_unit: float


#: Maps a point on a page of some size (mm) to the paper.
Print = Callable[[complex, tuple[float, float]], complex]


def _as_meant(z: complex, size: tuple[float, float]) -> complex:
    """Print without error."""
    return z


@lru_cache(1000)
def read(data: bytes) -> PdfPage:
    """Read the first page of a PDF file."""
    return next(_each(data, _as_meant))


def every(data: bytes, put: Print = _as_meant) -> list[PdfPage]:
    """Read all pages of a PDF file, lines where a printer prints them; lines stay straight."""
    return list(_each(data, put))


def _each(data: bytes, put: Print) -> Iterator[PdfPage]:
    with pdfplumber.open(io.BytesIO(data)) as doc:
        catalog = doc.doc.catalog
        wishes = resolve1(catalog.get("ViewerPreferences")) or {}
        scaling = getattr(wishes.get("PrintScaling"), "name", "")
        for page in doc.pages:
            yield _page(page, len(doc.pages), scaling, put)


def _page(page: Any, count: int, scaling: str, put: Print) -> PdfPage:
    # In drawing order: pdfplumber lists lines, boxes and curves separately.
    drawn = [o for o in page.layout if isinstance(o, LTCurve)]
    letters = [o for o in page.layout if isinstance(o, LTChar)]
    fonts = [resolve1(f) for f in resolve1(page.page_obj.resources["Font"]).values()]
    size = (float(page.width) * _MM, float(page.height) * _MM)
    return PdfPage(
        count,
        size,
        [_item(o, lambda z: put(z, size)) for o in drawn],
        [_pen(o) for o in drawn],
        [Letter(o.get_text(), o.x0 * _MM, o.x1 * _MM) for o in letters],
        [str(f.get("BaseFont")) for f in fonts if not _embedded(f)],
        [str(f.get("BaseFont")) for f in fonts],
        scaling,
        float(page.page_obj.attrs.get("UserUnit", 1.0)),
    )


def _embedded(font: dict[str, Any]) -> bool:
    descriptor = resolve1(font.get("FontDescriptor")) or {}
    return any(f"FontFile{n}" in descriptor for n in ("", "2", "3"))


def _pen(shape: Any) -> Pen:
    dashes = shape.dashing_style[0] if shape.dashing_style else ()
    return Pen(shape.linewidth * _MM, tuple(dashes), bool(shape.fill))


def _item(shape: Any, put: Callable[[complex], complex]) -> Item:
    closed = any(op == "h" for op, *_ in shape.original_path)
    return joined("", closed, _runs(shape.original_path, put))


def _runs(path: list[tuple[Any, ...]], put: Callable[[complex], complex]) -> Iterator[Run]:
    at = start = 0j
    for op, *raw in path:
        points = [put(complex(*p) * _MM) for p in raw] or [start]
        assert op in ("m", "l", "c", "h"), f"operator {op} among the path data"
        if op == "m":
            start = points[0]
        elif op == "c":
            yield _bezier((at, *points))
        elif abs(points[0] - at) > 1e-9:
            yield straight(at, points[0])
        at = points[-1]


def _bezier(control: tuple[complex, ...]) -> Run:
    a, b, c, d = control
    u, t = 1 - NODES, NODES
    velocity = 3 * (u**2 * (b - a) + 2 * u * t * (c - b) + t**2 * (d - c))
    length, area = integrals(_at(control, NODES), velocity)
    left, right = _reach([z.real for z in control])
    bottom, top = _reach([z.imag for z in control])
    return Run((left, bottom, right, top), length, area, piece(a, _at(control, 0.5), d))


def _at(control: Sequence[complex], t: Any) -> Any:
    a, b, c, d = control
    u = 1 - t
    return u**3 * a + 3 * u**2 * t * b + 3 * u * t**2 * c + t**3 * d


def _reach(values: list[float]) -> tuple[float, float]:
    """Find the least and greatest of a coordinate along a Bézier curve."""
    a, b, c, d = values
    roots = np.roots([-a + 3 * b - 3 * c + d, 2 * (a - 2 * b + c), b - a])
    inner = [r.real for r in roots if abs(r.imag) < 1e-12 and 0 < r.real < 1]
    ends = [a, d, *(float(_at(values, t)) for t in inner)]
    return min(ends), max(ends)
