"""Free curves. Outside: scipy's cubic spline; circles and parabolas the points were taken from."""

import math

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

from templates_gen.errors import GeometryError
from templates_gen.geometry.curve import ellipse, through

HEAD = [(0.0, 0.0), (5.0, 3.0), (12.0, 5.0), (20.0, 4.0), (26.0, -1.0), (24.0, -7.0)]


def spline_of(points, ends="not-a-knot"):
    xy = np.array(points)
    s = np.r_[0, np.cumsum(np.hypot(*np.diff(xy, axis=0).T))]
    return CubicSpline(s, xy, bc_type=ends), s[-1]


@pytest.mark.parametrize("n", [3, 4, 5, 6])
def test_scipy_agrees(n):
    curve = through(HEAD[:n])
    spline, total = spline_of(HEAD[:n])
    for t in np.linspace(0, 1, 101):
        point, way = curve(float(t))
        assert point == pytest.approx(spline(t * total), abs=1e-10)
        assert way == pytest.approx(spline(t * total, 1), abs=1e-10)


@pytest.mark.parametrize("n", [2, 4, 6])
def test_scipy_agrees_where_ends_are_stated(n):
    leave, arrive = (0.0, 2.0), (-3.0, -4.0)
    curve = through(HEAD[:n], leave, arrive)
    ends = ((1, np.array([0.0, 1.0])), (1, np.array([-0.6, -0.8])))
    spline, total = spline_of(HEAD[:n], ends)
    for t in np.linspace(0, 1, 51):
        assert curve(float(t))[0] == pytest.approx(spline(t * total), abs=1e-10)


def test_it_goes_through_what_was_measured():
    curve = through(HEAD)
    for p in HEAD:
        assert min(math.dist(p, curve(i / 4000)[0]) for i in range(4001)) < 6e-3
    assert curve(0.0)[0] == HEAD[0] and curve(1.0)[0] == pytest.approx(HEAD[-1])


def test_two_points_are_a_line_and_three_a_parabola():
    assert through([(0, 0), (6, 8)])(0.25) == (pytest.approx((1.5, 2.0)), pytest.approx((0.6, 0.8)))
    # Evenly spaced points of a parabola with its axis across the chord give that parabola back.
    curve = through([(-3.0, 0.0), (0.0, 4.0), (3.0, 0.0)])
    assert curve(0.25)[0] == pytest.approx((-1.5, 3.0))
    one_end = through([(0, 0), (10, 0)], leave=(1.0, 1.0))
    assert one_end(0.0)[1] == pytest.approx((math.sqrt(0.5), math.sqrt(0.5)))


@pytest.mark.parametrize(("n", "off"), [(6, 0.2), (12, 4e-3), (24, 4e-4)])
def test_points_of_a_circle_give_it_back(n, off):
    # A half circle of 10 measured at uneven places.
    angles = [math.pi * (i + 0.25 * math.sin(2.0 * i)) / (n - 1) for i in range(n)]
    curve = through([(10 * math.cos(a), 10 * math.sin(a)) for a in angles])
    assert max(abs(math.hypot(*curve(i / 500)[0]) - 10) for i in range(501)) < off


def test_ellipse_points_and_directions():
    # x²/a² + y²/b² = 1, and the tangent is the conjugate direction.
    curve = ellipse(5.0, 3.0, 0.2, 2.0, centre=(1.0, -1.0))
    for t in (0.0, 0.4, 1.0):
        (x, y), (dx, dy) = curve(t)
        assert ((x - 1) / 5) ** 2 + ((y + 1) / 3) ** 2 == pytest.approx(1.0)
        assert (x - 1) * dx / 25 + (y + 1) * dy / 9 == pytest.approx(0.0, abs=1e-12)
    assert ellipse(5.0, 3.0, 2.0, 0.2)(0.0)[1][0] > 0


@pytest.mark.parametrize(
    ("args", "description"),
    [
        (([],), "two points"),
        (([(1.0, 2.0)],), "two points"),
        (([(0.0, 0.0), (1.0, 1.0), (1.0, 1.0)],), "one place"),
        (([(0.0, 0.0), (math.nan, 1.0)],), "no number"),
        (([(0.0, 0.0), (1.0, 1.0)], (0.0, 0.0)), "no length"),
    ],
)
def test_what_is_no_curve_is_refused(args, description):
    with pytest.raises(GeometryError, match=description):
        through(*args)
