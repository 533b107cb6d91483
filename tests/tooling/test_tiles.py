"""Tiling: number of pages, their furniture, registration marks and cover."""

import math
from dataclasses import replace

import pytest
from outside.maker import stated
from readers import corpus, pdf_page
from tooling.forms import form, sheet

from templates_gen.drawing import joins
from templates_gen.drawing.furniture import MARGIN, bar_lengths, drawing_area
from templates_gen.drawing.grid import grid
from templates_gen.drawing.lint import lint
from templates_gen.drawing.marks import box_of, label_corners, overlap, stands_on
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.tiling import layout, tiles, whole
from templates_gen.errors import DrawingError
from templates_gen.geometry import circle
from templates_gen.pipeline import output, rendering, selection
from templates_gen.pipeline.output import OutputOptions

PAPERS = {"a4": (210, 297), "a3": (297, 420), "letter": (215.9, 279.4), "tabloid": (279.4, 431.8)}


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("wide", "high"), [(710, 60), (60, 710), (1100, 300), (150, 150)])
def test_number_of_pages(paper, wide, high):
    """ceil((L - o)/(u - o)) each way, portrait or landscape. Common practice, no source."""
    overlap_, least = 15.0, math.inf
    for size in (PAPERS[paper], PAPERS[paper][::-1]):
        left, low, right, top = drawing_area(size)
        counts = (
            max(1, math.ceil((length - overlap_) / (room - overlap_)))
            for length, room in ((wide, right - left), (high, top - low))
        )
        least = min(least, math.prod(counts))
    laid = grid((5.0, 3.0, 5.0 + wide, 3.0 + high), paper, overlap_, 10.0)
    assert laid.count == least
    shown = [laid.shown(at) for at in laid.places]
    assert min(b[0] for b in shown) <= 5 and max(b[2] for b in shown) >= 5 + wide
    assert min(b[1] for b in shown) <= 3 and max(b[3] for b in shown) >= 3 + high


def test_length_of_a_bow_takes_three_landscape_pages():
    laid = grid((0.0, 0.0, 700.0, 60.0), "a4", 10.0, 10.0)
    assert (laid.size, laid.columns, laid.rows) == ((297.0, 210.0), 3, 1)


def test_neighbouring_pages_share_the_overlap():
    laid = grid((0.0, 0.0, 900.0, 400.0), "a4", 17.0, 10.0)
    assert laid.rows > 1 and laid.columns > 1
    by_place = {(at.row, at.column): laid.shown(at) for at in laid.places}
    for (row, column), (left, low, right, top) in by_place.items():
        beside, under = by_place.get((row, column + 1)), by_place.get((row + 1, column))
        if beside:
            assert right - beside[0] == pytest.approx(17.0)
            assert (low, top) == (beside[1], beside[3])
        if under:
            assert under[3] - low == pytest.approx(17.0)
            assert (left, right) == (under[0], under[2])


def test_rejects_an_overlap_as_large_as_the_page():
    with pytest.raises(DrawingError, match="leaves no room"):
        grid((0.0, 0.0, 900.0, 400.0), "a4", 300.0, 10.0)


@pytest.mark.parametrize("size", [(700, 40), (900, 420)])
def test_two_crosses_far_apart_in_every_overlap(size):
    made = sheet(form(*size))
    lies = layout(made, "a4", 15.0)
    laid, found = lies.grid, lies.crosses
    joints = laid.rows * (laid.columns - 1) + laid.columns * (laid.rows - 1)
    assert len(found) == 2 * joints
    assert len({c.name for c in found}) == len(found)
    for one, other in zip(found[::2], found[1::2], strict=True):
        assert math.dist(one.at, other.at) >= 80
    for cross in found:
        on = [at for at in laid.places if _within(cross.box, laid.shown(at))]
        assert len(on) == 2
        assert abs(on[0].row - on[1].row) + abs(on[0].column - on[1].column) == 1


def _within(inner, outer):
    return all(a >= b for a, b in zip(inner[:2], outer[:2], strict=True)) and all(
        a <= b for a, b in zip(inner[2:], outer[2:], strict=True)
    )


def test_does_not_tile_what_fits():
    made = sheet(form(150, 40))
    assert tiles(made, "a4", 15.0) == [whole(made)]


def test_every_page_has_square_bars_and_number():
    made = sheet(form())
    cover, *pages = tiles(made, "a4", 15.0)
    assert len(pages) == 3
    for page in (cover, *pages):
        notes = [s.path for s in page.furniture.strokes if s.layer is Layer.NOTE]
        squares = [p for p in notes if p.closed and p.area == pytest.approx(2500, abs=1e-9)]
        assert len(squares) == 1
        bars = [p for p in notes if not p.closed and len(p.segments) == 2]
        (bar,) = [p for p in bars if p.length == pytest.approx(sum(bar_lengths(page.size)))]
        assert bar.box[2] - bar.box[0] == bar_lengths(page.size)[0]
    for number, page in enumerate(pages, start=1):
        said = [n.text for n in page.furniture.labels]
        assert f"Page {number} of 3: row 1 of 1, column {number} of 3" in said
        assert sum("Between the end ticks" in t for t in said) == (number == 3)
    assert any(
        n.text == "Measure the horizontal datum line, tick to tick: 700 ± 0.7"
        for n in cover.furniture.labels
    )
    names = {n.text for n in cover.furniture.labels}
    assert {"page 1", "page 2", "page 3", "1a", "1b", "2a", "2b"} <= names


