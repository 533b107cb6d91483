"""True size: the square, the bars and the template measured in the files.

The square measures 50 mm, the bars measure what their labels state, and the template has the
coordinates of the part's own frame: nothing was scaled or turned.
"""

import pytest
from readers import corpus, dxf_raw, pdf_page, svg_page
from readers.outline import EXACT, Item, compare

from templates_gen.bow import catalogue

full_sheets = pytest.mark.parametrize(("stem", "name"), corpus.FULL_SHEETS)
TEMPLATES = {t.name: t for t in catalogue.templates()}
FURNITURE = {"NOTE", "DIMENSION"}


def read(stem, name, form) -> list[Item]:
    reader = {"dxf": dxf_raw, "svg": svg_page, "pdf": pdf_page}[form]
    return reader.read(corpus.made(stem, name, form)).items


@full_sheets
@pytest.mark.parametrize(("form", "off"), [("dxf", 1e-9), ("svg", 1e-9), ("pdf", 1e-3)])
def test_square_is_50_mm(stem, name, form, off):
    squares = [
        i
        for i in read(stem, name, form)
        if i.closed and len(i.pieces) == 4 and i.area == pytest.approx(2500, abs=100 * off)
    ]
    assert len(squares) == 1
    left, bottom, right, top = squares[0].box
    assert right - left == pytest.approx(50, abs=off)
    assert top - bottom == pytest.approx(50, abs=off)


@full_sheets
def test_bars_measure_what_their_labels_state(stem, name):
    """The two bars are one bent line; each side is as long as the number at its end states."""
    drawing = dxf_raw.read(corpus.made(stem, name, "dxf"))
    bars = [e for e in drawing.lines if e.layer == "NOTE" and not e.closed and len(e.corners) == 3]
    assert len(bars) == 1
    (a, _), (corner, _), (b, _) = bars[0].corners
    numbers = [t for t in drawing.texts if t.layer == "NOTE" and t.first(1).isdigit()]
    for end in (a, b):
        beside = [t for t in numbers if abs(complex(t.number(10), t.number(20)) - end) < 12]
        assert [float(t.first(1)) for t in beside] == [pytest.approx(abs(end - corner), abs=1e-9)]
    along, up = a - corner, b - corner
    assert (along * up.conjugate()).real == 0.0  # square to each other
    ticks = [e.corners for e in drawing.lines if e.layer == "NOTE" and len(e.corners) == 2]
    feet = {round(abs(t[0][0] - corner), 6) for t in ticks}
    assert {10.0 * i for i in range(1, int(abs(along)) // 10 + 1)} <= feet


@full_sheets
def test_template_has_the_parts_own_coordinates(stem, name):
    """The DXF's origin is the first view's own; later views are moved, never scaled or turned."""
    views = TEMPLATES[name].views(corpus.pattern(stem))
    found = [i for i in read(stem, name, "dxf") if i.layer not in FURNITURE]
    first, *later = [[s for s in v.strokes if s.layer.value not in FURNITURE] for v in views]
    meant = [_item(s, 0.0, 0.0) for s in first]
    assert list(compare(meant, found[: len(first)], EXACT)) == []
    start = len(first)
    for strokes in later:
        run = found[start : start + len(strokes)]
        dx = run[0].box[0] - strokes[0].path.box[0]
        dy = run[0].box[1] - strokes[0].path.box[1]
        assert dx == pytest.approx(round(dx), abs=2e-6)  # by whole millimetres
        assert dy == pytest.approx(round(dy), abs=2e-6)
        meant = [_item(s, round(dx), round(dy)) for s in strokes]
        assert list(compare(meant, run, EXACT)) == []
        start += len(strokes)
    assert start == len(found)


def _item(stroke, dx, dy) -> Item:
    path = stroke.path.moved(dx, dy)
    area = abs(path.area) if path.closed else 0.0
    return Item(stroke.layer.value, path.closed, path.box, path.length, area)
