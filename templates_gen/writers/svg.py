"""Write a sheet as SVG at true size: in mm, one group per layer, arcs as arcs."""

from __future__ import annotations

import io
import math
from typing import Any

import svgwrite

from templates_gen.drawing import View
from templates_gen.drawing.font import font_size
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet, Stroke
from templates_gen.drawing.text import printable, text_width
from templates_gen.geometry import Path, Point, Segment
from templates_gen.writers.figures import figure

#: Round a view that stands alone (mm).
_MARGIN = 3.0
_FAMILY = "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"


def write(sheet: Sheet) -> bytes:
    """Write a sheet as an SVG file of its own size; y points down in its coordinates."""
    width, height = (figure(v) for v in sheet.size)
    doc = svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False
    )
    doc.set_desc(title=printable(f"{sheet.pattern}: {sheet.title}"), desc=sheet.purpose)
    for layer in Layer:
        group = _group(doc, sheet, layer)
        if group is not None:
            doc.add(group)
    out = io.StringIO()
    doc.write(out)
    return out.getvalue().encode("utf-8")


def write_view(view: View, title: str) -> bytes:
    """Write the lines of one view alone, on a page just large enough."""
    left, bottom, right, top = view.box
    dx, dy = _MARGIN - left, _MARGIN - bottom
    strokes = tuple(Stroke(s.path.moved(dx, dy), s.layer) for s in view.strokes)
    size = (right + dx + _MARGIN, top + dy + _MARGIN)
    return write(Sheet("", view.title, title, "", size, (dx, dy), size, strokes, (), (), ()))


def _group(doc: Any, sheet: Sheet, layer: Layer) -> Any:
    strokes = [s.path for s in sheet.strokes if s.layer is layer]
    fills = [f.path for f in sheet.fills if f.layer is layer]
    labels = [n for n in sheet.labels if n.layer is layer]
    if not (strokes or fills or labels):
        return None
    style, top = STYLES[layer], sheet.size[1]
    group = doc.g(id=layer.value, fill="none", stroke="black", stroke_width=figure(style.width))
    group.set_desc(title=f"{layer.value}: {style.purpose}")
    if style.dashes:
        group["stroke-dasharray"] = " ".join(figure(d) for d in style.dashes)
    for path in strokes:
        group.add(doc.path(d=data(path, top)))
    for path in fills:
        group.add(doc.path(d=data(path, top), fill="black", stroke="none"))
    for label in labels:
        group.add(_text(doc, label, top))
    return group


def data(path: Path, top: float) -> str:
    """Return the SVG path data of a path; ``top`` is the page's height (mm)."""
    words = [f"M{_place(path.start, top)}"]
    for piece in path.segments:
        words += [f"L{_place(piece.end, top)}"] if piece.is_line else _arcs(piece, top)
    return " ".join([*words, "Z"] if path.closed else words)


def _arcs(piece: Segment, top: float) -> list[str]:
    """Return an arc in pieces of at most 90°.

    A reader calculates the centre from both ends and the radius. Near a half circle, rounding an
    end by 1 nm can move that centre by 0.002 mm, and by far more in single precision.
    """
    n = math.ceil(abs(piece.turn) / (math.pi / 2) - 1e-9)
    r = repr(round(piece.radius, 9))
    # With y down, a left turn has the sweep flag 0.
    sweep = 0 if piece.bulge > 0 else 1
    return [f"A{r},{r} 0 0 {sweep} {_place(piece.point(i / n), top)}" for i in range(1, n + 1)]


def _place(p: Point, top: float) -> str:
    return f"{figure(p[0])},{figure(top - p[1])}"


def _text(doc: Any, label: Label, top: float) -> Any:
    words = printable(label.text)
    x, y = figure(label.at[0]), figure(top - label.at[1])
    text = doc.text(
        words,
        insert=(x, y),
        fill="black",
        stroke="none",
        text_anchor=label.anchor,
        font_family=_FAMILY,
        font_size=figure(font_size(label.height)),
        textLength=figure(text_width(words, label.height)),
        lengthAdjust="spacingAndGlyphs",
    )
    if label.angle:
        text["transform"] = f"rotate({figure(-label.angle)} {x} {y})"
    return text
