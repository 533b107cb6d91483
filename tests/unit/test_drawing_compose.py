"""Compose views on a page: true size, not rotated, on the smallest paper that fits."""

from dataclasses import replace
from itertools import pairwise

import pytest
from readers import corpus
from reportlab.lib import pagesizes

from templates_gen.bow import catalogue
from templates_gen.drawing.compose import compose
from templates_gen.drawing.furniture import (
    MARGIN,
    drawing_area,
    measuring_marks,
    stamp_frame,
    title_block,
)
from templates_gen.drawing.lint import lint
from templates_gen.drawing.marks import box_of, box_round, label_corners, place
from templates_gen.drawing.paper import PAPERS, papers_from
from templates_gen.drawing.sheet import STYLES, Layer
from templates_gen.drawing.view import HorizontalDim, View, cut
from templates_gen.errors import DrawingError
from templates_gen.geometry import rectangle

INFO = corpus.CARD_INFO
TEMPLATES = {t.name: t for t in catalogue.templates()}


def block(width: float, height: float) -> View:
    return View("", (cut(rectangle(-width / 2, 0.3, width / 2, height + 0.3)),))


@pytest.mark.parametrize(("stem", "name"), corpus.ALL_SHEETS)
def test_views_are_only_moved(stem, name):
    """All lines of a view move by the same whole number of millimetres."""
    sheet = corpus.sheet(stem, name)
    rest = list(sheet.strokes)
    for number, view in enumerate(TEMPLATES[name].views(corpus.pattern(stem))):
        first = view.strokes[0]
        there = next(s for s in rest if s.layer is first.layer and _congruent(s.path, first.path))
        dx, dy = (round(there.path.start[i] - first.path.start[i]) for i in (0, 1))
        if number == 0:
            assert (dx, dy) == sheet.datum
        for stroke in view.strokes:
            rest.remove(replace(stroke, path=stroke.path.moved(dx, dy)))


def _congruent(a, b) -> bool:
    same = [v[2] for v in a.vertices] == [v[2] for v in b.vertices]
    return same and a.length == pytest.approx(b.length, abs=1e-9)


@pytest.mark.parametrize(
    ("width", "height", "size"),
    [
        (20, 30, (210, 297)),
        (20, 200, (210, 297)),
        (230, 30, (297, 210)),
        (200, 200, (297, 420)),
        (380, 200, (420, 297)),
        (700, 40, (841, 594)),
        (1150, 40, (1189, 841)),
    ],
)
def test_chooses_smallest_paper_portrait_first(width, height, size):
    sheet = compose([block(width, height)], INFO)
    assert sheet.size == size
    assert lint(sheet) == []


def test_starts_from_the_paper_given():
    assert compose([block(20, 20)], INFO, "a3").size == PAPERS["a3"]
    assert compose([block(20, 20)], INFO, "letter").size == (215.9, 279.4)
    assert compose([block(20, 250)], INFO, "letter").size == (279.4, 431.8)


def test_rejects_a_template_larger_than_any_paper():
    with pytest.raises(
        DrawingError, match=r"card is 3000 × 40 mm: too large for the largest paper"
    ):
        compose([block(3000, 40)], INFO)


def test_rejects_an_unknown_paper():
    with pytest.raises(DrawingError, match="'a7'"):
        compose([block(20, 20)], INFO, "a7")


def test_square_bars_and_template_go_through_one_transform(monkeypatch):
    """An error in the one transform shows on the square and the bars, and the lint finds it."""

    def shrunk(marks, dx, dy):
        moved = place(marks, dx, dy)
        strokes = [
            replace(s, path=s.path.mapped(lambda p: (p[0] * 0.97 + 6, p[1] * 0.97 + 6)))
            for s in moved.strokes
        ]
        return replace(moved, strokes=tuple(strokes))

    monkeypatch.setattr("templates_gen.drawing.compose.place", shrunk)
    sheet = compose([block(20, 30)], INFO)
    (outline,) = (s.path for s in sheet.strokes if s.layer is Layer.OUTLINE)
    assert outline.area == pytest.approx(600 * 0.97**2)
    assert [t.split(": ")[1] for t in lint(sheet)] == [
        "the 50 mm square is missing or has the wrong size",
        "the measuring bars are missing or have the wrong length",
    ]


@pytest.mark.parametrize("count", [1, 2, 3])
def test_views_do_not_overlap_each_other_or_the_furniture(count):
    dims = (HorizontalDim((-30, 0.3), (30, 0.3), -2), HorizontalDim((-30, 30.3), (30, 30.3), 2))
    views = [replace(block(60, 30), title=f"view {i}", dimensions=dims) for i in range(count)]
    sheet = compose(views, INFO)
    area = drawing_area(sheet.size)
    own = {*measuring_marks(sheet.size).labels, *title_block(INFO, sheet.size, MARGIN).labels}
    boxes = [s.path.box for s in sheet.strokes if s.layer is not Layer.NOTE]
    boxes += [box_of(label_corners(n)) for n in sheet.labels if n not in own]
    left, bottom, right, top = box_round(boxes)
    assert area[0] <= left and area[1] <= bottom and right <= area[2] and top <= area[3]
    cuts = sorted(s.path.box[1::2] for s in sheet.strokes if s.layer is Layer.OUTLINE)
    assert len(cuts) == count
    assert all(upper[0] > lower[1] for lower, upper in pairwise(cuts))
    assert sheet.cut_size == pytest.approx((60, 30))


