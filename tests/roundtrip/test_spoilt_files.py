"""Spoilt files: a good file spoilt in one way must fail in the readers for that reason.

The spoilt files are made from a good one (with ezdxf, or in its text), as another program might
spoil it. A fault that a reader cannot see (GDAL ignores units) is
not expected from it.
"""

import io
import re
from dataclasses import replace
from functools import cache

import ezdxf
import pytest
from ezdxf.math import Matrix44
from readers import corpus, svg_page
from readers.verify import (
    verify_dxf_ezdxf,
    verify_dxf_gdal,
    verify_dxf_raw,
    verify_pdf,
    verify_svg,
)
from reportlab.pdfgen.canvas import Canvas

from templates_gen.drawing.sheet import Layer, LineStyle
from templates_gen.writers import pdf, writer

CARD = corpus.card(0)
DXF = {"group codes": verify_dxf_raw, "ezdxf": verify_dxf_ezdxf, "GDAL": verify_dxf_gdal}
FURNITURE = ("NOTE", "DIMENSION")


@cache
def good(form: str) -> bytes:
    return writer(form)(CARD)


def found(troubles) -> set[tuple[str, str]]:
    return {(t.what, t.layer) for t in troubles}


def reasons(troubles) -> set[str]:
    return {t.what for t in troubles}


# --- DXF -----------------------------------------------------------------------------------------


@cache
def spoilt_dxf(spoil) -> bytes:
    doc = ezdxf.read(io.StringIO(good("dxf").decode()))
    spoil(doc, doc.modelspace())
    out = io.StringIO()
    doc.write(out)
    return out.getvalue().encode()


def outline(model):
    """Return the outline, of straight pieces and two arcs."""
    return model.query('LWPOLYLINE[layer=="OUTLINE"]')[0]


def untouched(doc, model):
    """Change nothing: ezdxf reads and writes the file."""


def shrunk(model, factor, but=()):
    for e in model:
        if e.dxf.layer not in but:
            e.transform(Matrix44.scale(factor))


def flip_one(model):
    with outline(model).points("xyseb") as points:
        at = next(i for i, p in enumerate(points) if p[4])
        points[at] = (*points[at][:4], -points[at][4])


def double(model, corner=0):
    """Add the outline again, begun at another corner."""
    points = list(outline(model).get_points("xyb"))
    points = points[corner:] + points[:corner]
    model.add_lwpolyline(points, "xyb", close=True, dxfattribs={"layer": "OUTLINE"})


def straighten(model):
    with outline(model).points("xyseb") as points:
        points[:] = [(*p[:4], 0.0) for p in points]


SPOILT = {
    "97 %": (lambda _, m: shrunk(m, 0.97), ("box", "OUTLINE")),
    "97 % beside a true square": (lambda _, m: shrunk(m, 0.97, FURNITURE), ("box", "OUTLINE")),
    "drawn in inches": (lambda _, m: shrunk(m, 1 / 25.4), ("square", "")),
    "open": (lambda _, m: outline(m).close(False), ("open", "OUTLINE")),
    "doubled": (lambda _, m: double(m), ("doubled", "OUTLINE")),
    "doubled from elsewhere": (lambda _, m: double(m, 1), ("doubled", "OUTLINE")),
    "flipped bulge": (lambda _, m: flip_one(m), ("area", "OUTLINE")),
    "no bulges": (lambda _, m: straighten(m), ("length", "OUTLINE")),
    "a line lost": (lambda _, m: m.delete_entity(outline(m)), ("count", "OUTLINE")),
}


@pytest.mark.parametrize("reader", DXF)
def test_dxf_rewritten_by_ezdxf_is_good(reader):
    troubles = DXF[reader](spoilt_dxf(untouched), CARD)
    # ezdxf drops the extents when it writes a file again; nothing else may differ.
    assert reasons(troubles) <= {"extents"}


@pytest.mark.parametrize("reader", DXF)
@pytest.mark.parametrize("way", SPOILT)
def test_spoilt_dxf(way, reader):
    spoil, reason = SPOILT[way]
    assert reason in found(DXF[reader](spoilt_dxf(spoil), CARD))


@pytest.mark.parametrize("reader", DXF)
def test_true_square_does_not_hide_a_scaled_template(reader):
    """The square is 50 mm and has no fault; the template beside it has."""
    spoil, _ = SPOILT["97 % beside a true square"]
    data = spoilt_dxf(spoil)
    troubles = [t for t in DXF[reader](data, CARD) if t.what != "extents"]
    assert {t.layer for t in troubles} == {"OUTLINE", "POCKET", "SCRIBE", "CENTRE", "DRILL"}
    assert "square" not in reasons(troubles)


