"""SVG and PDF read back by other libraries show the lines of the sheet: place, length and area.

Referees: svgpathtools for SVG path data, pdfplumber (pdfminer) for PDF, our own reader of group
codes for DXF; the tolerances are in ``readers.outline``. The slow tests read every sheet of two
bows; the sheets here have arcs of both turns, holes, arrowheads and open lines.
"""

from __future__ import annotations

from functools import cache

import pytest
from readers import corpus, svg_page
from readers.verify import verify_dxf_raw, verify_pdf, verify_svg

from templates_gen.bow import catalogue
from templates_gen.drawing.compose import compose
from templates_gen.drawing.sheet import Layer, Sheet
from templates_gen.writers import writer

READERS = {"dxf": verify_dxf_raw, "svg": verify_svg, "pdf": verify_pdf}
TEMPLATES = {t.name: t for t in catalogue.templates()}
DRAWN = ("frog-side", "ferrule-mandrel", "head-face", "button-facets")


@cache
def sheet(name: str) -> Sheet:
    """A template of the violin on a page."""
    return compose(TEMPLATES[name].views(corpus.pattern("violin")), corpus.CARD_INFO)


@pytest.mark.parametrize("form", READERS)
@pytest.mark.parametrize("name", DRAWN)
def test_a_template_read_back_is_the_sheet(name: str, form: str) -> None:
    assert READERS[form](writer(form)(sheet(name)), sheet(name)) == []


@pytest.mark.parametrize("form", READERS)
def test_half_circles_and_holes_read_back_are_the_sheet(form: str) -> None:
    card = corpus.card(0)
    assert READERS[form](writer(form)(card), card) == []


def test_the_sheets_have_arcs_of_both_turns() -> None:
    """Otherwise a flipped arc could pass unnoticed."""
    pieces = [
        piece
        for name in DRAWN
        for stroke in sheet(name).strokes
        if stroke.layer is Layer.OUTLINE
        for piece in stroke.path.segments
    ]
    assert any(p.bulge > 0.01 for p in pieces)
    assert any(p.bulge < -0.01 for p in pieces)


def test_a_quarter_of_a_disc_has_a_quarter_of_its_area_in_svg() -> None:
    """The area is calculated by hand, so that writer, reader and sheet cannot share an error."""
    from math import pi

    from templates_gen.drawing.view import View, cut
    from templates_gen.geometry import Pen

    path = Pen((0.0, 0.0)).line_to(30.0, 0.0).arc_by((0.0, 0.0), pi / 2).close()
    made = writer("svg")(compose([View("", (cut(path),))], corpus.CARD_INFO))
    (item,) = [i for i in svg_page.read(made).items if i.layer == "OUTLINE"]
    assert item.area == pytest.approx(pi * 30**2 / 4, rel=1e-6)
