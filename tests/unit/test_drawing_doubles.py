"""Lines that fall on each other become one: the layer that matters more keeps its line."""

from itertools import pairwise

import pytest

from templates_gen.drawing import dimension
from templates_gen.drawing.doubles import merged
from templates_gen.drawing.sheet import Layer, Stroke
from templates_gen.drawing.view import (
    Angle,
    HorizontalDim,
    VerticalDim,
    cut,
    drill,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import circle, rectangle

SHEET = rectangle(0.0, 0.0, 30.0, 10.0)
LEFT = line((0.0, 0.0), (0.0, 10.0))


@pytest.mark.parametrize("weaker", [scribe(LEFT), hidden(LEFT), scribe(LEFT.reversed())])
@pytest.mark.parametrize("first", [True, False])
def test_a_line_on_a_cut_is_the_cut(weaker, first):
    strokes = (cut(SHEET), weaker) if first else (weaker, cut(SHEET))
    assert merged(strokes) == (cut(SHEET),)


def test_a_line_beside_a_cut_or_on_a_part_of_it_stays():
    beside, part = scribe(line((1.0, 0.0), (1.0, 10.0))), scribe(line((0.0, 2.0), (0.0, 8.0)))
    assert merged((cut(SHEET), beside, part)) == (cut(SHEET), beside, part)


def test_of_a_longer_line_only_what_is_doubled_goes():
    """Three sides of the sheet's edge and a piece beyond: the piece stays, as an open line."""
    corners = [(0.0, 10.0), (0.0, 0.0), (0.0, -5.0), (30.0, -5.0)]
    pieces = [line(a, b) for a, b in pairwise(corners)]
    whole = scribe(type(SHEET).from_segments([p.segments[0] for p in pieces], closed=False))
    (outline, left) = merged((cut(SHEET), whole))
    assert outline == cut(SHEET)
    assert left.layer is Layer.SCRIBE and not left.path.closed
    assert [v[:2] for v in left.path.vertices] == corners[1:]


def test_a_cut_stays_closed_though_another_shares_an_edge():
    neighbour = cut(rectangle(30.0, 0.0, 40.0, 10.0))
    assert merged((cut(SHEET), neighbour)) == (cut(SHEET), neighbour)


def test_the_same_hole_twice_is_one_hole():
    once = drill((5.0, 5.0), 2.0)
    assert merged((*once, *once)) == once
    assert merged((Stroke(circle((5.0, 5.0), 1.0), Layer.CENTRE), *once)) == once


def test_nothing_is_dimensioned_that_has_no_size():
    box = (0.0, 0.0, 30.0, 10.0)
    for item in (
        HorizontalDim((3.0, 0.0), (3.0, 10.0), -1),
        VerticalDim((0.0, 4.0), (30.0, 4.0), 1),
        Angle((0.0, 0.0), 90.0, 90.0, 8.0),
    ):
        marks = dimension.draw(item, box)
        assert not (marks.strokes or marks.labels or marks.fills)
    assert dimension.draw(Angle((0.0, 0.0), 89.0, 90.0, 8.0), box).labels[0].text == "1°"
