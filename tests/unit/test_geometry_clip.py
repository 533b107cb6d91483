"""Clipping at horizontal and sloping lines, against circles and triangles calculated by hand."""

import math

import pytest

from templates_gen.errors import GeometryError
from templates_gen.geometry import Pen, circle, rectangle
from templates_gen.geometry.clip import clip_above, clip_below, parts_below_line


def test_clipped_disc_has_the_area_of_a_circular_segment():
    """Area of a circular segment r² (φ − sin φ) / 2 with the central angle φ (any handbook)."""
    angle = 2 * math.acos(0.3 / 2.0)
    high = clip_above(circle((1.0, 5.0), 2.0), 5.3)
    assert high.area == pytest.approx(2.0**2 * (angle - math.sin(angle)) / 2, rel=1e-12)
    low = clip_below(circle((1.0, 5.0), 2.0), 5.3)
    assert low.area + high.area == pytest.approx(math.pi * 4, rel=1e-12)


def test_rejects_a_line_that_misses_the_path():
    with pytest.raises(GeometryError, match="does not cross"):
        clip_below(rectangle(0, 0, 2, 1), 3.0)


def test_sloping_line_splits_an_open_corner_in_two():
    """Up, across, down: a line that rises 1 in 4 from (0, 2) removes the middle."""
    chain = Pen((0.0, 0.0)).line_to(0.0, 3.0).line_to(4.0, 3.5).line_to(4.0, 0.0).open()
    kept = parts_below_line(chain.segments, (0.0, 2.0), 0.25)
    assert [(p.start, p.end) for p in kept] == [((0, 0), (0, 2)), ((4, 3), (4, 0))]


def test_sloping_line_splits_an_arc_on_its_circle():
    """A quarter circle about the origin, split by y = x at 45°, in either direction."""
    quarter = Pen((2.0, 0.0)).arc_to((0.0, 2.0), (0.0, 0.0), left=True).open()
    there = (math.sqrt(2), math.sqrt(2))
    (kept,) = parts_below_line(quarter.segments, (0.0, 0.0), 1.0)
    assert kept.end == pytest.approx(there, abs=1e-12)
    assert (kept.start, kept.radius) == ((2.0, 0.0), pytest.approx(2.0, rel=1e-12))
    (back,) = parts_below_line(quarter.reversed().segments, (0.0, 0.0), 1.0)
    assert back.start == pytest.approx(there, abs=1e-12)
    assert back.end == (2.0, 0.0)


def test_pieces_wholly_below_are_kept_and_wholly_above_removed():
    pieces = rectangle(0, 0, 2, 1).segments
    assert parts_below_line(pieces, (0.0, 5.0), 0.1) == list(pieces)
    assert parts_below_line(pieces, (0.0, -5.0), 0.1) == []
