"""Biarcs: tangency, radii and distances, against dense sampling and shapely."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from templates_gen.errors import GeometryError
from templates_gen.shapes.biarc import Biarc

#: Start, direction (degrees), end, direction, ratio of the legs: a head's ridges and others.
CASES = {
    "upright": ((9.0, 22.9), 5.7, (25.0, 3.2), -62.0, 0.45),
    "swept": ((6.5, 22.6), 5.7, (25.0, 3.2), -30.0, 0.70),
    "full": ((10.0, 23.0), 5.7, (25.0, 3.2), -88.0, 1.0),
    "turning left": ((0.0, 0.0), 0.0, (30.0, 20.0), 70.0, 1.3),
    "an S": ((0.0, 0.0), 0.0, (40.0, 10.0), 0.0, 1.0),
}
each = pytest.mark.parametrize("case", CASES)


def biarc(case):
    (x0, z0), h0, (x1, z1), h1, ratio = CASES[case]
    return Biarc(x0, z0, math.radians(h0), x1, z1, math.radians(h1), ratio)


def depth(b, x, z):
    return b.arcs.depth_and_slope(x, z)[0]


def dense(path, n=4000):
    return np.array([piece.point(t) for piece in path.segments for t in np.linspace(0, 1, n)])


@each
def test_has_the_stated_tangents_and_a_smooth_joint(case):
    path = biarc(case).arcs.path()
    (x0, z0), h0, (x1, z1), h1, _ = CASES[case]
    assert path.start == pytest.approx((x0, z0), abs=1e-12)
    assert path.end == pytest.approx((x1, z1), abs=1e-12)
    first, second = path.segments
    for tangent, degrees in ((first.tangent(0.0), h0), (second.tangent(1.0), h1)):
        angle = math.radians(degrees)
        assert tangent == pytest.approx((math.cos(angle), math.sin(angle)), abs=1e-9)
    assert first.tangent(1.0) == pytest.approx(second.tangent(0.0), abs=1e-9)


@each
def test_legs_have_the_stated_ratio_and_meet_at_the_joint(case):
    """The joint is on the line between the legs' ends, at the length of each leg from its end."""
    b = biarc(case)
    first, second = b.legs
    assert first / second == pytest.approx(CASES[case][4], rel=1e-12)
    q = np.array([b.x0 + first * np.cos(b.heading0), b.z0 + first * np.sin(b.heading0)])
    r = np.array([b.x1 - second * np.cos(b.heading1), b.z1 - second * np.sin(b.heading1)])
    joint = np.array(b.joint)
    assert np.linalg.norm(joint - q) == pytest.approx(first, rel=1e-9)
    assert np.linalg.norm(joint - r) == pytest.approx(second, rel=1e-9)
    assert np.linalg.norm(q - r) == pytest.approx(first + second, rel=1e-9)


@each
def test_radii_are_those_of_circles_through_three_drawn_points(case):
    for radius, piece in zip(biarc(case).arcs.radii, biarc(case).arcs.path().segments, strict=True):
        (ax, az), (bx, bz), (cx, cz) = (piece.point(t) for t in (0.1, 0.5, 0.9))
        a, b, c = math.dist((bx, bz), (cx, cz)), math.dist((ax, az), (cx, cz)), 0.0
        c = math.dist((ax, az), (bx, bz))
        area = abs((bx - ax) * (cz - az) - (bz - az) * (cx - ax)) / 2
        # Any handbook: R = abc / 4 A.
        assert radius == pytest.approx(a * b * c / (4 * area), rel=1e-6)


@pytest.mark.parametrize("ratio", [0.2, 1.0, 3.5])
def test_on_one_circle_both_arcs_are_that_circle(ratio):
    """Geometry: ends and tangents of a circle of radius 20, from 150° to 20°, clockwise."""
    a, b = math.radians(150), math.radians(20)
    quarter = -math.pi / 2
    ends = (20 * math.cos(a), 20 * math.sin(a)), (20 * math.cos(b), 20 * math.sin(b))
    one = Biarc(*ends[0], a + quarter, *ends[1], b + quarter, ratio)
    assert one.arcs.radii == pytest.approx((20.0, 20.0), rel=1e-9)
    assert sum(one.turns) == pytest.approx(math.radians(-130), rel=1e-9)


def test_reverse_curve_between_parallels_has_the_surveyors_radius():
    """Any surveying handbook: R = (l² + h²) / 4 h for equal arcs, l along and h across."""
    assert biarc("an S").arcs.radii == pytest.approx([(40**2 + 10**2) / 40] * 2, rel=1e-12)


def test_collinear_ends_give_a_line():
    path = Biarc(0.0, 0.0, 0.5, 10 * math.cos(0.5), 10 * math.sin(0.5), 0.5, 0.7).arcs.path()
    assert path.length == pytest.approx(10.0, rel=1e-12)
    assert max(abs(piece.turn) for piece in path.segments) < 1e-9


@each
def test_depth_agrees_with_shapely_and_dense_sampling(case):
    b = biarc(case)
    points = dense(b.arcs.path())
    chain = LineString(points)
    left, low, right, high = chain.bounds
    grid = [(x, z) for x in np.linspace(left - 5, right + 5, 9) for z in np.linspace(low, high, 7)]
    for x, z in grid:
        found = abs(float(depth(b, x, z)))
        assert found == pytest.approx(chain.distance(Point(x, z)), abs=1e-4)
        assert found == pytest.approx(np.hypot(*(points - (x, z)).T).min(), abs=5e-3)
        assert found == pytest.approx(b.arcs.path().distance((x, z)), abs=1e-9)


@each
def test_depth_is_negative_on_the_left(case):
    """By shapely's single-sided buffer."""
    b = biarc(case)
    chain = LineString(dense(b.arcs.path(), 400))
    on_right, on_left = (chain.buffer(side * 2.0, single_sided=True) for side in (-1, 1))
    rng = np.random.default_rng(5)
    left, low, right, high = chain.buffer(2.0).bounds
    seen = set()
    for x, z in zip(rng.uniform(left, right, 400), rng.uniform(low, high, 400), strict=True):
        place, found = Point(x, z), float(depth(b, x, z))
        for side, sign in ((on_right, 1), (on_left, -1)):
            if side.covers(place) and chain.distance(place) < 1.9:
                assert found * sign >= 0
                seen.add(sign)
    assert seen == {1, -1}


def test_arrays_agree_with_single_biarcs():
    names = list(CASES)
    rows = [biarc(name) for name in names]
    fields = ("x0", "z0", "heading0", "x1", "z1", "heading1", "ratio")
    many = Biarc(*(np.array([getattr(row, f) for row in rows]) for f in fields))
    for i, one in enumerate(rows):
        assert [v[i] for v in many.arcs.radii] == pytest.approx(list(one.arcs.radii), rel=1e-12)
        assert depth(many, 12.0, 10.0)[i] == pytest.approx(float(depth(one, 12.0, 10.0)), rel=1e-12)


def test_rejects_directions_no_biarc_joins():
    """Start heading away from the end and end heading back: arcs of 180° or more."""
    with pytest.raises(GeometryError, match="no tangent arcs join"):
        Biarc(0.0, 0.0, math.pi, 10.0, 0.0, math.pi, 1.0).arcs.path()
