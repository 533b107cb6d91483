"""DXF R2010: millimetres, closed polylines with bulges, layers by what a line is for."""

from __future__ import annotations

import io
import re
from typing import Any

import ezdxf
from ezdxf.enums import TextEntityAlignment

from templates_gen.drawing.font import font_path
from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet
from templates_gen.drawing.text import printable
from templates_gen.geometry import Path
from templates_gen.geometry.segment import Point
from templates_gen.writers.figures import bulge, coordinate

_STYLE = "LETTERING"
#: What begins a control code in a text; a space behind the first sign keeps the words as meant.
_CODE = re.compile(r"(%(?=%)|\\(?=[UM]\+))")
_ALIGN = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}


def write(sheet: Sheet) -> bytes:
    """The sheet as a DXF file, the first view's own origin at 0, 0."""
    ezdxf.options.write_fixed_meta_data_for_testing = True
    doc = ezdxf.new("R2010", units=4)
    doc.header["$MEASUREMENT"] = 1
    _tables(doc)
    model, (ox, oy) = doc.modelspace(), sheet.datum
    for stroke in sheet.strokes:
        _path(model, stroke.path.moved(-ox, -oy), stroke.layer)
    for fill in sheet.fills:
        # An arrowhead's outline: a filled triangle would need an entity some readers drop.
        _path(model, fill.path.moved(-ox, -oy), fill.layer)
    for label in sheet.labels:
        _text(model, label, (label.at[0] - ox, label.at[1] - oy))
    # Classes come from a set; sorted, the bytes do not depend on the hash seed.
    for name in sorted(doc.entitydb.dxf_types_in_use()):
        doc.classes.add_class(name)
    _extents(doc, sheet)
    out = io.StringIO()
    doc.write(out)
    return out.getvalue().encode("utf-8")


def _tables(doc: Any) -> None:
    doc.styles.add(_STYLE, font=font_path().name)
    for layer, style in STYLES.items():
        name = "CONTINUOUS"
        if style.dashes:
            name = f"{layer.value}_LINE"
            signed = [d if i % 2 == 0 else -d for i, d in enumerate(style.dashes)]
            doc.linetypes.add(name, pattern=[sum(style.dashes), *signed], description=style.purpose)
        made = doc.layers.add(layer.value, color=7, linetype=name)
        made.dxf.lineweight = round(style.width * 100)
        made.description = style.purpose


def _path(model: Any, path: Path, layer: Layer) -> None:
    attribs = {"layer": layer.value}
    whole = path.as_circle()
    if whole is not None:
        (x, y), r = whole
        model.add_circle((coordinate(x), coordinate(y)), coordinate(r), dxfattribs=attribs)
        return
    points = [(coordinate(x), coordinate(y), bulge(b)) for x, y, b in path.vertices]
    model.add_lwpolyline(points, format="xyb", close=path.closed, dxfattribs=attribs)


def _text(model: Any, label: Label, at: Point) -> None:
    said = _CODE.sub(r"\1 ", printable(label.text)).replace("^", "ˆ")
    attribs = {"layer": label.layer.value, "style": _STYLE, "rotation": coordinate(label.angle)}
    entity = model.add_text(said, height=label.height, dxfattribs=attribs)
    entity.set_placement((coordinate(at[0]), coordinate(at[1])), align=_ALIGN[label.anchor])


def _extents(doc: Any, sheet: Sheet) -> None:
    # Words too: a reader that zooms to the extents must not cut them off.
    left, bottom, right, top = Marks(sheet.strokes, sheet.fills, sheet.labels).box
    ox, oy = sheet.datum
    low = (coordinate(left - ox), coordinate(bottom - oy), 0.0)
    high = (coordinate(right - ox), coordinate(top - oy), 0.0)
    doc.modelspace().reset_extents(low, high)
