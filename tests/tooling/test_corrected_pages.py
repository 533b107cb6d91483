"""Pages corrected for a printer with an error, measured as printed.

The printer scales each sheet of paper by one factor along its short and one along its long side.
A landscape page is turned by 90° onto the sheet, either way. pdfplumber reads back
the files; turn and scale are calculated here and share nothing with the writer.
"""

import cmath
import re
from dataclasses import replace

import pytest
from outside.maker import stated
from readers import pdf_page
from readers.outline import BEZIER, by_layer, compare, expected

from templates_gen.pipeline import output, rendering
from templates_gen.pipeline.output import OutputOptions
from templates_gen.shop.params import Printer
from templates_gen.shop.read import usual

#: Nominal length divided by measured, across and up the portrait test page.
ACROSS, UP = 1.005, 0.998
PAPERS = {"a4": (210.0, 297.0), "a3": (297.0, 420.0), "letter": (215.9, 279.4)}


def options(x=ACROSS, y=UP, paper="a4"):
    return OutputOptions(replace(usual(), printer=Printer(x_factor=x, y_factor=y)), paper)


def printer(x=ACROSS, y=UP, way=1):
    """Return a function that maps a place on a page to its place on the printed page.

    Args:
        x, y: correction factors along the short and the long side of a sheet.
        way: a landscape page is turned to the left (1) or to the right (-1).
    """

    def put(z, size):
        turn = cmath.rect(1.0, way * cmath.pi / 2) if size[0] > size[1] else 1.0
        on_sheet = (z - complex(*size) / 2) * turn
        printed = complex(on_sheet.real / x, on_sheet.imag / y)
        return printed / turn + complex(*size) / 2

    return put


def files(family, names, how):
    p = stated(family)
    made = rendering.sheets(rendering.check(p), how, only=names)
    return made, output.files("a", "A", made, ("pdf",), how, together=False)


def squares(page):
    return [i for i in page.items if i.closed and len(i.pieces) == 4 and 199 < i.length < 201]


def sides(item):
    return item.box[2] - item.box[0], item.box[3] - item.box[1]


NAMES = ("form-bending", "form-camber-card", "stick-blank", "frog-side", "ferrule-mandrel")


@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize(
    ("family", "names"),
    [
        ("bass-french", NAMES),
        *(pytest.param(f, (), marks=pytest.mark.slow) for f in ("violin", "bass-french")),
    ],
)
def test_every_page_measures_true_on_paper(family, names, way):
    """Square 50 mm, bars as long as their labels state, every line at its place."""
    made, data = files(family, names, options())
    turned = 0
    for sheet in made:
        laid = output.pages(sheet, options())
        read = pdf_page.every(data[f"a--{sheet.name}.pdf"], printer(way=way))
        for page, meant in zip(read, laid, strict=True):
            turned += page.size[0] > page.size[1]
            assert [sides(s) for s in squares(page)] == [pytest.approx((50, 50), abs=2e-3)]
            said = "".join(c.text for c in page.letters)
            bars = [i for i in page.items if not i.closed and len(i.pieces) == 2]
            bar = sides(max(bars, key=lambda i: i.length))
            assert all(side == pytest.approx(round(side, -1), abs=2e-3) for side in bar)
            assert all(f"{side:.0f}" in said for side in bar)
            lines = [*by_layer(_items(meant.furniture)), *by_layer(_items(meant.content))]
            assert list(compare(_bare(lines), page.items, BEZIER)) == []
    assert turned >= 7


def _items(marks):
    return expected(marks, lambda path: path)


def _bare(items):
    return [type(i)("", i.closed, i.box, i.length, i.area) for i in items]


def test_long_form_has_its_length_on_paper():
    """The outline, on every landscape page that shows it."""
    (sheet,), data = files("bass-french", ("form-bending",), options())
    meant = max(s.path.box[2] - s.path.box[0] for s in sheet.content.strokes if s.path.closed)
    assert meant > 600
    _, *tiles = pdf_page.every(data["a--form-bending.pdf"], printer())
    for page in tiles:
        assert page.size == pytest.approx((297, 210), abs=1e-3)
        assert max(sides(i)[0] for i in page.items if i.closed) == pytest.approx(meant, abs=2e-3)


def test_detects_exchanged_factors():
    """The measurement can fail: with portrait factors a landscape page is 0.7 % off."""
    _, data = files("bass-french", ("form-bending",), options())
    swapped = pdf_page.every(data["a--form-bending.pdf"], printer(UP, ACROSS))[1]
    (square,) = squares(swapped)
    assert sides(square) == pytest.approx((50 * UP / ACROSS, 50 * ACROSS / UP), abs=2e-3)


@pytest.mark.parametrize("paper", PAPERS)
def test_note_states_the_factors_of_the_page(paper):
    """The note states the factors across and up the page that are in the file."""
    how = options(paper=paper)
    names = ("form-bending", "frog-side") if paper != "a3" else ("form-bending",)
    _, plain = files("bass-french", names, OutputOptions(paper=paper))
    _, data = files("bass-french", names, how)
    seen = set()
    for name, content in data.items():
        for page, before in zip(pdf_page.every(content), pdf_page.every(plain[name]), strict=True):
            said = "".join(c.text for c in page.letters)
            told = re.findall(r"Corrected: ↔ (\d\.\d{5}), ↕ (\d\.\d{5})", said)
            (ratios,) = [
                tuple(a / b for a, b in zip(sides(s), sides(t), strict=True))
                for s, t in zip(squares(page), squares(before), strict=True)
            ]
            assert [tuple(map(float, t)) for t in told] == [pytest.approx(ratios, abs=2e-5)]
            lying = page.size[0] > page.size[1]
            assert ratios == pytest.approx((UP, ACROSS) if lying else (ACROSS, UP), abs=2e-5)
            seen.add(lying)
    assert True in seen
