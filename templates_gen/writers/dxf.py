"""Write a sheet as DXF in mm: closed polylines, arcs as bulges, one layer per kind of line."""

from __future__ import annotations

import io
import logging
import re
from enum import StrEnum
from typing import Any

import ezdxf
from ezdxf.enums import TextEntityAlignment

from templates_gen.drawing import Marks, printable
from templates_gen.drawing.font import font_path
from templates_gen.drawing.sheet import STYLES, Fill, Label, Layer, Sheet, Stroke
from templates_gen.geometry import Path, Point
from templates_gen.geometry.flatten import flatten
from templates_gen.writers.figures import bulge, coordinate

#: Greatest distance of a chord from its arc in the flattened variant (mm).
CHORD = 0.01
_STYLE = "LETTERING"
#: Start of a DXF control code; a space after its first character makes it plain text.
_CODE = re.compile(r"(%(?=%)|\\(?=[UM]\+))")
_ALIGN = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}


class Variant(StrEnum):
    """Kinds of DXF, for different readers."""

    ARCS = "arcs"
    FLATTENED = "flattened"
    R12 = "r12"


def write(sheet: Sheet, variant: Variant = Variant.ARCS) -> bytes:
    """Write a sheet as a DXF file with the first view's origin at 0, 0.

    Args:
        sheet: the sheet.
        variant: R2010 with arcs as bulges; R2010 with chords, for a reader that ignores bulges; or
            R12 with old-style polylines and no unit.
    """
    ezdxf.options.write_fixed_meta_data_for_testing = True
    old = variant is Variant.R12
    doc = _r12() if old else ezdxf.new("R2010", units=4)
    if not old:
        doc.header["$MEASUREMENT"] = 1
    _tables(doc)
    model, (ox, oy) = doc.modelspace(), sheet.datum
    # An arrowhead is drawn as an outline: some readers ignore filled triangles.
    marks: tuple[Stroke | Fill, ...] = (*sheet.strokes, *sheet.fills)
    for mark in marks:
        _path(model, mark.path.moved(-ox, -oy), mark.layer, variant)
    for label in sheet.labels:
        _text(model, label, (label.at[0] - ox, label.at[1] - oy))
    # Sorted, so that the bytes do not depend on the hash seed.
    for name in sorted(doc.entitydb.dxf_types_in_use()) if not old else ():
        doc.classes.add_class(name)
    _extents(doc, sheet)
    out = io.StringIO()
    doc.write(out)
    # R12 has a code page; other characters are written as \U+XXXX.
    return out.getvalue().encode(doc.output_encoding, errors="dxfreplace")


def _r12() -> Any:
    """Make an R12 document without ezdxf's log line that R12 has no unit.

    The sheet states it, and the command prints it once for all sheets.
    """
    log = logging.getLogger("ezdxf")
    level = log.level
    log.setLevel(logging.ERROR)
    try:
        return ezdxf.new("R12", units=0)
    finally:
        log.setLevel(level)


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


def _path(model: Any, path: Path, layer: Layer, variant: Variant) -> None:
    """Add a path as a circle, a polyline with bulges, or a polyline of chords."""
    attribs = {"layer": layer.value}
    if whole := path.as_circle():
        (x, y), r = whole
        model.add_circle((coordinate(x), coordinate(y)), coordinate(r), dxfattribs=attribs)
        return
    if variant is Variant.FLATTENED:
        points = [(x, y, 0.0) for x, y in flatten(path, CHORD)]
    else:
        points = list(path.vertices)
    rounded = [(coordinate(x), coordinate(y), bulge(b)) for x, y, b in points]
    add = model.add_polyline2d if variant is Variant.R12 else model.add_lwpolyline
    add(rounded, format="xyb", close=path.closed, dxfattribs=attribs)


def _text(model: Any, label: Label, at: Point) -> None:
    text = _CODE.sub(r"\1 ", printable(label.text)).replace("^", "ˆ")
    attribs = {"layer": label.layer.value, "style": _STYLE, "rotation": coordinate(label.angle)}
    entity = model.add_text(text, height=label.height, dxfattribs=attribs)
    entity.set_placement((coordinate(at[0]), coordinate(at[1])), align=_ALIGN[label.anchor])


def _extents(doc: Any, sheet: Sheet) -> None:
    # Text included: a reader that zooms to the extents must show it all.
    left, bottom, right, top = Marks(sheet.strokes, sheet.fills, sheet.labels).box
    ox, oy = sheet.datum
    low = (coordinate(left - ox), coordinate(bottom - oy), 0.0)
    high = (coordinate(right - ox), coordinate(top - oy), 0.0)
    doc.modelspace().reset_extents(low, high)
