"""The throat: two tangent arcs, and the distance of points to them."""

import math

import numpy as np
import pytest
import shapely
from geometry_referee import sample
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.geometry import Path, Pen
from templates_gen.shapes.throat import Throat

#: A violin bow's, one with a vertical line, and an underhand bow's.
VIOLIN = Throat(32.5, 6.8, 4.5, 11.6, 0.0, 38.5, 16.4, 8.0)
STRAIGHT = Throat(32.5, 6.8, 3.0, 11.8, 2.0, 38.5, 16.4, 8.0)
UNDERHAND = Throat(40.0, 11.0, 10.0, 23.0, 0.0, 52.0, 35.0, 8.0)
SOME = pytest.mark.parametrize("t", [VIOLIN, STRAIGHT, UNDERHAND], ids=["violin", "long", "under"])


def drawn(t: Throat) -> Path:
    """Draw from shoulder to thumb projection by the calculated radii and ends."""
    low, high = float(t.low), float(t.high)
    back, lower, upper = float(t.deepest), float(t.lower_radius), float(t.upper_radius)
    join = (float(t.joins_thumb[0]), float(t.joins_thumb[1]))
    pen = Pen((t.shoulder, t.ferrule)).arc_to((back, low), (back + lower, low), left=False)
    pen.line_to(back, high).arc_to(join, (back + upper, high), left=False)
    return pen.open()


@SOME
def test_arcs_are_tangent_to_each_other_and_to_the_underside(t):
    path = drawn(t)
    assert max(abs(turn) for _, turn in path.kinks()) < 1e-9
    # Vertical at the deepest point, along the underside at the end.
    first, last = path.segments[0], path.segments[-1]
    assert math.degrees(first.heading(1.0)) % 360 == pytest.approx(90.0, abs=1e-9)
    assert math.degrees(last.heading(1.0)) == pytest.approx(t.slope_deg, abs=1e-9)


@SOME
def test_arcs_end_at_shoulder_and_underside(t):
    path = drawn(t)
    assert path.start == (t.shoulder, t.ferrule)
    assert path.box[0] == pytest.approx(t.shoulder - t.depth, abs=1e-9)
    u, v = path.end
    on_line = t.tip_height - math.tan(math.radians(t.slope_deg)) * (t.tip - u)
    assert v == pytest.approx(on_line, abs=1e-9)
    assert float(t.high - t.low) == pytest.approx(t.straight)


def test_radii_by_hand():
    """VIOLIN: (4.5² + 4.8²)/(2 · 4.5); (16.4 − 11.6 − tan 8° (38.5 − 28)) cos 8°/(1 − sin 8°)."""
    assert float(VIOLIN.lower_radius) == pytest.approx(43.29 / 9, rel=1e-12)
    room = 4.8 - math.tan(math.radians(8)) * 10.5
    upper = room * math.cos(math.radians(8)) / (1 - math.sin(math.radians(8)))
    assert float(VIOLIN.upper_radius) == pytest.approx(upper, rel=1e-12)


def sampled(t: Throat, n: int = 4000):
    """The arcs as chords, from centres and angles only, without the package's geometry."""
    back = t.shoulder - t.depth
    a0 = math.atan2(t.ferrule - t.low, t.shoulder - back - t.lower_radius)
    lower = np.linspace(a0 % math.tau, math.pi, n)
    u, v = t.joins_thumb
    a1 = math.atan2(v - t.high, u - back - t.upper_radius)
    upper = np.linspace(math.pi, a1, n)
    x = [
        back + t.lower_radius + t.lower_radius * np.cos(lower),
        back + t.upper_radius + t.upper_radius * np.cos(upper),
    ]
    z = [t.low + t.lower_radius * np.sin(lower), t.high + t.upper_radius * np.sin(upper)]
    return shapely.LineString(np.column_stack([np.concatenate(x), np.concatenate(z)]))


@SOME
def test_gap_by_shapely(t):
    rng = np.random.default_rng(7)
    x = rng.uniform(t.shoulder - 3 * t.depth, t.tip + 5, 400)
    z = rng.uniform(0.0, t.tip_height + 8, 400)
    expected = shapely.distance(shapely.points(x, z), sampled(t))
    assert np.allclose(t.gap(x, z), expected, atol=1e-5)


@SOME
def test_gap_of_point_arrays(t):
    points = [(20.0, 10.0), (27.5, 3.0), (30.0, 16.0)]
    many = t.gap(*np.transpose(points))
    assert [float(t.gap(x, z)) for x, z in points] == pytest.approx(list(many), rel=1e-15)


def test_gap_of_throat_arrays():
    depths = np.array([3.0, 4.5, 4.7])
    many = Throat(32.5, 6.8, depths, 11.6, 0.0, 38.5, 16.4, 8.0).gap(20.0, 9.0)
    alone = [
        float(Throat(32.5, 6.8, float(d), 11.6, 0.0, 38.5, 16.4, 8.0).gap(20.0, 9.0))
        for d in depths
    ]
    assert list(many) == pytest.approx(alone, rel=1e-15)
    assert np.all(np.diff(many) < 0)


@SOME
def test_gap_is_zero_on_the_throat(t):
    for x, z in sample(drawn(t), 50):
        assert float(t.gap(x, z)) == pytest.approx(0.0, abs=1e-9)


@st.composite
def throats(draw):
    """Valid throats: no undercut, radii that can be cut."""
    depth = draw(st.floats(1.0, 12.0))
    rise = draw(st.floats(1.0, 2.5)) * depth
    straight = draw(st.sampled_from([0.0, 1.0])) * draw(st.floats(0.1, 6.0))
    shoulder, ferrule = draw(st.floats(25, 60)), draw(st.floats(4, 14))
    height = ferrule + rise + straight / 2
    slope, upper = draw(st.floats(0.0, 25.0)), draw(st.floats(2.0, 12.0))
    tip = shoulder + draw(st.floats(1.0, 12.0))
    # Place the tip so that the upper arc has the drawn radius.
    reach = math.tan(math.radians(slope)) * (tip - shoulder + depth)
    lift = upper * (1 - math.sin(math.radians(slope))) / math.cos(math.radians(slope))
    tip_height = height + straight / 2 + lift + reach
    return Throat(shoulder, ferrule, depth, height, straight, tip, tip_height, slope)


@settings(max_examples=60, deadline=None)
@given(throats(), st.floats(-25, 12), st.floats(-12, 25))
def test_gap_of_random_throats_by_shapely(t, dx, dz):
    x, z = t.deepest + dx, t.height + dz
    expected = sampled(t, 2000).distance(shapely.Point(x, z))
    assert float(t.gap(x, z)) == pytest.approx(expected, abs=2e-5)


@settings(max_examples=60, deadline=None)
@given(throats())
def test_random_throats_are_smooth(t):
    assert max(abs(turn) for _, turn in drawn(t).kinks()) < 1e-6
    assert drawn(t).box[0] == pytest.approx(float(t.deepest), abs=1e-9)


def test_undercut_shows_in_rise_and_radius():
    """If deeper than high, the lower arc would run behind the shoulder."""
    t = Throat(32.5, 6.8, 6.0, 10.0, 0.0, 38.5, 16.4, 8.0)
    assert t.rise < t.depth
    assert t.lower_radius < t.depth
    assert VIOLIN.rise >= VIOLIN.depth
