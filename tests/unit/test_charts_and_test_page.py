"""Measure chart scales, the printer's test page and dimension lines on the drawn strokes."""

from __future__ import annotations

from math import atan2, degrees, hypot

import numpy as np
import pytest
from outside.maker import PARAMS

from templates_gen.bench.calibrate.page import page
from templates_gen.bow import catalogue
from templates_gen.bow.dims.masses import Piece
from templates_gen.bow.sheets_charts import slices
from templates_gen.drawing import dimension
from templates_gen.drawing.chart import HIGH, WIDE
from templates_gen.drawing.furniture import MARGIN, bars, square
from templates_gen.drawing.marks import Marks, box_of, label_corners
from templates_gen.drawing.paper import PAPERS
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import Angle, HorizontalDim, Leader, Radius, Text, VerticalDim, View
from templates_gen.pipeline import rendering
from templates_gen.shop import Printer

TEMPLATES = {t.name: t for t in catalogue.templates()}
CHARTS = ("bow-chart-weight", "bow-chart-bend")


# --- charts -----------------------------------------------------------------------------------


def drawn_charts() -> list[View]:
    p = rendering.read(str(PARAMS / "violin.toml"))
    return [view for name in CHARTS for view in TEMPLATES[name].views(p)]


@pytest.fixture(scope="module")
def charts() -> list[View]:
    return drawn_charts()


def figures(view: View, *, level: bool) -> list[tuple[float, float]]:
    """Place and number of each figure along an axis."""
    words = [d for d in view.dimensions if isinstance(d, Text)]
    along = [w for w in words if w.text.replace(".", "").lstrip("-").isdigit()]
    if level:
        return sorted((w.at[0], float(w.text)) for w in along if w.at[1] < -3)
    return sorted((w.at[1], float(w.text)) for w in along if w.at[1] > -3)


def test_axes_meet_at_the_origin_and_frame_the_chart(charts: list[View]) -> None:
    for view in charts:
        axes = [
            s.path.box
            for s in view.strokes
            if s.layer is Layer.NOTE and s.path.length > min(WIDE, HIGH) - 1
        ]
        assert (0.0, 0.0, WIDE, 0.0) in axes
        assert (0.0, 0.0, 0.0, HIGH) in axes


@pytest.mark.parametrize("level", [True, False])
def test_numbers_along_an_axis_are_evenly_spaced(charts: list[View], level: bool) -> None:
    """Source: a linear scale; equal steps on paper are equal steps of the figure."""
    for view in charts:
        places, numbers = (np.array(v) for v in zip(*figures(view, level=level), strict=True))
        assert len(places) >= 2
        steps = np.diff(numbers)
        assert steps == pytest.approx([steps[0]] * len(steps))
        assert steps[0] > 0
        assert np.diff(places) == pytest.approx([places[1] - places[0]] * len(steps))
        first = float(f"{steps[0]:.0e}"[0])  # 1, 2 or 5 times a power of ten
        assert first in (1.0, 2.0, 5.0)


def test_each_number_is_at_a_tick(charts: list[View]) -> None:
    for view in charts:
        ticks = [s.path.box for s in view.strokes if s.layer is Layer.NOTE and s.path.length < 3]
        for x, _ in figures(view, level=True):
            assert any(abs(t[0] - x) < 1e-9 and t[1] < 0 for t in ticks)
        for y, _ in figures(view, level=False):
            assert any(abs(t[1] - (y + 1.0)) < 1e-9 and t[0] < 0 for t in ticks)


def test_curves_stay_in_the_frame_and_nearly_fill_it(charts: list[View]) -> None:
    for view in charts:
        curves = [s.path.box for s in view.strokes if s.layer is not Layer.NOTE]
        assert min(b[0] for b in curves) >= -1e-9
        assert max(b[2] for b in curves) <= WIDE + 1e-9
        assert max(b[3] for b in curves) <= HIGH + 1e-9
        assert max(b[3] for b in curves) > HIGH / 2.6


def test_curves_cross_no_number_of_the_horizontal_axis(charts: list[View]) -> None:
    """Words keep clear of lines (ISO 129-1, from memory); letters are 2.5 mm high.

    In play the violin's tip curve dips under the straight edge, and so under the axis.
    """
    dips = 0.0
    for view in charts:
        words = [d for d in view.dimensions if isinstance(d, Text) and d.at[1] < -3]
        curves = [s.path.segments for s in view.strokes if s.layer is not Layer.NOTE]
        points = [p for segments in curves for s in segments for p in (s.start, s.end)]
        dips = min(dips, *(y for _, y in points))
        for w in words:
            tall, wide = w.at[1] + 2.5, 2.0 * len(w.text)
            across = [y for x, y in points if abs(x - w.at[0]) < wide]
            assert min(across, default=0.0) > tall + 0.3, w.text
    assert dips < -0.5


