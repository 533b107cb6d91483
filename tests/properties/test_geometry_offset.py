"""Offsets and cutter tracks of random outlines. Reference: shapely."""

import math

import pytest
import shapely
from geometry_referee import buffered, is_simple, line_of, outlines, polygon_of, sample
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from templates_gen.errors import GeometryError
from templates_gen.geometry.measure import self_intersection
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import cutter_reach
from templates_gen.tolerances import FIT_KINK_DEG

few = settings(max_examples=30, deadline=None)
distances = st.floats(0.1, 5.0).flatmap(lambda d: st.sampled_from([d, -d]))


@few
@given(outlines(), distances)
def test_offset_is_at_its_distance_or_raises(path, d):
    assume(is_simple(path) and self_intersection(path) is None)
    try:
        out = offset(path, d)
    except GeometryError as error:
        assert error.place is not None and path.distance(error.place) <= abs(d) + 1e-6
        return
    apart = shapely.distance(shapely.points(sample(out, 300)), line_of(path))
    assert abs(apart - abs(d)).max() < 3e-6
    seen = buffered(polygon_of(path, 5e-4), d)
    assert out.area == pytest.approx(seen.area, abs=1.2e-3 * seen.length + 5e-3)
    # The offset passes every point of the path, except in sharp inside corners.
    if all(turn * d >= 0 for _, turn in path.kinks()):
        assert max(out.distance(p) for p in sample(path, 60)) < abs(d) + 1e-6


def least_concave_radius(path):
    """The least radius where an outline turns right, 0 at a corner."""
    sharp = [0.0 for _, turn in path.kinks() if turn < -FIT_KINK_DEG]
    return min([*sharp, *(s.radius for s in path.segments if s.bulge < 0)], default=math.inf)


@few
@given(outlines(), distances)
def test_offsetting_back_restores_the_path(path, d):
    assume(is_simple(path) and self_intersection(path) is None)
    try:
        back = offset(offset(path, d), -d)
    except GeometryError:
        return
    if least_concave_radius(path if d > 0 else path.reversed()) >= abs(d):
        assert back.area == pytest.approx(path.area, abs=1e-6)
        assert max(path.distance(p) for p in sample(back, 200)) < 1e-6
        assert max(back.distance(p) for p in sample(path, 200)) < 1e-6
    else:
        # Sharp inside corners come back rounded: material is left, none is removed.
        assert (back.area - path.area) * d > 0


@few
@given(outlines(0.8), distances)
def test_cutter_leaves_what_shapely_closes(path, d):
    assume(is_simple(path) and self_intersection(path) is None)
    seen = buffered(polygon_of(path, 5e-4), d)
    try:
        found = cutter_reach(path, d)
    except GeometryError:
        assert seen.area < 0.01
        return
    tracks = shapely.union_all([line_of(t, 1e-5) for t in found.tracks])
    assert sum(t.area for t in found.tracks) == pytest.approx(
        seen.area, abs=1.2e-3 * seen.length + 5e-3
    )
    depth = (shapely.distance(shapely.points(sample(path, 300)), tracks) - abs(d)).max()
    deepest = found.unreached[0].depth if found.unreached else 0.0
    assert depth < max(deepest, 0.01) + 1e-3
    for unreached in found.unreached:
        assert path.distance(unreached.place) < 1e-9
        off = tracks.distance(shapely.Point(unreached.place)) - abs(d)
        # Another track may be nearer through a thin wall; none is farther.
        assert off < unreached.depth + 1e-4
