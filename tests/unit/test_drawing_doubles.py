"""Duplicate lines: the more important layer keeps its line."""

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
def test_cut_replaces_a_coincident_line(weaker, first):
    strokes = (cut(SHEET), weaker) if first else (weaker, cut(SHEET))
    assert merged(strokes) == (cut(SHEET),)


def test_keeps_lines_beside_a_cut_or_along_part_of_it():
    beside, part = scribe(line((1.0, 0.0), (1.0, 10.0))), scribe(line((0.0, 2.0), (0.0, 8.0)))
    assert merged((cut(SHEET), beside, part)) == (cut(SHEET), beside, part)


def test_removes_only_the_doubled_part_of_a_longer_line():
    """Of a line along the sheet's edge and beyond, the part beyond stays as an open line."""
    corners = [(0.0, 10.0), (0.0, 0.0), (0.0, -5.0), (30.0, -5.0)]
    pieces = [line(a, b) for a, b in pairwise(corners)]
    whole = scribe(type(SHEET).from_segments([p.segments[0] for p in pieces], closed=False))
    (outline, left) = merged((cut(SHEET), whole))
    assert outline == cut(SHEET)
    assert left.layer is Layer.SCRIBE and not left.path.closed
    assert [v[:2] for v in left.path.vertices] == corners[1:]


def test_cut_that_shares_an_edge_stays_closed():
    neighbour = cut(rectangle(30.0, 0.0, 40.0, 10.0))
    assert merged((cut(SHEET), neighbour)) == (cut(SHEET), neighbour)


def test_draws_a_doubled_hole_once():
    once = drill((5.0, 5.0), 2.0)
    assert merged((*once, *once)) == once
    assert merged((Stroke(circle((5.0, 5.0), 1.0), Layer.CENTRE), *once)) == once


def test_omits_dimensions_of_zero():
    box = (0.0, 0.0, 30.0, 10.0)
    for item in (
        HorizontalDim((3.0, 0.0), (3.0, 10.0), -1),
        VerticalDim((0.0, 4.0), (30.0, 4.0), 1),
        Angle((0.0, 0.0), 90.0, 90.0, 8.0),
    ):
        marks = dimension.draw(item, box)
        assert not (marks.strokes or marks.labels or marks.fills)
    assert dimension.draw(Angle((0.0, 0.0), 89.0, 90.0, 8.0), box).labels[0].text == "1°"
