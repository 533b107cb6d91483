"""Drawing lint: no fault on a good sheet, and every fault is found."""

from dataclasses import replace

import pytest
from readers import corpus

from templates_gen.drawing.lint import lint
from templates_gen.drawing.sheet import Fill, Label, Layer, Stroke
from templates_gen.geometry import Path, Pen, circle, polygon, rectangle

GOOD = corpus.card(1)
OUTLINE = next(s.path for s in GOOD.strokes if s.layer is Layer.OUTLINE)
SQUARE = next(
    s for s in GOOD.strokes if s.layer is Layer.NOTE and s.path.closed and s.path.area == 2500
)
BARS = next(s for s in GOOD.strokes if s.layer is Layer.NOTE and len(s.path.segments) == 2)


def with_strokes(*strokes: Stroke):
    return replace(GOOD, strokes=GOOD.strokes + strokes)


def with_labels(*labels: Label):
    return replace(GOOD, labels=GOOD.labels + labels)


def replaced(old: Stroke, *new: Stroke):
    return replace(GOOD, strokes=(*(s for s in GOOD.strokes if s is not old), *new))


def found(sheet) -> list[str]:
    troubles = lint(sheet)
    assert all(t.startswith("card: ") for t in troubles)
    return [t.removeprefix("card: ") for t in troubles]


@pytest.mark.parametrize("seed", corpus.CARDS)
def test_good_sheet_has_no_faults(seed):
    assert lint(corpus.card(seed)) == []


@pytest.mark.parametrize("layer", [Layer.OUTLINE, Layer.POCKET])
def test_open_cut(layer):
    gap = Pen((100, 120)).line_to(110, 120).line_to(110, 130).line_to(100, 120.001).open()
    (trouble,) = found(with_strokes(Stroke(gap, layer)))
    assert trouble == "a cut is open at (100.0, 120.0)"


def test_open_scribe_line_is_allowed():
    assert found(with_strokes(Stroke(Pen((100, 120)).line_to(110, 121).open(), Layer.SCRIBE))) == []


@pytest.mark.parametrize(
    "again",
    [
        OUTLINE,
        OUTLINE.reversed(),
        Path(OUTLINE.vertices[1:] + OUTLINE.vertices[:1]),
        OUTLINE.moved(4e-8, -4e-8),
    ],
    ids=["same", "backwards", "from elsewhere", "a hair beside"],
)
@pytest.mark.parametrize("layer", [Layer.OUTLINE, Layer.HIDDEN])
def test_doubled_line(again, layer):
    troubles = found(with_strokes(Stroke(again, layer)))
    assert len(troubles) == len(OUTLINE.segments)
    assert all(t.startswith("a line is drawn twice at (") for t in troubles)


def test_two_arcs_on_one_chord_are_two_lines():
    """Two arcs with the same ends differ in their middle."""
    lens = Path(((100.0, 120.0, 0.3), (110.0, 120.0, 0.3)))
    assert found(with_strokes(Stroke(lens, Layer.OUTLINE))) == []


def test_doubled_segment_of_an_outline():
    piece = OUTLINE.segments[0]
    once_more = Path.from_segments([piece], closed=False)
    (trouble,) = found(with_strokes(Stroke(once_more, Layer.SCRIBE)))
    assert trouble.startswith("a line is drawn twice")


@pytest.mark.parametrize("layer", [Layer.OUTLINE, Layer.POCKET])
@pytest.mark.parametrize(
    "words",
    [
        Label("across", (104, 121)),
        Label("up", (111, 116), angle=90.0),
        Label("ends here", (105, 122), anchor="end"),
        Label("in the middle", (100, 124), anchor="middle"),
        Label("tail: g", (91, 115.3)),
    ],
    ids=lambda n: n.text,
)
def test_text_on_a_cut(words, layer):
    box = Stroke(rectangle(90, 115, 110, 130), layer)
    troubles = found(replace(with_strokes(box), labels=(*GOOD.labels, words)))
    assert len(troubles) == 1
    assert troubles[0].startswith(f"the text {words.text!r} is on a cut at (")