@pytest.mark.parametrize("size", [(700, 40), (900, 420), (40, 700)])
@pytest.mark.parametrize("tabled", [False, True])
def test_text_of_a_page_does_not_overlap(size, tabled):
    """The furniture stays out of the template's window and inside the margin."""
    for page in tiles(sheet(form(*size), tabled=tabled), "a4", 15.0):
        boxes = [box_of(label_corners(n)) for n in page.furniture.labels if n.text[:4] != "page"]
        named = [b for n, b in zip(page.furniture.labels, boxes, strict=False)]
        if page.window is not None:
            assert not any(overlap(b, page.window) for b in named)
        for b in named:
            assert b[0] >= 10 and b[1] >= 10
            assert b[2] <= page.size[0] - 10 and b[3] <= page.size[1] - 10


@pytest.mark.parametrize("size", [(700, 40), (900, 420), (40, 700)])
def test_datum_lines_run_over_all_pages_outside_the_template(size):
    made = sheet(form(*size))
    lies = layout(made, "a4", 15.0)
    assert bool(lies.level) == (lies.grid.columns > 1)
    assert bool(lies.upright) == (lies.grid.rows > 1)
    _is_outside(made, lies)
    for check in lies.lengths:
        assert check.length / 10 == pytest.approx(round(check.length / 10))
        assert any(check.length > side - 30 for side in size)


def _is_outside(made, lies):
    """Datum lines are 5 mm or more from every mark; their text touches no line and no text."""
    left, low, right, high = made.content.box
    assert all(y <= low - 5 or y >= high + 5 for y in lies.level)
    assert all(x <= left - 5 or x >= right + 5 for x in lies.upright)
    words = [n for n in lies.content.labels if "between the end ticks" in n.text]
    assert len(words) == 2 * len(lies.lengths) > 0
    shown = [lies.grid.shown(at) for at in lies.grid.places]
    for label in words:
        box = box_of(label_corners(label))
        assert not any(stands_on(box, s.path) for s in lies.content.strokes)
        assert not any(
            overlap(box, box_of(label_corners(n))) for n in lies.content.labels if n is not label
        )
        assert any(_within(box, window) for window in shown)
        for cross in lies.crosses:
            assert not overlap(box, joins.drawn(cross).box)


@pytest.mark.parametrize("stem", ["bass-french", "violin", "cello"])
@pytest.mark.parametrize("stamps", [(), ("FORCED: 3 checks fail; do not cut", "SOLIDS")])
def test_long_sheets_of_the_shipped_patterns(stem, stamps):
    """Datum lines outside, crosses and text clear, and no extra page for the stamps."""
    p = corpus.pattern(stem)
    long = ("form-bending", "form-camber-card", "stick-blank")
    for made in rendering.sheets(p, (), only=long, stamps=stamps):
        lies = layout(made, "a4", 15.0)
        assert (lies.grid.columns, lies.grid.rows) == (3, 1)
        _is_outside(made, lies)
        for cross in lies.crosses:
            box = joins.drawn(cross).box
            assert not any(stands_on(box, s.path) for s in lies.content.strokes), cross
        cover, *pages = tiles(made, "a4", 15.0)
        _names_are_clear(cover)
        above = MARGIN + 4 + 2  # the horizontal bar with its label
        words = [box_of(label_corners(n)) for n in cover.furniture.labels if n.at[0] > 70]
        assert sum(b[1] < above for b in words) == 1  # only the bar's length
        for page in (cover, *pages):
            said = [n.text for n in page.furniture.labels if n.height > 3.5 or n.text == "SOLIDS"]
            assert [*stamps] == [t for t in said if t in stamps][: len(stamps)]


def _names_are_clear(cover):
    """On the map no line runs through the names of crosses and pages."""
    named = [n for n in cover.furniture.labels if n.text[:4] == "page" or n.text[1:] in ("a", "b")]
    assert len(named) >= 6
    for n in named:
        box = box_of(label_corners(n))
        assert not any(stands_on(box, s.path) for s in cover.furniture.strokes), n.text
        others = (box_of(label_corners(m)) for m in cover.furniture.labels if m is not n)
        assert not any(overlap(box, other) for other in others), n.text


@pytest.mark.parametrize("size", [(700, 40), (900, 420), (40, 700)])
def test_names_on_the_cover_touch_no_line(size):
    _names_are_clear(tiles(sheet(form(*size)), "a4", 15.0)[0])


