"""Printer calibration: worked values, rejected measurements, kept comments, corrected PDF."""

import math
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from command.calls import call, refused
from readers import pdf_page
from tooling.forms import form, sheet
from tooling.raster import needs_poppler, pages

from templates_gen.bench.calibrate import factors as calibrate
from templates_gen.bench.calibrate import page as calibrate_page
from templates_gen.drawing.marks import box_of, label_corners, overlap
from templates_gen.errors import InputError
from templates_gen.pipeline import output
from templates_gen.pipeline.output import OutputOptions
from templates_gen.shop.read import read, usual
from templates_gen.shop.starter import STARTER
from templates_gen.writers import pdf

FACTORS = (150 / 149.2, 200 / 198.7)


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


def options(factors=FACTORS, paper="a4"):
    shop = usual()
    x, y = factors
    return OutputOptions(
        replace(shop, printer=replace(shop.printer, x_factor=x, y_factor=y)), paper
    )


def test_worked_factors():
    """Worked by hand: 150/149.2 = 1.0053619, 200/198.7 = 1.0065425."""
    assert calibrate.factors(149.2, 198.7) == pytest.approx((1.0053619, 1.0065425), abs=5e-8)


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ((150 * 279.4 / 297, 200 * 279.4 / 297), "an A4 page was fitted onto letter paper"),
        ((150 * 210 / 215.9, 200 * 210 / 215.9), "a letter page was fitted onto A4 paper"),
        ((150 * 0.96, 200 * 0.96), "shrunk to the printer's margins"),
        ((150 * 0.953, 200 * 0.955), "shrunk to the printer's margins"),
        ((198.7, 149.2), "lengths are swapped"),
        ((5.88, 7.83), "in inches"),
        ((14.92, 19.87), "in centimetres"),
        ((150.0, 180.0), "more than a printer's own error"),
        ((155.0, 200.0), "more than a printer's own error"),
        ((float("nan"), 200.0), "not a length"),
        ((150.0, -200.0), "not a length"),
        ((float("inf"), 200.0), "not a length"),
    ],
)
def test_rejects_measurements_that_are_no_printer_error(measured, words):
    with pytest.raises(InputError) as e:
        calibrate.factors(*measured)
    assert all(words in str(f) for f in e.value.faults)


def test_ratios_of_a4_and_letter():
    """Worked by hand: 279.4/297 = 0.940741, 210/215.9 = 0.972673."""
    assert pytest.approx(0.940741, abs=5e-7) == calibrate.A4_ON_LETTER
    assert pytest.approx(0.972673, abs=5e-7) == calibrate.LETTER_ON_A4


@pytest.mark.parametrize("edge", [0.9701, 1.0299])
def test_accepts_an_error_of_up_to_three_per_cent(edge):
    assert calibrate.factors(150 / edge, 200.0) == pytest.approx((edge, 1.0))


@pytest.mark.parametrize("lean_deg", [-0.4, -0.05, 0.0, 0.2])
def test_skew_from_diagonals_of_a_leaning_rectangle(lean_deg):
    """The corners of a parallelogram leant by an angle, and Pythagoras."""
    lean = math.radians(lean_deg)
    top = (200 * math.sin(lean), 200 * math.cos(lean))
    d1 = math.dist((0, 0), (150 + top[0], top[1]))
    d2 = math.dist((150, 0), top)
    found = calibrate.skew(d1, d2)
    assert found.degrees == pytest.approx(lean_deg, abs=1e-9)
    assert found.over == pytest.approx(200 * math.sin(lean), abs=1e-9)


@pytest.mark.parametrize("d", [(25.0, 25.0), (250.0, 300.0), (float("nan"), 250.0), (0.0, 250.0)])
def test_rejects_impossible_diagonals(d):
    with pytest.raises(InputError, match="are impossible for 150 × 200 mm"):
        calibrate.skew(*d)


def test_the_diagonals_are_250():
    """3, 4, 5."""
    assert calibrate.DIAGONAL == 250.0


def test_writes_only_the_factors_to_the_shop_file(capsys):
    mine = STARTER.replace("# kerf = 0.2 ", "kerf = 0.15 # my own word\n#")
    Path("shop.toml").write_text(mine)
    said = call(capsys, "calibrate", "--measured", "149.2", "198.7", "--shop", "shop.toml")
    assert said.status == 0
    assert "x_factor 1.005362, y_factor 1.006543" in said.out
    before, after = mine.splitlines(), Path("shop.toml").read_text().splitlines()
    changed = [b for a, b in zip(before, after, strict=True) if a != b]
    assert [line.split("#")[0].split() for line in changed] == [
        ["x_factor", "=", "1.005362"],
        ["y_factor", "=", "1.006543"],
    ]
    assert all("nominal length divided by measured" in line for line in changed)
    assert read("shop.toml").printer.factors == pytest.approx(FACTORS, abs=5e-7)
    assert read("shop.toml").laser.kerf == 0.15


def test_creates_a_missing_shop_file(capsys):
    call(capsys, "calibrate", "--measured", "150", "200.2", "--shop", "mine.toml")
    table = tomllib.loads(Path("mine.toml").read_text())
    assert table["printer"] == {"x_factor": 1, "y_factor": 0.999001}