@pytest.mark.parametrize(("header", "value"), [("$INSUNITS", 1), ("$MEASUREMENT", 0)])
def test_inch_units(header, value):
    def spoil(doc, _):
        doc.header[header] = value

    data = spoilt_dxf(spoil)
    assert ("units", "") in found(verify_dxf_raw(data, CARD))
    if header == "$INSUNITS":
        assert ("units", "") in found(verify_dxf_ezdxf(data, CARD))


def on_layer_0(_, model):
    outline(model).dxf.layer = "0"


def as_block(doc, model):
    doc.blocks.new("PART").add_circle((0, 0), 1, dxfattribs={"layer": "OUTLINE"})
    model.add_blockref("PART", (0, 0), dxfattribs={"layer": "OUTLINE"})


def as_spline(_, model):
    model.add_spline([(0, 0), (1, 2), (3, 1)], dxfattribs={"layer": "OUTLINE"})


def as_ellipse(_, model):
    model.add_ellipse((0, 0), (2, 0), 0.5, dxfattribs={"layer": "OUTLINE"})


def point_line(_, model):
    model.add_line((1, 1), (1, 1), dxfattribs={"layer": "SCRIBE"})


def start_again(_, model):
    with outline(model).points("xyseb") as points:
        points.append(points[0])


def coloured(_, model):
    outline(model).dxf.color = 1


@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (on_layer_0, "layer"),
        (as_block, "block"),
        (as_spline, "kind"),
        (as_ellipse, "kind"),
        (point_line, "no length"),
        (start_again, "start repeated"),
        (coloured, "colour"),
    ],
)
def test_forbidden_content_of_a_dxf(spoil, reason):
    assert reason in reasons(verify_dxf_raw(spoilt_dxf(spoil), CARD))


def test_wrong_extents():
    good_line, bad_line = b"$EXTMAX\r\n 10\r\n", b"$EXTMAX\r\n 10\r\n9"
    data = good("dxf").replace(b"\n", b"\r\n").replace(good_line, bad_line)
    assert reasons(verify_dxf_raw(data, CARD)) == {"extents"}


# --- SVG -----------------------------------------------------------------------------------------


def in_outline(data: bytes, change) -> bytes:
    """Change the path data of the outline."""
    group = re.compile(rb'(id="OUTLINE".*?<path d=")([^"]*)(")', re.DOTALL)
    return group.sub(lambda m: m[1] + change(m[2].decode()).encode() + m[3], data, count=1)


def sized(data: bytes, factor: float, unit: str) -> bytes:
    """Multiply the stated size of the page, in another unit."""
    return re.sub(
        rb'(width|height)="([0-9.]+)mm"',
        lambda m: b'%s="%s%s"' % (m[1], repr(float(m[2]) * factor).encode(), unit.encode()),
        data,
    )


def scaled_words(d: str, factor: float) -> str:
    """Multiply every length in path data, but not the flags."""

    def word(w: str) -> str:
        figures = re.fullmatch(r"([MLA]?)([-0-9.]+),([-0-9.]+)", w)
        if not figures:
            return w
        return f"{figures[1]}{float(figures[2]) * factor},{float(figures[3]) * factor}"

    return " ".join(word(w) for w in d.split(" "))


def flip_sweep(d: str) -> str:
    return re.sub(r" 0 0 ([01]) ", lambda m: f" 0 0 {1 - int(m[1])} ", d, count=1)


def double_path(data: bytes) -> bytes:
    return re.sub(rb'(id="OUTLINE".*?)(<path [^>]*>)', rb"\1\2\2", data, count=1, flags=re.DOTALL)


SPOILT_SVG = {
    "97 %": (lambda b: sized(b, 0.97, "mm"), ("box", "OUTLINE")),
    "97 % beside a true square": (
        lambda b: in_outline(b, lambda d: scaled_words(d, 0.97)),
        ("box", "OUTLINE"),
    ),
    "sized in inches": (lambda b: sized(b, 1 / 25.4, "in"), ("units", "")),
    "sized in px": (lambda b: sized(b, 90 / 25.4, "px"), ("units", "")),
    "no unit": (lambda b: sized(b, 1, ""), ("box", "OUTLINE")),
    "open": (lambda b: in_outline(b, lambda d: d.removesuffix(" Z")), ("open", "OUTLINE")),
    "doubled": (double_path, ("doubled", "OUTLINE")),
    "flipped arc": (lambda b: in_outline(b, flip_sweep), ("area", "OUTLINE")),
    "arcs made straight": (
        lambda b: in_outline(b, lambda d: re.sub(r"A\S+ 0 0 [01] ", "L", d)),
        ("length", "OUTLINE"),
    ),
    "turned group": (
        lambda b: b.replace(b'id="OUTLINE"', b'id="OUTLINE" transform="scale(0.97)"'),
        ("transform", ""),
    ),
    "pen in px": (
        lambda b: re.sub(rb'stroke-width="([0-9.]+)"', rb'stroke-width="\1px"', b),
        ("units", ""),
    ),
    "nameless group": (lambda b: b.replace(b'id="OUTLINE"', b'id="g1"'), ("groups", "")),
    "outside the groups": (
        lambda b: b.replace(b"</svg>", b'<path d="M0,0 L9,9"/></svg>'),
        ("stray", ""),
    ),
}


