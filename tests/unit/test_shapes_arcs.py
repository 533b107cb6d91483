"""Chains of arcs against the drawn path and against shapely."""

import math

import numpy as np
import pytest
from shapely import LineString, Point

from templates_gen.geometry import curve
from templates_gen.shapes.arcs import Arcs, select_arcs
from templates_gen.shapes.arcs_through import PIECE, piece_counts, spline_arcs
from templates_gen.shapes.biarc import Biarc

#: Points of an invented ridge, falling forward, concave toward its end.
POINTS = (
    (9.0, 22.9), (11.0, 22.7), (13.0, 21.6), (14.6, 19.6), (16.0, 17.0), (17.6, 13.6),
    (19.4, 10.2), (21.4, 7.2), (23.4, 4.8), (25.0, 3.2),
)  # fmt: skip
HEADING = 0.1


def line(points=POINTS, heading=HEADING):
    x, z = zip(*points, strict=True)
    return spline_arcs(x, z, heading, piece_counts(points))


def dense(path, n=400):
    return np.array([piece.point(t) for piece in path.segments for t in np.linspace(0, 1, n)])


def test_radii_are_those_of_the_drawn_pieces():
    arcs = line()
    drawn = [piece.radius for piece in arcs.path().segments]
    assert arcs.radii == pytest.approx(drawn, rel=1e-6)
    least, x, z = (float(v) for v in arcs.sharpest)
    assert least == pytest.approx(min(drawn), rel=1e-9)
    tightest = min(arcs.path().segments, key=lambda piece: piece.radius)
    assert (x, z) == pytest.approx(tightest.point(0.5), abs=1e-9)


@pytest.mark.parametrize("sign", [1.0, -1.0], ids=["concave", "convex"])
def test_sharpest_arc_is_found_convex_and_concave(sign):
    """A biarc that turns left or right, one arc tighter than the other."""
    b = Biarc(0.0, 0.0, 0.0, 10.0, sign * 4.0, sign * 1.2, 3.0)
    arcs = b.arcs
    assert np.sign(arcs.turn) == pytest.approx([sign, sign])
    assert float(arcs.sharpest[0]) == pytest.approx(min(p.radius for p in arcs.path().segments))


def test_passes_every_point_and_follows_the_spline_smoothly():
    path = line().path()
    spline = curve.spline_through(POINTS, leave=(math.cos(HEADING), math.sin(HEADING)))
    assert max(path.distance(q) for q in POINTS) < 1e-9
    # Documented for radii from 4 mm; here the least is 5.
    assert max(path.distance(spline(t)[0]) for t in np.linspace(0, 1, 2000)) < 0.005
    assert max(abs(turn) for _, turn in path.kinks()) < 1e-6
    assert max(piece.length for piece in path.segments) < PIECE


def test_steepest_and_lowest_agree_with_dense_sampling():
    dip = (*POINTS[:6], (19.4, 2.0), (21.4, 1.2), (23.4, 2.0), (25.0, 3.2))
    arcs = line(dip)
    places = dense(arcs.path())
    steps = np.diff(places, axis=0)
    steps = steps[np.hypot(*steps.T) > 1e-9]
    slopes = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    assert float(arcs.steepest[0]) == pytest.approx(np.abs(slopes).max(), abs=0.05)
    low = places[np.argmin(places[:, 1])]
    assert float(arcs.lowest[0]) == pytest.approx(low[1], abs=1e-6)
    assert float(arcs.lowest[1]) == pytest.approx(low[0], abs=0.02)


def test_slope_past_the_vertical_exceeds_90():
    """A chain that turns right past the vertical and runs back below its start."""
    back = Arcs(np.array([0.0, 4.0, 3.0]), np.array([0.0, -4.0, -8.0]), np.array([-1.6, -0.4]))
    start = math.degrees(math.atan2(-4.0, 4.0)) + math.degrees(0.8)
    assert float(back.steepest[0]) == pytest.approx(abs(start - math.degrees(2.0)), abs=1e-9)
    assert float(back.steepest[0]) > 90.0


def test_distance_agrees_with_shapely_and_is_negative_outside():
    arcs = line()
    chain = LineString(dense(arcs.path()))
    rng = np.random.default_rng(3)
    x, z = rng.uniform(0, 35, 400), rng.uniform(-5, 35, 400)
    depth = arcs.depth_and_slope(x, z)[0]
    assert np.abs(depth) == pytest.approx([chain.distance(Point(*q)) for q in zip(x, z)], abs=1e-4)
    # Points under the ridge, between its ends, are inside.
    height = np.interp(x, *dense(arcs.path()).T)
    between = (x > 9.5) & (x < 24.5) & (np.abs(z - height) > 0.1)
    assert (np.sign(depth) == np.sign(height - z))[between].all()


def test_gradient_agrees_with_differences():
    arcs, step = line(), 1e-6
    for x, z in ((12.0, 15.0), (22.0, 12.0), (16.0, 30.0), (3.0, 5.0), (28.0, 1.0)):
        here, forward, up = (float(v) for v in arcs.depth_and_slope(x, z))
        ahead, above = (arcs.depth_and_slope(x + a, z + b)[0] for a, b in ((step, 0), (0, step)))
        assert forward == pytest.approx(float(ahead - here) / step, abs=1e-4)
        assert up == pytest.approx(float(above - here) / step, abs=1e-4)


def test_arrays_agree_with_single_chains():
    ends = np.array([22.8, 22.9, 23.1])
    x, z = zip(*POINTS, strict=True)
    many = spline_arcs(x, (ends, *z[1:]), HEADING, piece_counts(POINTS))
    for i, end in enumerate(ends):
        one = spline_arcs(x, (float(end), *z[1:]), HEADING, piece_counts(POINTS))
        assert many.radii[:, i] == pytest.approx(one.radii, rel=1e-9)
        depth = many.depth_and_slope(12.0, 10.0)[0][i]
        assert depth == pytest.approx(float(one.depth_and_slope(12.0, 10.0)[0]), rel=1e-12)


def test_selects_one_chain_per_corner():
    lines = {1: line(POINTS[:4]), 2: line()}
    both = select_arcs(lines, np.array([2, 1, 2]))
    for i, n in enumerate((2, 1, 2)):
        alone = Arcs(both.x[:, i], both.z[:, i], both.turn[:, i])
        assert alone.path().length == pytest.approx(lines[n].path().length, rel=1e-9)
        assert float(alone.sharpest[0]) == pytest.approx(float(lines[n].sharpest[0]), rel=1e-9)
