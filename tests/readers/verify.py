"""Compare a written file with its sheet: one function per reader."""

from __future__ import annotations

import dataclasses
import math
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache

from fontTools.ttLib import TTFont
from readers import dxf_others, dxf_raw, pdf_page, svg_page
from readers.outline import (
    ARCS,
    BEZIER,
    EXACT,
    FLATTENED,
    Item,
    Tolerance,
    Trouble,
    by_layer,
    compare,
    doubled,
    expected,
    no_length,
    square,
)

from templates_gen.drawing.font import font_path
from templates_gen.drawing.marks import box_of, box_round, label_corners
from templates_gen.drawing.sheet import STYLES, Layer, Sheet

_LAYERS = {layer.value for layer in Layer}
_KINDS = {"LWPOLYLINE", "CIRCLE", "LINE", "TEXT"}


def verify_dxf_raw(data: bytes, sheet: Sheet) -> list[Trouble]:
    """Verify by group codes: header, layers, entity types and every number."""
    drawing = dxf_raw.read(data)
    return [
        *_dxf_header(drawing, sheet),
        *_dxf_entities(drawing),
        *_dxf_words(drawing, sheet),
        *_lines(_in_dxf(sheet), drawing.items, EXACT),
        *_bulges(drawing, sheet),
    ]


def verify_dxf_ezdxf(data: bytes, sheet: Sheet) -> list[Trouble]:
    """Verify by ezdxf: audit, units, every line."""
    doc = dxf_others.document(data)
    found = dxf_others.by_ezdxf(doc)
    return [*dxf_others.audit(doc), *_lines(_in_dxf(sheet), found, EXACT)]


def verify_dxf_gdal(data: bytes, sheet: Sheet) -> list[Trouble]:
    """Verify by GDAL and shapely: every line, flattened. GDAL ignores the units."""
    # Flattened at steps of 0.02°, the extreme of an arc is missed by a chord's sagitta.
    arcs = (q.radius for s in sheet.strokes for q in s.path.segments if not q.is_line)
    missed = max(arcs, default=0.0) * (1 - math.cos(math.radians(0.01)))
    tol = dataclasses.replace(FLATTENED, position=FLATTENED.position + missed)
    return list(_lines(_in_dxf(sheet), dxf_others.by_gdal(data), tol))


def verify_svg(data: bytes, sheet: Sheet) -> list[Trouble]:
    """Verify by the standard library's XML and svgpathtools."""
    page = svg_page.read(data)
    top = sheet.size[1]
    meant = expected(sheet, lambda p: p.mirrored(y=top / 2))
    return [
        *_svg_page(page, sheet),
        *_svg_groups(page, sheet),
        *_svg_words(page, sheet),
        *_lines(meant, page.items, ARCS),
    ]


def verify_pdf(data: bytes, sheet: Sheet) -> list[Trouble]:
    """Verify by pdfplumber."""
    page = pdf_page.read(data)
    meant = by_layer(expected(sheet, lambda p: p))
    bare = [Item("", m.closed, m.box, m.length, m.area) for m in meant]
    return [
        *_pdf_page(page, sheet),
        *_pdf_words(page, sheet),
        *_lines(bare, page.items, BEZIER),
        *_pens(page, [m.layer for m in meant]),
    ]


def _lines(meant: list[Item], found: list[Item], tol: Tolerance) -> Iterator[Trouble]:
    yield from compare(meant, found, tol)
    yield from doubled(found)
    yield from no_length(found)
    yield from square(found, tol)


# --- DXF -----------------------------------------------------------------------------------------


def _in_dxf(sheet: Sheet) -> list[Item]:
    ox, oy = sheet.datum
    return expected(sheet, lambda p: p.moved(-ox, -oy))