@pytest.mark.parametrize("way", SPOILT_SVG)
def test_spoilt_svg(way):
    spoil, reason = SPOILT_SVG[way]
    data = spoil(good("svg"))
    assert data != good("svg")
    assert reason in found(verify_svg(data, CARD))


def test_true_square_does_not_hide_a_scaled_svg_template():
    spoil, _ = SPOILT_SVG["97 % beside a true square"]
    data = spoil(good("svg"))
    assert {t.layer for t in verify_svg(data, CARD)} == {"OUTLINE"}


@pytest.mark.parametrize(("dots", "reads"), [(90, 93.75), (72, 75.0)])
def test_svg_in_px_reads_short(dots, reads):
    """Sized in px of 90 or 72 to the inch, 100 mm reads 93.75 or 75.00 where 96 are meant."""
    data = sized(good("svg"), dots / 25.4, "px")
    sides = [i.box[2] - i.box[0] for i in svg_page.read(data).items if i.closed]
    assert any(side == pytest.approx(reads / 2, abs=1e-6) for side in sides)
    assert {("box", "OUTLINE"), ("area", "OUTLINE"), ("square", "")} <= found(
        verify_svg(data, CARD)
    )


# --- PDF -----------------------------------------------------------------------------------------


def write_pdf(sheet=CARD) -> bytes:
    return pdf.write(sheet)


def with_outline(change):
    """Return the card with a changed outline, as a wrong PDF writer would draw it."""
    strokes = [
        replace(s, path=change(s.path)) if s.layer.value == "OUTLINE" else s for s in CARD.strokes
    ]
    return replace(CARD, strokes=tuple(strokes))


def opened(path):
    return type(path)((*path.vertices, (*path.start, 0.0)), closed=False)


def flipped(path):
    at = next(i for i, v in enumerate(path.vertices) if v[2])
    x, y, bulge = path.vertices[at]
    return type(path)((*path.vertices[:at], (x, y, -bulge), *path.vertices[at + 1 :]))


def smaller(path):
    return path.mapped(lambda p: (p[0] * 0.97, p[1] * 0.97))


@pytest.mark.parametrize(
    ("change", "reason"), [(opened, "open"), (flipped, "area"), (smaller, "box")]
)
def test_spoilt_pdf(change, reason):
    troubles = verify_pdf(write_pdf(with_outline(change)), CARD)
    assert reason in reasons(troubles)
    assert "square" not in reasons(troubles)


def test_doubled_pdf():
    twice = replace(CARD, strokes=CARD.strokes + CARD.strokes[:1])
    assert {"doubled", "count"} <= reasons(verify_pdf(write_pdf(twice), CARD))


def test_pdf_at_97_percent(monkeypatch):
    monkeypatch.setattr(pdf, "_MM", pdf._MM * 0.97)
    assert {"size", "box", "length", "area", "square"} <= reasons(verify_pdf(write_pdf(), CARD))


def test_pdf_that_lets_the_printer_scale():
    data = good("pdf").replace(b"/PrintScaling /None", b"/PrintScaling /Some")
    assert reasons(verify_pdf(data, CARD)) == {"print scaling"}


def test_pdf_with_a_font_that_is_not_embedded(monkeypatch):
    """A canvas without an initial font lists one that is not in the file."""

    def canvas(*args, initialFontName, **options):
        return Canvas(*args, **options)

    monkeypatch.setattr(pdf, "Canvas", canvas)
    assert reasons(verify_pdf(write_pdf(), CARD)) == {"font"}


def test_pdf_with_other_pens(monkeypatch):
    styles = {layer: LineStyle(0.5, (), "") for layer in Layer}
    monkeypatch.setattr(pdf, "STYLES", styles)
    assert reasons(verify_pdf(write_pdf(), CARD)) == {"pen"}
