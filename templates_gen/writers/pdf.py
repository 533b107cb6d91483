"""Write sheets as PDF at true size: vectors, embedded font, print scaling off."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from templates_gen.drawing import Marks, printable
from templates_gen.drawing.font import font_path, font_size
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet
from templates_gen.drawing.tiling import Page, whole
from templates_gen.geometry import Path, Segment

_MM = 72 / 25.4
_FONT = "Lettering"
#: Greatest angle of one Bézier curve: the distance from the arc is below 7e-8 of its radius.
_MOST_TURN = math.radians(22.5)


def write(sheet: Sheet) -> bytes:
    """Write a sheet as a one-page PDF of its own size."""
    return write_pages(f"{sheet.pattern}: {sheet.title}", [whole(sheet)])


def write_pages(title: str, pages: Sequence[Page]) -> bytes:
    """Write pages as one PDF, each scaled about its centre by its correction factors.

    Args:
        title: the title a viewer shows.
        pages: in printing order; they may differ in size.
    """
    _register()
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=_points(pages[0]), invariant=1, initialFontName=_FONT)
    canvas.setTitle(printable(title))
    canvas.setCreator("templates-gen")
    canvas.setViewerPreference("PrintScaling", "None")
    for page in pages:
        canvas.setPageSize(_points(page))
        _page(canvas, page)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _points(page: Page) -> tuple[float, float]:
    return (page.size[0] * _MM, page.size[1] * _MM)


def _page(canvas: Any, page: Page) -> None:
    if page.factors != (1.0, 1.0):
        fx, fy = page.factors
        width, height = _points(page)
        canvas.transform(fx, 0, 0, fy, width * (1 - fx) / 2, height * (1 - fy) / 2)
    # One scale for everything, so that square, bars and template cannot differ.
    canvas.scale(_MM, _MM)
    for layer in Layer:
        _layer(canvas, page.furniture, layer)
    if page.window is not None:
        left, bottom, right, top = page.window
        window = canvas.beginPath()
        window.rect(left, bottom, right - left, top - bottom)
        canvas.clipPath(window, stroke=0, fill=0)
    for layer in Layer if page.content.strokes else ():
        _layer(canvas, page.content, layer)


@cache
def _register() -> None:
    """Read the font once, because it takes longer than a sheet; each file embeds its own subset."""
    pdfmetrics.registerFont(TTFont(_FONT, str(font_path())))


def _layer(canvas: Any, marks: Marks, layer: Layer) -> None:
    style = STYLES[layer]
    canvas.setLineWidth(style.width)
    canvas.setDash(list(style.dashes))
    for marked, filled in ((marks.strokes, 0), (marks.fills, 1)):
        for mark in marked:
            if mark.layer is layer:
                canvas.drawPath(_path(mark.path), stroke=1 - filled, fill=filled)
    for label in marks.labels:
        if label.layer is layer:
            _text(canvas, label)


# Cached: a sheet is written alone and in the PDF of all sheets, a tiled one on every page.
@lru_cache(maxsize=16384)
def _path(path: Path) -> Any:
    drawn = PDFPathObject()
    drawn.moveTo(*path.start)
    for piece in path.segments:
        if piece.is_line:
            drawn.lineTo(*piece.end)
        else:
            _arc(drawn, piece)
    if path.closed:
        drawn.close()
    return drawn


def _arc(drawn: Any, piece: Segment) -> None:
    n = math.ceil(abs(piece.turn) / _MOST_TURN)
    arm = 4 / 3 * math.tan(abs(piece.turn) / n / 4) * piece.radius
    for i in range(n):
        (x0, y0), (x1, y1) = piece.point(i / n), piece.point((i + 1) / n)
        (u0, v0), (u1, v1) = piece.tangent(i / n), piece.tangent((i + 1) / n)
        drawn.curveTo(x0 + arm * u0, y0 + arm * v0, x1 - arm * u1, y1 - arm * v1, x1, y1)


def _text(canvas: Any, label: Label) -> None:
    canvas.saveState()
    canvas.translate(*label.at)
    canvas.rotate(label.angle)
    canvas.setFont(_FONT, font_size(label.height))
    draw = {
        "start": canvas.drawString,
        "middle": canvas.drawCentredString,
        "end": canvas.drawRightString,
    }[label.anchor]
    draw(0, 0, printable(label.text))
    canvas.restoreState()