def test_does_not_change_a_shop_file_with_a_fault(capsys):
    Path("shop.toml").write_text('units = "mm"\n[paper]\nmargin = 100\n')
    said = call(capsys, "calibrate", "--measured", "149.2", "198.7", "--shop", "shop.toml")
    assert "shop.toml:3: paper.margin" in refused(said)[0]
    assert "printer" not in Path("shop.toml").read_text()


@pytest.mark.parametrize(
    ("argv", "messages"),
    [
        ([], 1),
        (["--measured", "149.2", "198.7"], 1),
        (["--measured", "141.1", "188.1", "--shop", "s.toml"], 2),
        (["--diagonals", "1", "2"], 1),
    ],
)
def test_rejects_incomplete_and_impossible_calls(capsys, argv, messages):
    refused(call(capsys, "calibrate", *argv), messages=messages)
    assert list(Path().iterdir()) == []


def test_reports_skew(capsys):
    said = call(capsys, "calibrate", "--diagonals", "251.2", "248.8")
    assert (
        "0.57°" in said.out and "to the right" in said.out and "feed the paper straight" in said.out
    )
    assert (
        "too small to measure with a rule"
        in call(capsys, "calibrate", "--diagonals", "250.1", "250").out
    )


@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid"])
def test_test_page_measures_true(capsys, paper):
    assert call(capsys, "calibrate", "-o", ".", "--paper", paper).status == 0
    (file,) = Path().glob("*.pdf")
    page = pdf_page.read(file.read_bytes())
    assert page.scaling == "None"
    sizes = [(i.box[2] - i.box[0], i.box[3] - i.box[1]) for i in page.items if i.closed]
    assert sizes == [pytest.approx((50, 50), abs=1e-3), pytest.approx((150, 200), abs=1e-3)]
    boxes = [
        box_of(label_corners(n))
        for n in calibrate_page.page(paper, usual().printer).furniture.labels
    ]
    assert not any(overlap(a, b) for i, a in enumerate(boxes) for b in boxes[:i])
    assert max(b[2] for b in boxes) < calibrate_page.page(paper, usual().printer).size[0] - 10


def test_test_page_accepts_a_printer_with_an_error(capsys):
    """The page corrects a square of 49.75 mm; one of 47 to 48.6 mm was fitted to the paper."""
    plain = usual().printer
    for printer in (plain, replace(plain, x_factor=1.005)):
        words = [n.text for n in calibrate_page.page("a4", printer).furniture.labels]
        assert not any("do not use" in text for text in words)
        assert "Below 49 mm" in words and "at 100 %, 'actual size'." in words


def squares(data):
    return [
        (i.box[2] - i.box[0], i.box[3] - i.box[1])
        for i in pdf_page.read(data).items
        if i.closed and i.length < 203 and len(i.pieces) == 4
    ]


def test_corrects_only_the_pdf_and_notes_it():
    made = sheet(form(150, 40))
    plain = output.files("a", "A", [made], ("dxf", "svg", "pdf"), OutputOptions())
    mended = output.files("a", "A", [made], ("dxf", "svg", "pdf"), options())
    assert plain["a--card.dxf"] == mended["a--card.dxf"]
    assert plain["a--card.svg"] == mended["a--card.svg"]
    assert squares(plain["a--card.pdf"]) == [pytest.approx((50, 50), abs=1e-3)]
    meant = (50 * FACTORS[0], 50 * FACTORS[1])
    assert squares(mended["a--card.pdf"]) == [pytest.approx(meant, abs=1e-3)]
    said = "".join(c.text for c in pdf_page.read(mended["a--card.pdf"]).letters)
    assert "Corrected: ↔ 1.00536, ↕ 1.00654" in said
    assert "Corrected" not in "".join(c.text for c in pdf_page.read(plain["a--card.pdf"]).letters)


def test_every_page_of_a_tiled_form_has_the_note():
    """The pages are landscape: the factor across the portrait test page is up on them."""
    printed = output.pages(sheet(form()), options())
    assert len(printed) == 4
    for page in printed:
        notes = [n for n in page.furniture.labels if n.text == "Corrected: ↔ 1.00654, ↕ 1.00536"]
        assert len(notes) == 1
        others = [n for n in page.furniture.labels if n is not notes[0]]
        own = box_of(label_corners(notes[0]))
        assert not any(overlap(own, box_of(label_corners(n))) for n in others)


@needs_poppler
def test_a_corrected_page_measures_true_on_its_printer():
    """The printer prints 150 as 149.2 and 200 as 198.7; the corrected square is 50 by 50."""
    made = output.pages(sheet(form(150, 40)), options())
    (page,) = pages(pdf.write_pages("a", made))
    about_middle = 105 - (105 - 20) * FACTORS[0]
    wide, high = page.square(about_middle)
    assert (wide / FACTORS[0], high / FACTORS[1]) == pytest.approx((50, 50), abs=0.1)
    assert wide == pytest.approx(50.27, abs=0.1)
