"""DXF in millimetres: closed polylines, arcs as bulges, layers by what a line is for."""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Callable
from enum import StrEnum
from typing import Any

import ezdxf
from ezdxf.enums import TextEntityAlignment

from templates_gen.drawing.font import font_path
from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import STYLES, Label, Layer, Sheet
from templates_gen.drawing.text import printable
from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.geometry.segment import Point
from templates_gen.writers.figures import bulge, coordinate

#: A chord of the flattened variant stands at most this far off its arc (mm).
CHORD = 0.01
_STYLE = "LETTERING"
#: What begins a control code in a text; a space behind the first sign keeps the words as meant.
_CODE = re.compile(r"(%(?=%)|\\(?=[UM]\+))")
_ALIGN = {
    "start": TextEntityAlignment.LEFT,
    "middle": TextEntityAlignment.CENTER,
    "end": TextEntityAlignment.RIGHT,
}


class Variant(StrEnum):
    """What a reader can take."""

    ARCS = "arcs"
    FLATTENED = "flattened"
    R12 = "r12"


def write(sheet: Sheet, variant: Variant = Variant.ARCS) -> bytes:
    """The sheet as a DXF file, the first view's own origin at 0, 0.

    Args:
        sheet: what is written.
        variant: arcs as bulges in R2010; straight chords for a reader that drops bulges; or R12
            with its old polylines, which has no place for a unit.
    """
    ezdxf.options.write_fixed_meta_data_for_testing = True
    old = variant is Variant.R12
    doc = _r12() if old else ezdxf.new("R2010", units=4)
    if not old:
        doc.header["$MEASUREMENT"] = 1
    _tables(doc)
    draw = _PATHS[variant]
    model, (ox, oy) = doc.modelspace(), sheet.datum
    for stroke in sheet.strokes:
        draw(model, stroke.path.moved(-ox, -oy), stroke.layer)
    for fill in sheet.fills:
        # An arrowhead's outline: a filled triangle would need an entity some readers drop.
        draw(model, fill.path.moved(-ox, -oy), fill.layer)
    for label in sheet.labels:
        _text(model, label, (label.at[0] - ox, label.at[1] - oy))
    # Classes come from a set; sorted, the bytes do not depend on the hash seed.
    for name in sorted(doc.entitydb.dxf_types_in_use()) if not old else ():
        doc.classes.add_class(name)
    _extents(doc, sheet)
    out = io.StringIO()
    doc.write(out)
    # R12 is read by its code page; what that lacks goes in as \U+XXXX.
    return out.getvalue().encode(doc.output_encoding, errors="dxfreplace")


def _r12() -> Any:
    """A new R12 document, without the line ezdxf logs for each: that R12 has no unit.

    The sheet states it, and the command once for all sheets.
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


def _circle(model: Any, path: Path, layer: Layer) -> bool:
    """Draw a whole circle as one; tell whether it was."""
    whole = path.as_circle()
    if whole is None:
        return False
    (x, y), r = whole
    attribs = {"layer": layer.value}
    model.add_circle((coordinate(x), coordinate(y)), coordinate(r), dxfattribs=attribs)
    return True


def _points(path: Path) -> list[tuple[float, float, float]]:
    return [(coordinate(x), coordinate(y), bulge(b)) for x, y, b in path.vertices]


def _arcs(model: Any, path: Path, layer: Layer) -> None:
    if not _circle(model, path, layer):
        attribs = {"layer": layer.value}
        model.add_lwpolyline(_points(path), format="xyb", close=path.closed, dxfattribs=attribs)


def _chords(model: Any, path: Path, layer: Layer) -> None:
    if not _circle(model, path, layer):
        points = [(coordinate(x), coordinate(y)) for x, y in flatten(path, CHORD)]
        attribs = {"layer": layer.value}
        model.add_lwpolyline(points, format="xy", close=path.closed, dxfattribs=attribs)


def _old(model: Any, path: Path, layer: Layer) -> None:
    if not _circle(model, path, layer):
        attribs = {"layer": layer.value}
        model.add_polyline2d(_points(path), format="xyb", close=path.closed, dxfattribs=attribs)


_PATHS: dict[Variant, Callable[[Any, Path, Layer], None]] = {
    Variant.ARCS: _arcs,
    Variant.FLATTENED: _chords,
    Variant.R12: _old,
}


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