def test_title_block_is_complete():
    info = replace(INFO, stamps=("SOLIDS NOT CONFIRMED", "FORCED: 2 checks fail"))
    said = "\n".join(n.text for n in compose([block(20, 20)], info).labels)
    for words in (
        "Card",
        "Pattern Whimbrel, revision A",
        "violin",
        "Scale 1:1, this side up",
        "parameters 0123abcd",
        "no checks",
        "SOLIDS NOT CONFIRMED",
        "FORCED: 2 checks fail",
        "50 mm each way.",
        "Nothing is made of it.",
    ):
        assert words in said


@pytest.mark.parametrize("size", [s for w, h in PAPERS.values() for s in ((w, h), (h, w))])
def test_furniture_fits_every_paper(size):
    long = replace(INFO, title="W" * 90, pattern="W" * 90, purpose="word " * 90, stamps=("X",) * 3)
    marks = measuring_marks(size, MARGIN, long.stamps) + title_block(long, size, MARGIN)
    left, bottom, right, top = marks.box
    assert left >= 10 and bottom >= 10
    assert right <= size[0] - 10 + 1e-9 and top <= size[1] - 10 + 1e-9
    words = [n for n in marks.labels if n.text.startswith(("W", "word"))]
    assert all(box_of(label_corners(n))[3] <= drawing_area(size)[1] for n in words)


@pytest.mark.parametrize(
    ("stamps", "high"),
    [
        (("FORCED: 12 checks fail; do not cut",), 5.0),
        (("SOLIDS NOT CONFIRMED",), 3.0),
        (("SOLIDS NOT CONFIRMED", "FORCED: 12 checks fail; do not cut"), 5.0),
    ],
)
@pytest.mark.parametrize("block_size", [(20, 20), (170, 195), (230, 100), (700, 400)])
def test_stamps_fit_a_frame_above_the_drawing(stamps, high, block_size):
    """A warning in capitals twice as high as other text. Common practice, no source."""
    sheet = compose([block(*block_size)], replace(INFO, stamps=stamps))
    assert lint(sheet) == []
    frames = [
        s.path.box
        for s in sheet.strokes
        if s.layer is Layer.NOTE and s.path.closed and s.path.box[3] > sheet.size[1] - 11
    ]
    (frame,) = frames
    assert frame[2] - frame[0] > sheet.size[0] - 40
    big = [n for n in sheet.labels if n.text in stamps and n.height > 2.5]
    assert {n.text for n in big} == set(stamps)
    assert max(n.height for n in big) == high
    for n in big:
        box = box_of(label_corners(n))
        assert frame[0] < box[0] and frame[1] < box[1] and box[2] < frame[2] and box[3] < frame[3]
    assert sheet.content.box[3] < frame[1]
    if len(stamps) == 2:
        assert max(big, key=lambda n: n.height).text.startswith("FORCED")


def test_a_sheet_without_stamps_has_no_frame():
    assert stamp_frame((210, 297), 10.0, ()) is None
    assert drawing_area((210, 297)) == drawing_area((210, 297), 10.0, ())


def test_papers():
    """Referee: reportlab's own table (1/72 inch)."""
    theirs = {
        "a4": pagesizes.A4,
        "a3": pagesizes.A3,
        "a2": pagesizes.A2,
        "a1": pagesizes.A1,
        "a0": pagesizes.A0,
        "letter": pagesizes.LETTER,
        "tabloid": pagesizes.TABLOID,
    }
    for name, points in theirs.items():
        assert PAPERS[name] == pytest.approx([v * 25.4 / 72 for v in points], abs=0.01)
    assert papers_from("a2") == ("a2", "a1", "a0")
    for series in (papers_from("a4"), papers_from("letter")):
        areas = [PAPERS[n][0] * PAPERS[n][1] for n in series]
        assert areas == sorted(areas)


def test_line_widths():
    """Source: ISO 128-2, the series of widths, wide to narrow as 2 : 1 (from memory)."""
    series = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0}
    assert {s.width for s in STYLES.values()} <= series
    wide = {STYLES[layer].width for layer in (Layer.OUTLINE, Layer.POCKET)}
    narrow = {s.width for layer, s in STYLES.items() if layer not in (Layer.OUTLINE, Layer.POCKET)}
    assert max(wide) == min(wide) == pytest.approx(2 * max(narrow), rel=0.03)
    assert set(STYLES) == set(Layer)


@pytest.mark.parametrize(("stem", "name"), corpus.ALL_SHEETS)
def test_letters_are_large_enough(stem, name):
    """Capitals of at least 2.5 mm. Source: ISO 3098 (from memory)."""
    assert min(n.height for n in corpus.sheet(stem, name).labels) >= 2.5
