"""SVG at true size: millimetres throughout, one group a layer, arcs as arcs."""

from __future__ import annotations

import io
from typing import Any

import svgwrite

from templates_gen.drawing.font import font_size
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet
from templates_gen.drawing.text import printable, text_width
from templates_gen.geometry import Path
from templates_gen.writers.figures import figure

_FAMILY = "'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif"


def write(sheet: Sheet) -> bytes:
    """The sheet as an SVG file; the page's own size, y turned over in the coordinates."""
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
    """An outline as path data, turned over about the page's height (mm)."""
    x, y = path.start
    words = [f"M{figure(x)},{figure(top - y)}"]
    for piece in path.segments:
        x, y = piece.end
        end = f"{figure(x)},{figure(top - y)}"
        if piece.is_line:
            words.append(f"L{end}")
        else:
            # Turned over, a left turn runs clockwise on the screen: sweep flag 0.
            r = repr(round(piece.radius, 9))
            words.append(f"A{r},{r} 0 0 {0 if piece.bulge > 0 else 1} {end}")
    return " ".join([*words, "Z"] if path.closed else words)


def _text(doc: Any, label: Label, top: float) -> Any:
    said = printable(label.text)
    x, y = figure(label.at[0]), figure(top - label.at[1])
    text = doc.text(
        said,
        insert=(x, y),
        fill="black",
        stroke="none",
        text_anchor=label.anchor,
        font_family=_FAMILY,
        font_size=figure(font_size(label.height)),
        textLength=figure(text_width(said, label.height)),
        lengthAdjust="spacingAndGlyphs",
    )
    if label.angle:
        text["transform"] = f"rotate({figure(-label.angle)} {x} {y})"
    return text