def _dxf_header(drawing: dxf_raw.RawDxf, sheet: Sheet) -> Iterator[Trouble]:
    head = drawing.header
    if head["$ACADVER"][1] != "AC1024":
        yield Trouble("version", "", f"{head['$ACADVER'][1]}, not R2010")
    if int(head["$INSUNITS"][70]) != 4 or int(head["$MEASUREMENT"][70]) != 1:
        yield Trouble("units", "", f"{head['$INSUNITS']}, {head['$MEASUREMENT']}")
    ox, oy = sheet.datum
    words = [box_of((x - ox, y - oy) for x, y in label_corners(n)) for n in sheet.labels]
    true = box_round([*(i.box for i in drawing.items), *words])
    off = max(abs(a - b) for a, b in zip(true, drawing.extents, strict=True))
    if not off <= 1e-6:
        yield Trouble("extents", "", f"{drawing.extents} for {true}")


def _dxf_entities(drawing: dxf_raw.RawDxf) -> Iterator[Trouble]:
    if drawing.block_content:
        yield Trouble("block", "", f"{drawing.block_content}")
    for layer in sorted(_LAYERS - {*drawing.layers}):
        yield Trouble("layer", layer, "is not in the table")
    for e in drawing.entities:
        if e.layer not in _LAYERS:
            yield Trouble("layer", e.layer, f"holds a {e.kind}")
        if e.kind not in _KINDS:
            yield Trouble("kind", e.layer, e.kind)
        if e.first(62) or e.first(420):
            yield Trouble("colour", e.layer, "an entity with a colour of its own")
        if e.first(410, "Model") != "Model" or e.first(67, "0") != "0":
            yield Trouble("paper space", e.layer, e.kind)
    for e in drawing.lines:
        if dxf_raw.repeated_start(e):
            yield Trouble("start repeated", e.layer, f"{e.corners[0][0]}")
        if e.kind != "CIRCLE" and dxf_raw.still(e):
            yield Trouble("no length", e.layer, f"near {e.corners[0][0]}")
        if any(abs(bulge) > 1.0 for _, bulge in e.corners):
            yield Trouble("bulge", e.layer, "more than a half circle")


def _bulges(drawing: dxf_raw.RawDxf, sheet: Sheet) -> Iterator[Trouble]:
    """Compare polylines vertex by vertex: positions to 1e-6, bulges to 1e-12."""
    ox, oy = sheet.datum
    marks = [*sheet.strokes, *sheet.fills]
    paths = [m.path for m in marks if m.path.as_circle() is None]
    polylines = [e for e in drawing.lines if e.kind != "CIRCLE"]
    if len(paths) != len(polylines):
        return  # already reported as a count
    for path, e in zip(paths, polylines, strict=True):
        corners = e.corners
        if len(corners) != len(path.vertices):
            yield Trouble("vertices", e.layer, f"{len(path.vertices)} drawn, {len(corners)} read")
            continue
        for (x, y, b), (z, bulge) in zip(path.vertices, corners, strict=True):
            if not abs(complex(x - ox, y - oy) - z) <= 1e-6:
                yield Trouble("vertices", e.layer, f"({x - ox}, {y - oy}) read as {z}")
            if not abs(b - bulge) <= 1e-12:
                yield Trouble("bulge", e.layer, f"{b} read as {bulge}")


def _dxf_words(drawing: dxf_raw.RawDxf, sheet: Sheet) -> Iterator[Trouble]:
    wanted = Counter((n.layer.value, n.text, n.height) for n in sheet.labels)
    there = Counter((t.layer, t.first(1), t.number(40)) for t in drawing.texts)
    yield from _missing(wanted, there)


def _missing(wanted: Counter, there: Counter) -> Iterator[Trouble]:
    for layer, *said in (wanted - there).elements():
        yield Trouble("words", layer, f"not there: {said}")
    for layer, *said in (there - wanted).elements():
        yield Trouble("words", layer, f"not meant: {said}")


# --- SVG -----------------------------------------------------------------------------------------