def _pdfs(**how):
    made = rendering.render(stated("violin"), (), formats=("svg", "pdf"), plane=True, **how)
    return {n: data for n, data in made.items() if n.endswith(".pdf")}


def test_all_pages_are_in_one_pdf():
    made = _pdfs()
    whole = made.pop("sanderling.pdf")
    alone = [pdf_page.read(data) for data in made.values()]
    assert pdf_page.read(whole).pages == sum(page.pages for page in alone) > len(alone)
    assert pdf_page.read(whole).scaling == "None"


def test_some_sheets_alone_get_no_common_pdf():
    made = _pdfs(only=("ferrule-mandrel", "frog-side"))
    assert {*made} == {"sanderling--ferrule-mandrel.pdf", "sanderling--frog-side.pdf"}
    assert pdf_page.read(made["sanderling--frog-side.pdf"]).pages == 1
    every = [t.name for t in selection.templates(stated("violin"))]
    assert "sanderling.pdf" in _pdfs(only=every)
    assert "sanderling.pdf" not in _pdfs(only=every[1:])


def test_lists_files_of_an_earlier_draw(tmp_path):
    """Only the pattern's own files, not those of others or the index page."""
    for name in ("a.pdf", "a--one.pdf", "a--two.svg", "ab.pdf", "b--one.pdf", "index.html"):
        (tmp_path / name).write_bytes(b"")
    assert output.earlier(tmp_path, "a", ["a--one.pdf", "index.html"]) == ["a.pdf", "a--two.svg"]
    assert output.earlier(tmp_path, "a", ["a.pdf", "a--one.pdf", "a--two.svg"]) == []
    assert output.earlier(tmp_path / "gone", "a", []) == []


def test_lists_files_of_other_patterns(tmp_path):
    """Recognized by name: stem, two dashes, template; or the stem alone for all sheets."""
    for name in ("a--one.pdf", "b--one.pdf", "b.pdf", "c--one.txt", "letter.pdf", "index.html"):
        (tmp_path / name).write_bytes(b"")
    assert output.others(tmp_path, "a") == ["b.pdf", "b--one.pdf"]
    assert output.others(tmp_path, "b") == ["a--one.pdf"]
    assert output.others(tmp_path / "gone", "a") == []


def test_stated_margin_is_kept():
    from dataclasses import replace

    from templates_gen.shop.read import usual

    shop = usual()
    options = OutputOptions(replace(shop, paper=replace(shop.paper, margin=18.0)))
    (made,) = rendering.sheets(stated("violin"), (), options, only=("frog-side",))
    assert lint(made, 18.0) == []
    boxes = [s.path.box for s in made.strokes] + [box_of(label_corners(n)) for n in made.labels]
    assert min(b[0] for b in boxes) >= 18 and min(b[1] for b in boxes) >= 18
    assert max(b[2] for b in boxes) <= 210 - 18 and max(b[3] for b in boxes) <= 297 - 18


def test_map_shows_the_template_reduced():
    made = sheet(form())
    cover = tiles(made, "a4", 15.0)[0]
    arcs = [s.path for s in cover.furniture.strokes if any(p.bulge for p in s.path.segments)]
    (mapped,) = [p for p in arcs if p.closed and p.as_circle() is None]
    box = mapped.box
    assert (box[2] - box[0]) / (box[3] - box[1]) == pytest.approx(700 / 57.5)
    assert box[2] - box[0] < 260
    assert circle((0, 0), 1).as_circle() is not None


@pytest.mark.parametrize("stem", ["bass-french", "violin"])
def test_every_page_has_the_instruction(stem):
    """Cover and tiles have the sheet's instruction beside the square."""
    p = corpus.pattern(stem)
    for t in selection.templates(p):
        (made,) = rendering.sheets(p, (), only=(t.name,), stamps=("FORCED", "SOLIDS NOT CONFIRMED"))
        printed = tiles(made, "a4", 15.0)
        for page in printed:
            said = " ".join(n.text for n in page.furniture.labels)
            assert t.purpose in said, t.name
            lowest = min(n.at[1] for n in page.furniture.labels if n.at[0] > 70 and n.at[1] > 15)
            assert lowest > MARGIN + 4 + 0.7 or len(printed) == 1, t.name


@pytest.mark.parametrize(("wide", "high"), [(900, 420), (150, 500)])
def test_long_instruction_leaves_room_for_two_lengths(wide, high):
    made = sheet(form(wide, high))
    long = "Saw the plate to its line, file it to the middle of the line, try it on work. " * 2
    made = replace(made, info=replace(made.info, purpose=long.strip()))
    cover, *pages = tiles(made, "a4", 15.0)
    for page in (cover, *pages):
        beside = [n for n in page.furniture.labels if n.at[0] > 70 and n.height < 3]
        boxes = [box_of(label_corners(n)) for n in beside]
        bars = sorted(b[1] for b in boxes)
        assert bars[0] >= MARGIN + 4
        assert not any(overlap(a, b) for i, a in enumerate(boxes) for b in boxes[:i])
