"""Flattening. Reference: the sagitta of a chord, r (1 - cos a/2)."""

import math

import pytest

from templates_gen.geometry import Path, Segment, circle
from templates_gen.geometry.flatten import chord_count, flatten


@pytest.mark.parametrize("radius", [0.5, 10.0, 400.0])
@pytest.mark.parametrize("error", [0.1, 5e-4, 1e-5])
def test_uses_the_fewest_chords_within_the_error(radius, error):
    disc = circle((0.0, 0.0), radius)
    points = flatten(disc, error)
    half = math.pi / len(points)
    assert radius * (1 - math.cos(half)) <= error * (1 + 1e-6)
    # Two fewer (one per half circle) would exceed the error.
    if len(points) > 4:
        assert radius * (1 - math.cos(math.pi / (len(points) - 2))) > error * (1 - 1e-6)
    assert all(math.hypot(*p) == pytest.approx(radius, rel=1e-12) for p in points)


def test_open_path_keeps_its_end_and_closed_path_does_not_repeat_it():
    path = Path(((0.0, 0.0, 0.0), (4.0, 0.0, 1.0), (4.0, 2.0, 0.0)), closed=False)
    points = flatten(path, 0.01)
    assert points[0] == (0.0, 0.0) and points[-1] == (4.0, 2.0)
    closed = flatten(Path(path.vertices), 0.01)
    assert closed == points


def test_line_and_tiny_arc_need_one_chord():
    assert chord_count(Segment((0, 0), (100, 0)), 1e-9) == 1
    assert chord_count(Segment((0, 0), (1, 0), 1e-7), 1e-3) == 1
    assert chord_count(Segment((-1, 0), (1, 0), 1.0), 5.0) == 1


@pytest.mark.parametrize("error", [0.0, -1.0, math.nan])
def test_rejects_an_error_that_is_not_positive(error):
    with pytest.raises(ValueError, match="must be positive"):
        flatten(circle((0, 0), 1), error)
