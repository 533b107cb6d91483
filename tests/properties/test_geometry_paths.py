"""Random outlines moved, mirrored, reversed and measured. Reference: shapely."""

import math

import pytest
import shapely
from geometry_referee import line_of, outlines, path_intersections, polygon_of, sample
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.geometry.measure import (
    PointLocation,
    gap,
    locate,
    self_intersection,
)

few = settings(max_examples=30, deadline=None)
coordinate = st.floats(-25, 25)


@few
@given(outlines(1.0), coordinate, coordinate, st.floats(-4, 4))
def test_translation_and_rotation_keep_measures(path, dx, dy, angle):
    moved = path.rotated(angle, about=(1.0, 2.0)).moved(dx, dy)
    assert moved.area == pytest.approx(path.area, rel=1e-9, abs=1e-9)
    assert moved.length == pytest.approx(path.length, rel=1e-12)
    c, s = math.cos(angle), math.sin(angle)
    assume(abs(path.area) > 1)
    x, y = path.centroid[0] - 1, path.centroid[1] - 2
    there = (1 + x * c - y * s + dx, 2 + x * s + y * c + dy)
    assert moved.centroid == pytest.approx(there, abs=1e-8)


@few
@given(outlines(1.0), coordinate)
def test_reversed_and_mirrored(path, x):
    back, mirrored = path.reversed(), path.mirrored(x=x)
    assert back.area == pytest.approx(-path.area, rel=1e-12, abs=1e-9)
    assert mirrored.area == pytest.approx(-path.area, rel=1e-12, abs=1e-9)
    assert back.reversed() == path
    for (a, turn), (b, other) in zip(path.kinks()[:-1], back.kinks()[-2::-1], strict=True):
        assert a == b and math.remainder(turn + other, 360) == pytest.approx(0.0, abs=1e-9)
    left, bottom, right, top = path.box
    assert mirrored.box == pytest.approx((2 * x - right, bottom, 2 * x - left, top), abs=1e-9)
    assert mirrored.mirrored(x=x).distance(path.start) < 1e-9


@few
@given(outlines(1.0))
def test_measures_agree_with_shapely(path):
    seen = polygon_of(path, 1e-5)
    assume(seen.is_valid and path.area > 1)
    assert path.area == pytest.approx(seen.area, abs=1e-5 * path.length)
    assert path.length == pytest.approx(seen.length, rel=1e-5)
    assert path.box == pytest.approx(seen.bounds, abs=2e-5)
    centroid = (seen.centroid.x, seen.centroid.y)
    assert path.centroid == pytest.approx(centroid, abs=1e-4 * max(1, path.length / path.area))


@few
@given(outlines(1.0), st.lists(st.tuples(coordinate, coordinate), min_size=5, max_size=25))
def test_point_location_agrees_with_shapely(path, points):
    seen = polygon_of(path, 1e-5)
    assume(seen.is_valid)
    for p in points:
        near = path.distance(p)
        assert near == pytest.approx(seen.exterior.distance(shapely.Point(p)), abs=2e-5)
        if near > 1e-4:
            assert (locate(path, p) is PointLocation.INSIDE) == seen.contains(shapely.Point(p))


@few
@given(outlines(0.6), outlines(0.6), coordinate, coordinate)
def test_intersections_and_gaps_agree_with_shapely(path, other, dx, dy):
    other = other.moved(dx, dy)
    a, b = line_of(path, 1e-5), line_of(other, 1e-5)
    found, apart = path_intersections(path, other), gap(path, other)
    assert apart.distance == pytest.approx(a.distance(b), abs=3e-5)
    assert (apart.distance == 0) == bool(found)
    for p in found:
        assert path.distance(p) < 1e-8 and other.distance(p) < 1e-8
    for q in shapely.get_coordinates(a.intersection(b)):
        # Flattened arcs that touch intersect elsewhere, but near both of our paths.
        assert min(path.distance(tuple(q)), 1) < 1e-4 and min(other.distance(tuple(q)), 1) < 1e-4
        if not found:
            assert apart.distance < 1e-4


@few
@given(outlines(1.0), st.floats(1e-4, 1.0))
def test_flattening_keeps_the_chord_error(path, error):
    chords = flatten(path, error)
    seen = shapely.LinearRing(chords)
    apart = shapely.distance(shapely.points(sample(path, 400)), seen)
    assert apart.max() <= error * (1 + 1e-9) + 1e-12
    assert all(path.distance(p) < 1e-9 for p in chords)


@few
@given(outlines(1.0))
def test_self_intersection_agrees_with_shapely(path: Path):
    place = self_intersection(path)
    if place is None:
        # Coarsely flattened outlines may intersect where the true ones are only near.
        assert polygon_of(path, 1e-6).is_valid
    else:
        assert sum(s.distance(place) < 1e-8 for s in path.segments) >= 2
