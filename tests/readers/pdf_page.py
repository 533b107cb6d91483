"""A PDF file as pdfplumber (pdfminer) has it, in millimetres.

Source: ISO 32000-1, 8.5 (paths), 9.9 (embedded fonts), table 150 (PrintScaling), 1/72 inch units.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Any

import numpy as np
import pdfplumber
from pdfminer.pdftypes import resolve1
from readers.outline import NODES, Item, integrals, piece

_MM = 25.4 / 72


@dataclass(frozen=True)
class Pen:
    """How a line is drawn: width and dashes (mm), and whether it is filled instead."""

    width: float
    dashes: tuple[float, ...]
    filled: bool


@dataclass(frozen=True)
class PdfPage:
    """Number of pages, size (mm), lines with their pens, letters, fonts, wish for the printer."""

    pages: int
    size: tuple[float, float]
    items: list[Item]
    pens: list[Pen]
    chars: list[dict[str, Any]]
    loose_fonts: list[str]
    fonts: list[str]
    scaling: str
    user_unit: float


def read(data: bytes) -> PdfPage:
    """Read a PDF file."""
    with pdfplumber.open(io.BytesIO(data)) as doc:
        page = doc.pages[0]
        # By the order drawn: pdfplumber sorts lines, boxes and curves into bins of their own.
        drawn = [o for o in page.layout if hasattr(o, "original_path")]
        catalog = doc.doc.catalog
        wishes = resolve1(catalog.get("ViewerPreferences")) or {}
        fonts = [resolve1(f) for f in resolve1(page.page_obj.resources["Font"]).values()]
        return PdfPage(
            len(doc.pages),
            (float(page.width) * _MM, float(page.height) * _MM),
            [_item(o) for o in drawn],
            [_pen(o) for o in drawn],
            list(page.chars),
            [str(f.get("BaseFont")) for f in fonts if not _embedded(f)],
            [str(f.get("BaseFont")) for f in fonts],
            getattr(wishes.get("PrintScaling"), "name", ""),
            float(page.page_obj.attrs.get("UserUnit", 1.0)),
        )


def _embedded(font: dict[str, Any]) -> bool:
    descriptor = resolve1(font.get("FontDescriptor")) or {}
    return any(f"FontFile{n}" in descriptor for n in ("", "2", "3"))


def _pen(shape: Any) -> Pen:
    dashes = shape.dashing_style[0] if shape.dashing_style else ()
    return Pen(shape.linewidth * _MM, tuple(dashes), bool(shape.fill))


def _item(shape: Any) -> Item:
    at, start, closed = 0j, 0j, False
    boxes, keys, length, area = [], [], 0.0, 0.0
    for op, *raw in shape.original_path:
        points = [complex(*p) * _MM for p in raw]
        if op == "m":
            at = start = points[0]
            continue
        if op == "h":
            closed, points = True, [start]
        if len(points) == 1 and abs(points[0] - at) < 1e-9:
            continue
        assert len(points) in (1, 3), f"operator {op} among the path data"
        control = [at, *points]
        far, swept = integrals(*_bezier(control))
        length, area = length + far, area + swept
        keys.append(piece(at, _bezier_at(control, 0.5), points[-1]))
        xs, ys = _reach([z.real for z in control]), _reach([z.imag for z in control])
        boxes.append((*xs, *ys))
        at = points[-1]
    left, right, bottom, top = zip(*boxes, strict=True)
    box = (min(left), min(bottom), max(right), max(top))
    return Item("", closed, box, length, abs(area), tuple(keys))


def _bezier_at(control: list[complex], t: Any) -> Any:
    if len(control) == 2:
        return control[0] + (control[1] - control[0]) * t
    a, b, c, d = control
    u = 1 - t
    return u**3 * a + 3 * u**2 * t * b + 3 * u * t**2 * c + t**3 * d


def _bezier(control: list[complex]) -> tuple[np.ndarray, np.ndarray]:
    if len(control) == 2:
        velocity = np.full(len(NODES), control[1] - control[0])
    else:
        a, b, c, d = control
        u, t = 1 - NODES, NODES
        velocity = 3 * (u**2 * (b - a) + 2 * u * t * (c - b) + t**2 * (d - c))
    return _bezier_at(control, NODES), velocity


def _reach(values: list[float]) -> tuple[float, float]:
    """Least and greatest of one coordinate along a line or a Bézier piece."""
    ends = [values[0], values[-1]]
    if len(values) == 4:
        a, b, c, d = values
        roots = np.roots([-a + 3 * b - 3 * c + d, 2 * (a - 2 * b + c), b - a])
        inner = [r.real for r in roots if abs(r.imag) < 1e-12 and 0 < r.real < 1]
        ends += [float(_bezier_at(values, t)) for t in inner]
    return min(ends), max(ends)
