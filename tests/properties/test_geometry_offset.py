"""Whatever the outline: its parallels and what a cutter makes of it. Outside: shapely."""

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
def test_a_parallel_stands_at_its_distance_or_is_refused(path, d):
    assume(is_simple(path) and self_intersection(path) is None)
    try:
        out = offset(path, d)
    except GeometryError as told:
        assert told.place is not None and path.distance(told.place) <= abs(d) + 1e-6
        return
    apart = shapely.distance(shapely.points(sample(out, 300)), line_of(path))
    assert abs(apart - abs(d)).max() < 3e-6
    seen = buffered(polygon_of(path, 5e-4), d)
    assert out.area == pytest.approx(seen.area, abs=1.2e-3 * seen.length + 5e-3)
    # It covers its source, but that sharp hollows keep a little to themselves.
    if all(turn * d >= 0 for _, turn in path.kinks()):
        assert max(out.distance(p) for p in sample(path, 60)) < abs(d) + 1e-6


def tightest_hollow(path):
    """The least radius where an outline turns right, a corner's being nothing."""
    sharp = [0.0 for _, turn in path.kinks() if turn < -FIT_KINK_DEG]
    return min([*sharp, *(s.radius for s in path.segments if s.bulge < 0)], default=math.inf)


@few
@given(outlines(), distances)
def test_there_and_back(path, d):
    assume(is_simple(path) and self_intersection(path) is None)
    try:
        back = offset(offset(path, d), -d)
    except GeometryError:
        return
    if tightest_hollow(path if d > 0 else path.reversed()) >= abs(d):
        assert back.area == pytest.approx(path.area, abs=1e-6)
        assert max(path.distance(p) for p in sample(back, 200)) < 1e-6
        assert max(back.distance(p) for p in sample(path, 200)) < 1e-6
    else:
        # Sharp hollows come back round: wood is left, none is taken.
        assert (back.area - path.area) * d > 0


@few
@given(outlines(0.8), distances)
def test_what_a_cutter_leaves_is_what_shapely_closes(path, d):
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
    deepest = found.missed[0].depth if found.missed else 0.0
    assert depth < max(deepest, 0.01) + 1e-3
    for missed in found.missed:
        assert path.distance(missed.place) < 1e-9
        off = tracks.distance(shapely.Point(missed.place)) - abs(d)
        # Straight through a thin wall another track may be nearer; none is farther.
        assert off < missed.depth + 1e-4
