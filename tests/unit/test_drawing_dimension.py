"""Dimensions: each states the true distance of its points, which are on drawn lines."""

import math
import re

import pytest
from geometry_referee import sample
from readers import corpus
from readers.arrows import tips

from templates_gen import registry
from templates_gen.drawing import dimension
from templates_gen.drawing.marks import box_of, label_corners
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import (
    Angle,
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    View,
    cut,
)
from templates_gen.geometry import rectangle
from templates_gen.tolerances import FIT_DISTANCE

#: Dimensions have two decimals: half of the last one is the rounding error allowed.
ROUNDED = 0.005 + 1e-9
#: A point is on a line within the distance allowed between a curve and the arcs that replace it.
ON = FIT_DISTANCE + 1e-6
BOX = (-20.0, -10.0, 20.0, 10.0)
TEMPLATES = {t.name: t for t in registry.templates()}


def numbers(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", text)]


def on_the_drawing(view, p, axis: int) -> bool:
    """Return whether p is on a line, or in line with an end, an edge or a centre of one."""
    for path in (s.path for s in view.strokes):
        if path.distance(p) <= ON:
            return True
        whole = path.as_circle()
        edges = [path.box[axis], path.box[axis + 2], *(v[axis] for v in path.vertices)]
        edges += [whole[0][axis]] if whole else []
        if any(abs(p[axis] - e) <= ON for e in edges):
            return True
    return False


@pytest.mark.parametrize(("stem", "name"), corpus.ALL_SHEETS)
def test_every_dimension_on_every_template_is_true(stem, name):
    for view in TEMPLATES[name].views(corpus.pattern(stem)):
        for item in view.dimensions:
            marks = dimension.draw(item, view.box)
            if isinstance(item, HorizontalDim | VerticalDim):
                axis = 0 if isinstance(item, HorizontalDim) else 1
                apart = abs(item.q[axis] - item.p[axis])
                (label,) = marks.labels
                said = numbers(label.text)
                # A part's own text may have no number; if it has one, it must be the distance.
                assert (not said and item.text) or abs(said[0] - apart) <= ROUNDED, label.text
                a, b = sorted(tips(marks))
                assert abs(b[axis] - a[axis]) == pytest.approx(apart, abs=1e-9)
                assert on_the_drawing(view, item.p, axis), (item, "p is on no line")
                assert on_the_drawing(view, item.q, axis), (item, "q is on no line")
            elif isinstance(item, Radius):
                (label,), (tip,) = marks.labels, tips(marks)
                there = math.dist(tip, item.centre) * (2 if item.diameter else 1)
                assert abs(numbers(label.text)[0] - there) <= ROUNDED, label.text
                near = min(s.path.distance(tip) for s in view.strokes)
                assert near <= ON, (item, "the arrow points at no line")


SAMPLES = [
    ((-20, -10), (20, -10), 1, "40"),
    ((20, 4), (-20, -10), -1, "40"),
    ((0, 0), (12.3456, 7), 2, "12.35"),
    ((-1.005, 0), (2.1, 0), -2, "3.1"),
    ((0, 0), (0.7, 0), 1, "0.7"),
    ((0, 0), (6, 0), 1, "6"),
    ((0, 0), (9.999, 0), 1, "10"),
]


@pytest.mark.parametrize(("p", "q", "row", "text"), SAMPLES)
@pytest.mark.parametrize("kind", [HorizontalDim, VerticalDim])
def test_horizontal_and_vertical(kind, p, q, row, text):
    axis = 0
    if kind is VerticalDim:
        axis, p, q = 1, p[::-1], q[::-1]
    marks = dimension.draw(kind(p, q, row, suffix=" ±0.1"), BOX)
    (label,) = marks.labels
    assert label.text == f"{text} ±0.1"
    assert label.angle == 90.0 * axis
    assert sorted(t[axis] for t in tips(marks)) == sorted([p[axis], q[axis]])
    # The dimension line and its text are outside the view, on the side of the row.
    across = 1 - axis
    lines = [t[across] for t in tips(marks)] + [label.at[across]]
    edge = BOX[across + 2] if row > 0 else BOX[across]
    assert all((x - edge) * row > 0 for x in lines)
    assert {s.layer for s in marks.strokes} | {label.layer} == {Layer.DIMENSION}


@pytest.mark.parametrize("row", [1, 2, -1, -2])
@pytest.mark.parametrize("apart", [0.3, 3, 7, 12, 30])
def test_text_does_not_touch_its_own_lines(apart, row):
    for item in (HorizontalDim((0, 0), (apart, 3), row), VerticalDim((0, 0), (3, apart), row)):
        marks = dimension.draw(item, BOX)
        (label,) = marks.labels
        left, bottom, right, top = box_of(label_corners(label))
        for stroke in marks.strokes:
            run = sample(stroke.path, 200)
            assert not any(left < x < right and bottom < y < top for x, y in run), item


def test_rows_do_not_overlap():
    first, second = (dimension.draw(HorizontalDim((0, 0), (30, 0), row), BOX) for row in (1, 2))
    assert second.labels[0].at[1] - first.labels[0].at[1] >= 2 * dimension.CAP


def test_text_replaces_the_distance():
    marks = dimension.draw(HorizontalDim((0, 0), (5, 0), 1, text="as the wood gives"), BOX)
    assert marks.labels[0].text == "as the wood gives"


@pytest.mark.parametrize("toward", [0, 40, 135, 200, 300])
@pytest.mark.parametrize("reach", [6.0, -3.0])
def test_radius(toward, reach):
    item = Radius((3, -2), 4.456, toward, reach=reach)
    marks = dimension.draw(item, BOX)
    assert marks.labels[0].text == "R4.46"
    (tip,) = tips(marks)
    assert math.dist(tip, (3, -2)) == pytest.approx(4.456, abs=1e-12)
    angle = math.degrees(math.atan2(tip[1] + 2, tip[0] - 3))
    assert math.isclose((angle - toward + 180) % 360, 180, abs_tol=1e-9)


def test_diameter():
    marks = dimension.draw(Radius((0, 0), 2.5, 30, diameter=True), BOX)
    assert marks.labels[0].text == "Ø5"


@pytest.mark.parametrize(("start", "end", "text"), [(0, 75, "75°"), (97.25, 180, "82.8°")])
def test_angle(start, end, text):
    marks = dimension.draw(Angle((1, 1), start, end, 12), BOX)
    assert marks.labels[0].text == text
    arc = marks.strokes[0].path
    assert math.degrees(arc.segments[0].turn) == pytest.approx(end - start)
    assert all(math.dist(p, (1, 1)) == pytest.approx(12) for p in sample(arc, 9))


@pytest.mark.parametrize("to", [(30, 12), (-30, 12), (4, -30)])
def test_leader_points_at_its_tip(to):
    marks = dimension.draw(Leader((4, 2), to, "the pin's hole"), BOX)
    assert tips(marks) == [(4, 2)]
    assert marks.labels[0].text == "the pin's hole"


def test_text_is_placed_at_its_anchor():
    (label,) = dimension.draw(Text((4, 2), "bark side", "start", 30), BOX).labels
    assert (label.text, label.at, label.anchor, label.angle) == ("bark side", (4, 2), "start", 30)


def test_detects_a_false_dimension():
    """The check above can fail: for a point off the lines and for a false number."""
    view = View("", (cut(rectangle(0, 0, 10, 5)),))
    assert on_the_drawing(view, (10, 2), 0)
    assert not on_the_drawing(view, (9.9, 7), 0)
    marks = dimension.draw(HorizontalDim((0, 0), (10, 0), 1, text="9.7"), view.box)
    a, b = sorted(tips(marks))
    assert abs(numbers(marks.labels[0].text)[0] - (b[0] - a[0])) > ROUNDED