def test_piece_beyond_the_bows_end_counts_in_the_last_slice() -> None:
    """Odd numbers may put a piece far off; the slices still sum to the whole."""
    p = rendering.read(str(PARAMS / "violin.toml"))
    _, bare = slices(p, ())
    for x, last in ((5000.0, -1), (-5000.0, 0)):
        _, found = slices(p, (Piece("stray", 3.0, x, "brass"),))
        assert len(found) == len(bare)
        assert found[last] - bare[last] == pytest.approx(3.0)
        assert sum(found) - sum(bare) == pytest.approx(3.0)


# --- the printer's test page ------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize(
    "printer", [Printer(x_factor=1.0, y_factor=1.0), Printer(x_factor=1.004, y_factor=0.998)]
)
def test_text_of_the_test_page_is_inside_its_rectangle(paper: str, printer: Printer) -> None:
    """150 by 200 mm, whose diagonals are 250: three, four, five (Euclid)."""
    marks = page(paper, printer).furniture
    (box,) = [s.path.box for s in marks.strokes if s.path.closed and s.path.area > 20000]
    left, low, right, high = box
    assert (right - left, high - low) == pytest.approx((150.0, 200.0))
    assert hypot(right - left, high - low) == pytest.approx(250.0)
    width, tall = page(paper, printer).size
    assert left > 5
    assert low > 5
    assert right < width - 5
    assert high < tall - 5
    title = next(n for n in marks.labels if n.text.startswith("Printer"))
    block = [n for n in marks.labels if n.at[0] == title.at[0] and n.at[1] > low + 60]
    assert len(block) >= 5
    for label in block:
        a, b, c, d = box_of(label_corners(label))
        assert left < a
        assert low < b
        assert c < right
        assert d < high
    heights = [n.at[1] for n in block]
    assert heights == sorted(heights, reverse=True)
    assert block[0] is title


# --- dimensions ---------------------------------------------------------------------------------

BOX = (0.0, 0.0, 40.0, 20.0)


def tips(marks: Marks) -> list[tuple[float, float]]:
    """Where the arrowheads point: the corner of each that is farthest from the others."""
    found = []
    for fill in marks.fills:
        corners = [(x, y) for x, y, _ in fill.path.vertices]
        middle = tuple(np.mean(corners, axis=0))
        found.append(max(corners, key=lambda c: hypot(c[0] - middle[0], c[1] - middle[1])))
    return sorted(found)


@pytest.mark.parametrize(("row", "side"), [(1, 1), (2, 1), (-1, -1), (-2, -1)])
def test_horizontal_dimension_is_above_or_below_its_view(row: int, side: int) -> None:
    """Source: ISO 129-1 (from memory): arrows end on the extension lines, the words over it."""
    marks = dimension.draw(HorizontalDim((5.0, 10.0), (30.0, 4.0), row), BOX)
    (words,) = marks.labels
    assert words.text == "25"
    (a, y), (b, other) = tips(marks)
    assert (a, b) == pytest.approx((5.0, 30.0), abs=1e-6)
    assert y == pytest.approx(other)
    assert y > BOX[3] if side > 0 else y < BOX[1]
    farther = dimension.draw(HorizontalDim((5.0, 10.0), (30.0, 4.0), row + side), BOX)
    assert abs(tips(farther)[0][1] - 10.0) > abs(y - 10.0)
    assert abs(words.at[0] - 17.5) < 12
    assert 0 < words.at[1] - y < 2


@pytest.mark.parametrize(("row", "side"), [(1, 1), (2, 1), (-1, -1), (-2, -1)])
def test_vertical_dimension_is_right_or_left_of_its_view(row: int, side: int) -> None:
    marks = dimension.draw(VerticalDim((5.0, 3.0), (30.0, 18.0), row, suffix=" high"), BOX)
    (words,) = marks.labels
    assert words.text == "15 high"
    assert words.angle == 90.0
    (x, a), (other, b) = sorted(tips(marks), key=lambda t: t[1])
    assert (a, b) == pytest.approx((3.0, 18.0), abs=1e-6)
    assert x == pytest.approx(other)
    assert x > BOX[2] if side > 0 else x < BOX[0]
    farther = dimension.draw(VerticalDim((5.0, 3.0), (30.0, 18.0), row + side), BOX)
    assert abs(tips(farther)[0][0] - 20.0) > abs(x - 20.0)


