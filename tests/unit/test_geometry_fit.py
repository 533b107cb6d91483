"""Arcs in place of curves. Outside: dense sampling; Fresnel's integrals; the ellipse's equation."""

import math

import pytest
import shapely
from geometry_referee import line_of, sample
from scipy.special import ellipe, fresnel

from templates_gen.errors import GeometryError
from templates_gen.geometry.fit import Fit, ellipse, fit, through
from templates_gen.shapes import arch


def clothoid(length: float, a: float, start: float = 0.0):
    """A curve whose curvature grows as s / a², by Fresnel's integrals."""
    k = a * math.sqrt(math.pi)

    def at(t: float):
        u = (start + length * t) / k
        s, c = fresnel(u)
        angle = math.pi * u * u / 2
        return (k * float(c), k * float(s)), (math.cos(angle), math.sin(angle))

    return at


def wave(height: float):
    def at(t: float):
        a = math.tau * t
        return (40 * t, height * math.sin(a)), (40.0, math.tau * height * math.cos(a))

    return at


def bent(ripple: float, times: int):
    """A long shallow bend with a ripple on it, too small and too short to be seen at few places."""

    def at(t: float):
        a = math.tau * times * t
        y, slope = 80 * t * (1 - t), 80 * (1 - 2 * t)
        return (600 * t, y + ripple * math.sin(a)), (
            600.0,
            slope + ripple * math.tau * times * math.cos(a),
        )

    return at


HEAD = [(0.0, 0.0), (5.0, 3.0), (12.0, 5.0), (20.0, 4.0), (30.0, -1.0), (36.0, 1.0)]

CURVES = {
    "quarter ellipse": (ellipse(10.85, 8.6, 0.0, math.pi / 2), 6),
    "flat quarter": (ellipse(20.0, 6.0, 0.0, math.pi / 2), 8),
    "half ellipse": (ellipse(14.0, 10.0, 0.0, math.pi), 12),
    "clothoid": (clothoid(40.0, 20.0), 10),
    "S of two clothoids": (clothoid(40.0, 16.0, -20.0), 12),
    "S off its middle": (clothoid(40.0, 18.0, -11.0), 12),
    "wave": (wave(3.0), 16),
    "measured points": (through(HEAD), 14),
    "ripple of half a micrometre": (bent(0.0005, 60), 14),
}


def measured(curve, found: Fit) -> tuple[float, float]:
    """Both ways between curve and path, from chords of 2000 points of the curve."""
    points = [curve(i / 2000)[0] for i in range(2001)]
    there = shapely.distance(shapely.points(points), line_of(found.path, 1e-5)).max()
    back = shapely.distance(shapely.points(sample(found.path, 2000)), shapely.LineString(points))
    return there, back.max()


@pytest.mark.parametrize("name", CURVES)
def test_few_arcs_close_and_without_kinks(name):
    curve, most = CURVES[name]
    found = fit(curve)
    there, back = measured(curve, found)
    assert len(found.path.segments) <= most <= 16
    assert there <= 0.005 and back <= 0.005
    assert found.distance == pytest.approx(there, abs=2e-4)
    assert found.kink_deg <= 0.05
    # Kinks by chords of a micrometre on either side of each joint.
    for i in range(1, len(found.path.segments)):
        s = found.path.stations[i]
        a, b, c = (found.path.point_at(s + d) for d in (-1e-4, 0.0, 1e-4))
        turn = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
        assert abs(math.degrees(math.remainder(turn, math.tau))) < 0.05


@pytest.mark.parametrize("name", CURVES)
def test_it_starts_and_ends_on_the_curve_and_in_its_direction(name):
    curve, _ = CURVES[name]
    path = fit(curve).path
    for t, piece, at in [(0.0, path.segments[0], 0.0), (1.0, path.segments[-1], 1.0)]:
        (x, y), (dx, dy) = curve(t)
        tx, ty = piece.tangent(at)
        assert piece.point(at) == pytest.approx((x, y), abs=1e-12)
        assert tx * dy - ty * dx == pytest.approx(0.0, abs=1e-9 * math.hypot(dx, dy))


@pytest.mark.parametrize("distance", [0.05, 0.02, 0.002, 0.0005])
def test_finer_takes_more_arcs_by_the_cube_root(distance):
    # Arcs of one length stand off as its cube, so counts go as the cube root; 10 at 0.005.
    found = fit(clothoid(40.0, 20.0), distance)
    there, back = measured(clothoid(40.0, 20.0), found)
    assert max(there, back) <= distance
    assert len(found.path.segments) <= 10 * (0.005 / distance) ** (1 / 3) + 2


def test_a_circle_is_two_arcs_and_a_line_one():
    ring = fit(ellipse(10.0, 10.0, 0.0, math.tau)).path
    assert [s.radius for s in ring.segments] == pytest.approx([10.0, 10.0], rel=1e-9)
    quarter = fit(ellipse(10.0, 10.0, 0.0, math.pi / 2)).path
    assert len(quarter.segments) == 1 and quarter.segments[0].radius == pytest.approx(10.0)
    line = fit(lambda t: ((40 * t, 3 * t), (40.0, 3.0))).path
    assert len(line.segments) == 1 and line.segments[0].is_line


def test_length_of_an_ellipse():
    # Complete elliptic integral of the second kind; arcs nowhere farther off than 0.005
    # wander by no more than that times the quarter turn.
    a, b = 20.0, 6.0
    exact = a * ellipe(1 - (b / a) ** 2)
    assert fit(ellipse(a, b, 0.0, math.pi / 2)).path.length == pytest.approx(
        exact, abs=0.005 * math.pi / 2
    )


def test_no_arc_is_a_stub():
    # The tolerance is spread: no pair is left over, much shorter than it could be.
    for distance in (0.005, 0.004, 0.003, 0.002):
        lengths = [s.length for s in fit(clothoid(40.0, 20.0), distance).path.segments]
        assert min(lengths) > max(lengths) / 3


def test_the_arch_of_a_bass_ferrule():
    # 22.5 wide and 10.5 high of 0.8 sheet, common practice, no source.
    neutral = arch.neutral(arch.ArchKind.HALF_ELLIPSE, 22.5, 10.5, 0.8, 0.0)
    assert len(neutral.segments) <= 12
    off = [abs(math.hypot(x / 10.85, y / 10.1) - 1) * 10.1 for x, y in sample(neutral, 2000)]
    assert max(off) < 0.005
    assert max(abs(turn) for _, turn in neutral.kinks()) < 0.05


def corner(t: float):
    return (10 * t, abs(10 * t - 4)), (10.0, 10.0 if t > 0.4 else -10.0)


@pytest.mark.parametrize(
    ("curve", "description"),
    [
        (corner, "has a corner"),
        (lambda t: ((10 * t, 0.0), (0.0, 0.0)), "no direction"),
        (lambda t: ((10 * t, 0.0), (math.inf, 0.0)), "no direction"),
        (lambda t: ((0.0, 0.0), (1.0, 0.0)), "no arc can follow"),
        (lambda t: ((10 * t, math.sin(900 * t)), (10.0, 900 * math.cos(900 * t))), "too sharp"),
    ],
)
def test_what_no_arc_can_follow_is_told(curve, description):
    with pytest.raises(GeometryError, match=description):
        fit(curve)


def test_the_measure_can_refuse():
    # A spike narrower than the places looked at while fitting is found when the whole is proved.
    def spiked(t: float):
        return (40 * t, 0.02 if abs(t - 0.3021) < 0.003 else 0.0), (1.0, 0.0)

    with pytest.raises(GeometryError, match=r"stand 0\.0200 mm off"):
        fit(spiked)
