"""PDF at true size: one page, vector, the font inside, printers asked not to scale."""

from __future__ import annotations

import io
import math
from functools import cache
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from templates_gen.drawing.font import font_path, font_size
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet
from templates_gen.drawing.text import printable
from templates_gen.geometry import Path
from templates_gen.geometry.segment import Segment

_MM = 72 / 25.4
_FONT = "Lettering"
#: Bézier pieces of at most this turn stand within 7e-8 of the radius from the arc.
_MOST_TURN = math.radians(22.5)


def write(sheet: Sheet) -> bytes:
    """The sheet as a one-page PDF file of the sheet's size."""
    _register()
    out = io.BytesIO()
    canvas = Canvas(
        out,
        pagesize=(sheet.size[0] * _MM, sheet.size[1] * _MM),
        invariant=1,
        initialFontName=_FONT,
    )
    canvas.setTitle(printable(f"{sheet.pattern}: {sheet.title}"))
    canvas.setCreator("templates-gen")
    canvas.setViewerPreference("PrintScaling", "None")
    # Everything passes through this one scale, so square, bars and template cannot differ.
    canvas.scale(_MM, _MM)
    for layer in Layer:
        _layer(canvas, sheet, layer)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


@cache
def _register() -> None:
    """Read the font once: it costs more than a sheet. Each file still carries its own subset."""
    pdfmetrics.registerFont(TTFont(_FONT, str(font_path())))


def _layer(canvas: Any, sheet: Sheet, layer: Layer) -> None:
    style = STYLES[layer]
    canvas.setLineWidth(style.width)
    canvas.setDash(list(style.dashes))
    for stroke in sheet.strokes:
        if stroke.layer is layer:
            canvas.drawPath(_path(canvas, stroke.path), stroke=1, fill=0)
    for fill in sheet.fills:
        if fill.layer is layer:
            canvas.drawPath(_path(canvas, fill.path), stroke=0, fill=1)
    for label in sheet.labels:
        if label.layer is layer:
            _text(canvas, label)


def _path(canvas: Any, path: Path) -> Any:
    drawn = canvas.beginPath()
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