def test_text_inside_a_cut_is_allowed():
    box = Stroke(rectangle(90, 115, 130, 130), Layer.OUTLINE)
    assert (
        found(replace(with_strokes(box), labels=(*GOOD.labels, Label("within", (92, 120))))) == []
    )


def test_text_on_a_small_hole():
    """The hole is smaller than the step at which lines are sampled."""
    hole = Stroke(circle((100, 121), 0.05), Layer.POCKET)
    troubles = found(replace(with_strokes(hole), labels=(*GOOD.labels, Label("hole", (98, 120)))))
    assert [t.split(" at ")[0] for t in troubles] == ["the text 'hole' is on a cut"]


@pytest.mark.parametrize(
    "other",
    [
        Label("two", (101, 121)),
        Label("two", (100, 124), angle=-90.0),
        Label("two", (108, 118), anchor="end"),
    ],
)
def test_overlapping_texts(other):
    one = Label("number one", (98, 120))
    (trouble,) = found(with_labels(one, other))
    assert trouble.startswith("the texts 'number one' and 'two' overlap at (")


def test_adjacent_texts_are_allowed():
    assert found(with_labels(Label("one", (98, 120)), Label("two", (98, 124)))) == []


WIDE, HIGH = GOOD.size


@pytest.mark.parametrize(
    ("x", "y"), [(-3, 150), (WIDE + 3, 150), (100, -3), (100, HIGH + 3), (4, 150), (WIDE - 4, 150)]
)
def test_mark_near_the_paper_edge(x, y):
    description = "a mark is less than 5 mm from the paper's edge"
    stroke = Stroke(Pen((x, y)).line_to(x + 0.5, y + 0.5).open(), Layer.SCRIBE)
    head = polygon([(x, y), (x + 0.5, y), (x, y + 0.5)])
    for sheet in (
        with_strokes(stroke),
        with_labels(Label("i", (x, y))),
        replace(GOOD, fills=(*GOOD.fills, Fill(head, Layer.DIMENSION))),
    ):
        (trouble,) = found(sheet)
        assert trouble.startswith(description)


NO_SQUARE = "the 50 mm square is missing or has the wrong size"
NO_BARS = "the measuring bars are missing or have the wrong length"
LEFT, BOTTOM, RIGHT, TOP = SQUARE.path.box


def note(path: Path) -> Stroke:
    return Stroke(path, Layer.NOTE)


@pytest.mark.parametrize(
    "instead_of_it",
    [
        (),
        (note(rectangle(LEFT, BOTTOM, RIGHT - 1.5, TOP - 1.5)),),
        (note(rectangle(LEFT, BOTTOM, RIGHT + 1e-6, TOP)),),
        (note(rectangle(LEFT, BOTTOM, RIGHT, TOP - 1e-6)),),
        (
            note(
                polygon([(LEFT + 25, BOTTOM), (RIGHT, BOTTOM + 25), (RIGHT - 25, TOP), (LEFT, 45)])
            ),
        ),
        (note(circle((45, 45), 25)),),
        (Stroke(SQUARE.path, Layer.SCRIBE),),
    ],
    ids=["missing", "97 %", "wide", "low", "on its corner", "round", "on the scribe layer"],
)
def test_square(instead_of_it):
    assert found(replaced(SQUARE, *instead_of_it)) == [NO_SQUARE]


@pytest.mark.parametrize(
    "change",
    [
        None,
        lambda p: (p[0] * 0.97, p[1]),
        lambda p: (p[0], p[1] + (p[1] - 14) * 1e-6),
        lambda p: (p[0] + (p[1] - 14) * 0.01, p[1]),
        lambda p: (14 + p[1] - 14, 14 + p[0] - 14),
    ],
    ids=["missing", "97 % wide", "too high", "skewed", "exchanged"],
)
def test_bars(change):
    spoilt = () if change is None else (note(BARS.path.mapped(change)),)
    assert NO_BARS in found(replaced(BARS, *spoilt))


def test_lists_all_faults():
    twice = Stroke(circle((100, 130), 3), Layer.DRILL)
    troubles = found(
        replace(replaced(SQUARE, twice, twice), labels=(*GOOD.labels, Label("x", (1, 9))))
    )
    assert len(troubles) == 4