@pytest.mark.parametrize(("diameter", "text"), [(False, "R4"), (True, "Ø8")])
def test_a_radius_points_at_its_arc(diameter: bool, text: str) -> None:
    marks = dimension.draw(Radius((10.0, 10.0), 4.0, 30.0, diameter=diameter), BOX)
    (words,) = marks.labels
    assert words.text.replace(" ", "") == text
    (tip,) = tips(marks)
    assert tip == pytest.approx((10 + 4 * 3**0.5 / 2, 12.0), abs=1e-6)


def test_angle_text_gives_the_turn() -> None:
    marks = dimension.draw(Angle((0.0, 0.0), 10.0, 55.0, 12.0), BOX)
    (words,) = marks.labels
    assert words.text.replace(" ", "") == "45°"
    (arc,) = [q for s in marks.strokes for q in s.path.segments if not q.is_line]
    for place, turn in ((arc.start, 10.0), (arc.point(0.5), 32.5), (arc.end, 55.0)):
        assert hypot(*place) == pytest.approx(12.0, abs=1e-6)
        assert degrees(atan2(place[1], place[0])) == pytest.approx(turn, abs=1e-6)
    assert words.at[0] > arc.point(0.5)[0]
    assert words.anchor == "start"
    left = dimension.draw(Angle((0.0, 0.0), 125.0, 170.0, 12.0), BOX).labels[0]
    assert left.anchor == "end"


def test_extension_lines_run_from_the_measured_points_to_the_dimension() -> None:
    """Source: ISO 129-1 (from memory): a small gap at the feature, a little beyond the line."""
    for row in (1, -1):
        marks = dimension.draw(HorizontalDim((5.0, 10.0), (30.0, 4.0), row), BOX)
        y = tips(marks)[0][1]
        upright = sorted(s.path.box for s in marks.strokes if s.path.box[0] == s.path.box[2])
        for (x, at), box in zip(((5.0, 10.0), (30.0, 4.0)), upright, strict=True):
            assert box[0] == x
            near, far = (box[1], box[3]) if row > 0 else (box[3], box[1])
            assert 0.2 < (near - at) * row < 2
            assert 0.2 < (far - y) * row < 3


def test_text_without_room_is_beyond_the_arrows() -> None:
    right = dimension.draw(HorizontalDim((5.0, 0.0), (7.0, 0.0), 1), BOX)
    left = dimension.draw(HorizontalDim((5.0, 0.0), (7.0, 0.0), 1, before=True), BOX)
    assert right.labels[0].at[0] > 7.0
    assert right.labels[0].anchor == "start"
    assert left.labels[0].at[0] < 5.0
    assert left.labels[0].anchor == "end"
    for marks in (left, right):
        assert [x for x, _ in tips(marks)] == pytest.approx([5.0, 7.0])
        (line,) = [s.path.box for s in marks.strokes if s.path.box[1] == s.path.box[3]]
        assert line[0] < 4.0
        assert line[2] > 8.0


def test_leader_runs_from_its_place_to_its_text() -> None:
    for to, way in (((20.0, 9.0), 1), ((-20.0, 9.0), -1)):
        marks = dimension.draw(Leader((1.0, 2.0), to, "a pin"), BOX)
        (words,), (tip,) = marks.labels, tips(marks)
        assert tip == pytest.approx((1.0, 2.0), abs=1e-6)
        line, shelf = (s.path for s in marks.strokes)
        assert (line.start, line.end) == ((1.0, 2.0), to)
        assert shelf.start == to
        assert (shelf.end[0] - to[0]) * way > 4
        assert shelf.end[1] == to[1]
        assert shelf.box[0] < words.at[0] < shelf.box[2]
        assert 0 < words.at[1] - to[1] < 2


# --- the bars and the square every page is measured by --------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "a3"])
def test_the_bars_have_a_tick_every_centimetre(paper: str) -> None:
    marks = bars(PAPERS[paper], MARGIN)
    bent = max((s.path for s in marks.strokes), key=lambda q: q.length)
    end, corner, far = (v[:2] for v in bent.vertices)
    for other, axis in ((end, 0), (far, 1)):
        long = abs(other[axis] - corner[axis]) + abs(other[1 - axis] - corner[1 - axis])
        along = 0 if abs(other[0] - corner[0]) > 1 else 1
        ticks = {
            round(abs(s.path.box[along] - corner[along]), 6)
            for s in marks.strokes
            if s.path is not bent and s.path.box[along] == s.path.box[along + 2]
        }
        assert {10.0 * i for i in range(1, int(long) // 10 + 1)} <= ticks
        assert any(n.text == f"{long:g}" for n in marks.labels)


def test_the_square_is_50_mm_and_says_so() -> None:
    marks = square(30.0, 40.0)
    (box,) = [s.path.box for s in marks.strokes if s.path.closed]
    assert (box[2] - box[0], box[3] - box[1]) == (50.0, 50.0)
    assert any("50" in n.text for n in marks.labels)