def _svg_page(page: svg_page.SvgPage, sheet: Sheet) -> Iterator[Trouble]:
    for size in (page.width, page.height):
        if size.unit != "mm":
            yield Trouble("units", "", f"the size is in {size.unit or 'px, unsaid'}")
    for length in page.foreign:
        yield Trouble("units", "", f"a length of {length}")
    if (page.width.number, page.height.number) != sheet.size:
        yield Trouble("size", "", f"{page.width}, {page.height} for {sheet.size}")
    if page.view != (0.0, 0.0, *sheet.size):
        yield Trouble("view box", "", f"{page.view}")


def _svg_groups(page: svg_page.SvgPage, sheet: Sheet) -> Iterator[Trouble]:
    drawn = {m.layer for m in (*sheet.strokes, *sheet.fills, *sheet.labels)}
    names = [g.get("id") for g in page.groups]
    if names != [layer.value for layer in Layer if layer in drawn]:
        yield Trouble("groups", "", f"{names}")
    for group in page.groups:
        if not re.match(rf"{group.get('id')}\b.+", svg_page.title_of(group)):
            yield Trouble("title", group.get("id", ""), "the group does not say what it is")
    for tag in page.stray:
        yield Trouble("stray", "", f"{tag} outside the groups")
    for tag in page.turned:
        yield Trouble("transform", "", f"on {tag}")
    if not page.commands <= set("MLAZ"):
        yield Trouble("kind", "", f"path commands {sorted(page.commands)}")


def _svg_words(page: svg_page.SvgPage, sheet: Sheet) -> Iterator[Trouble]:
    wanted = Counter((n.layer.value, n.text) for n in sheet.labels)
    there = Counter(
        (g.get("id", ""), t.text or "") for g in page.groups for t in g if t in page.texts
    )
    yield from _missing(wanted, there)


# --- PDF -----------------------------------------------------------------------------------------


def _pdf_page(page: pdf_page.PdfPage, sheet: Sheet) -> Iterator[Trouble]:
    if page.pages != 1:
        yield Trouble("pages", "", f"{page.pages}")
    if not max(abs(a - b) for a, b in zip(page.size, sheet.size, strict=True)) <= 1e-3:
        yield Trouble("size", "", f"{page.size} for {sheet.size}")
    if page.scaling != "None":
        yield Trouble("print scaling", "", f"{page.scaling!r}")
    if page.user_unit != 1.0:
        yield Trouble("user unit", "", f"{page.user_unit}")
    if page.loose_fonts or not page.fonts:
        yield Trouble("font", "", f"not embedded: {page.loose_fonts}")


def _pens(page: pdf_page.PdfPage, layers: list[str]) -> Iterator[Trouble]:
    if len(layers) != len(page.pens):
        return  # already reported as a count
    for layer, pen in zip(layers, page.pens, strict=True):
        style = STYLES[Layer(layer)]
        alike = abs(pen.width - style.width) < 1e-4 and pen.dashes == style.dashes
        if not (alike or pen.filled):
            yield Trouble("pen", layer, f"{pen}")


@cache
def _in_font() -> frozenset[int]:
    """Replace characters the font lacks by its sign for unknown ones."""
    return frozenset(TTFont(font_path()).getBestCmap())


def _pdf_words(page: pdf_page.PdfPage, sheet: Sheet) -> Iterator[Trouble]:
    """Compare every line of text in order, and its length with that calculated for the sheet."""
    at = 0
    for label in sorted(sheet.labels, key=lambda n: list(Layer).index(n.layer)):
        run = page.letters[at : at + len(label.text)]
        at += len(label.text)
        said = "".join(c.text for c in run)
        if [*said] != [c if ord(c) in _in_font() else "\0" for c in label.text]:
            yield Trouble("words", label.layer.value, f"{label.text!r} read as {said!r}")
            return
        if label.angle == 0.0:
            left, _, right, _ = box_of(label_corners(label))
            if not (abs(run[0].left - left) < 0.003 and abs(run[-1].right - right) < 0.003):
                yield Trouble("words", label.layer.value, f"{label.text!r} runs otherwise")
    if at != len(page.letters):
        yield Trouble("words", "", f"{len(page.letters) - at} letters too many")
