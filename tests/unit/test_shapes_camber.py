"""Depth and slope of the camber against closed forms and scipy's integration."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import CubicSpline, make_interp_spline
from scipy.optimize import minimize_scalar

from templates_gen.shapes import camber
from templates_gen.shapes.camber import STATIONS, Camber
from templates_gen.shapes.camber_tension import PulledStraight

LENGTH, DEPTH = 651.0, 16.3
U = np.linspace(0.0, 1.0, STATIONS + 1)
#: Measured with a straight edge and a rule: distance from the ferrule and depth.
MEASURED = [
    (60.0, 5.1), (130.0, 9.7), (220.0, 13.9), (325.0, 16.3), (430.0, 14.6), (540.0, 9.1),
    (600.0, 4.5),
]  # fmt: skip


def diameter(x):
    """Diameter by the published rule (Fétis 1856), from the ferrule's front."""
    return -6.2269 + 5.1417 * np.log10(175.0 + 700.0 - 54.0 - x)


def even():
    return Camber(LENGTH, DEPTH, np.ones(STATIONS + 1))


def even_strain():
    return Camber(LENGTH, DEPTH, camber.even_strain(diameter(U * LENGTH)))


#: Distances from the underside to the hair at frog and head (mm).
FROG, HEAD = 17.0, 16.7


def pulled(lengths=LENGTH, depths=DEPTH):
    def across(shares):
        thick = diameter(np.asarray(lengths)[..., None] * shares)
        return thick, np.pi / 64 * thick**4

    return PulledStraight(lengths, depths, across, FROG, HEAD, 650.0)


@pytest.fixture(scope="module")
def integrated():
    """The camber of even strain by scipy: y″ proportional to 1/d, zero at both ends.

    Source: beam with small slopes (any handbook): strain at the surface is curvature times d/2.
    """

    def bends(x, state):
        return [state[1], -(diameter(x) ** -1.0) * 1000.0]

    # Start with slope 0; an added line brings the far end to 0.
    run = solve_ivp(bends, (0.0, LENGTH), [0.0, 0.0], rtol=1e-11, atol=1e-13, dense_output=True)
    tilt = -run.sol(LENGTH)[0] / LENGTH

    def plain(x):
        y, slope = run.sol(x)
        return y + tilt * x, slope + tilt

    best = minimize_scalar(
        lambda x: -plain(x)[0], bounds=(0.0, LENGTH), method="bounded", options={"xatol": 1e-9}
    )
    scale = DEPTH / plain(best.x)[0]
    return even_strain(), lambda x: np.array(plain(x)) * scale, best.x


def test_uniform_camber_is_a_parabola():
    """4 c u (1 − u), slope 4 c/L at the ends, curvature 8 c/L² (any handbook)."""
    c = even()
    assert c.depths == pytest.approx(4 * DEPTH * U * (1 - U), abs=1e-10)
    assert c.slopes == pytest.approx(4 * DEPTH / LENGTH * (1 - 2 * U), abs=1e-12)
    assert float(c.slope_at_head) == pytest.approx(4 * DEPTH / LENGTH, rel=1e-12)
    assert float(c.deepest) == pytest.approx(0.5, abs=1e-12)
    assert float(c.unevenness) == 0.0


def test_depth_and_slope_agree_with_scipy(integrated):
    c, known, _ = integrated
    depth, slope = known(U * LENGTH)
    # Within a micrometre.
    assert np.abs(c.depths - depth).max() < 1e-3
    assert np.abs(c.slopes - slope).max() < 1e-5


def test_interpolation_between_stations_agrees_with_scipy(integrated):
    c, known, _ = integrated
    for x in (0.0, 1.234, 99.9, 325.5, 500.01, LENGTH):
        depth, slope = known(x)
        assert c.at(x) == pytest.approx((depth, slope), abs=1e-3)


def test_deepest_point_agrees_with_scipy(integrated):
    c, _, place = integrated
    assert float(c.deepest) * LENGTH == pytest.approx(place, abs=0.01)
    # Thinner wood bends more: the deepest point is toward the head.
    assert place > LENGTH / 2 + 5


def test_tension_pulls_the_tension_camber_straight():
    """The axis without hair is T/E times the integral of y/I with Green's function of the beam on
    two supports (any handbook), by scipy's quad; the underside is half the thickness below it.
    """
    law = pulled()
    c, chord = law.camber, float(law.camber.length)
    assert c.depths.max() == pytest.approx(DEPTH, abs=1e-3)
    slope = float(c.slope_at_ferrule)
    droop = np.arctan((HEAD - FROG) / 650.0)
    # The frog is square to the handle; the hair runs between its foot and the head's face.
    x0, z0 = -FROG * np.sin(np.arctan(slope)), -FROG * np.cos(np.arctan(slope))
    x1, z1 = chord - HEAD * np.sin(droop), -HEAD * np.cos(droop)
    rise = (z1 - z0) / (x1 - x0)
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(U * chord), np.diff(c.depths)))])

    def thick(x):
        return diameter(np.interp(x, U * chord, along))

    def arm(x):
        """Height of the straight axis above the hair."""
        ends = [(-(z0 + rise * (at - x0))) / np.hypot(1, rise) + thick(at) / 2 for at in (0, chord)]
        return ends[0] + (ends[1] - ends[0]) * x / chord

    def load(x):
        return arm(x) / (np.pi / 64 * thick(x) ** 4)

    def depth(x):
        near = quad(lambda s: s * load(s), 0, x, epsrel=1e-11)[0]
        far = quad(lambda s: (chord - s) * load(s), x, chord, epsrel=1e-11)[0]
        bent = float(law.pull_per_modulus) * (near * (chord - x) + far * x) / chord
        line = thick(0) + (thick(chord) - thick(0)) * x / chord
        return bent + (thick(x) - line) / 2

    places = range(10, STATIONS, 19)
    found = [depth(U[i] * chord) for i in places]
    assert found == pytest.approx([c.depths[i] for i in places], abs=2e-3)


def test_chord_of_a_parabola_by_the_closed_form():
    """L/2 (√(1 + k²) + asinh k / k), k = 4 c/L (any handbook), of the deepest a file may state."""
    for length, depth in ((LENGTH, DEPTH), (574.0, 22.0), (350.0, 40.0)):
        k = 4 * depth / length
        arc = length / 2 * (np.sqrt(1 + k * k) + np.arcsinh(k) / k)
        found = camber.chord(arc, depth, np.ones(STATIONS + 1))
        assert float(found) == pytest.approx(length, abs=2e-4)


def test_chord_of_even_strain_by_quadrature():
    c = Camber.along(LENGTH, DEPTH, camber.even_strain(diameter(U * LENGTH)))

    def step(x):
        return np.hypot(1.0, c.at(x)[1])

    places = np.linspace(0.0, float(c.length), STATIONS + 1)
    arc = sum(quad(step, a, b, epsrel=1e-10)[0] for a, b in pairwise(places))
    assert arc == pytest.approx(LENGTH, abs=1e-4)


def test_unevenness_of_even_strain():
    """Curvature is as 1/d, so its relative change is that of d (by arithmetic)."""
    c = even_strain()
    step = 25.0
    x = np.linspace(0.0, LENGTH - step, 500)
    change = np.abs(diameter(x) / diameter(x + step) - 1)
    assert float(c.unevenness) == pytest.approx(change.max(), rel=0.1)


def test_arrays_agree_with_single_cambers():
    lengths, depths = np.array([600.0, 651.0]), np.array([15.0, 16.3])
    both = pulled(lengths, depths)
    for i in (0, 1):
        one = pulled(lengths[i], depths[i])
        assert both.pull_per_modulus[i] == pytest.approx(float(one.pull_per_modulus))
        assert both.camber.depths[i] == pytest.approx(one.camber.depths)
        for name in ("slope_at_head", "deepest", "unevenness", "length"):
            each, alone = getattr(both.camber, name)[i], float(getattr(one.camber, name))
            assert each == pytest.approx(alone)


def spline():
    """scipy's spline through the points, with third derivative 0 in the outermost spans."""
    x, y = np.array([(0.0, 0.0), *MEASURED, (LENGTH, 0.0)]).T
    first, last = x[1] - x[0], x[-1] - x[-2]

    def jumps(a, b):
        bend = CubicSpline(x, y, bc_type=((2, a), (2, b)))(x, 2)
        return np.array([(bend[1] - bend[0]) / first, (bend[-1] - bend[-2]) / last])

    # The jumps are linear in the two end curvatures.
    base = jumps(0.0, 0.0)
    system = np.column_stack([jumps(1.0, 0.0) - base, jumps(0.0, 1.0) - base])
    a, b = np.linalg.solve(system, -base)
    return CubicSpline(x, y, bc_type=((2, a), (2, b)))


def test_measured_camber_agrees_with_scipys_spline():
    bend = -spline()(U * LENGTH, 2)
    assert camber.curvature_from_depths(MEASURED, LENGTH) == pytest.approx(bend, abs=1e-12)


def test_measured_camber_passes_its_points():
    known = spline()
    places = np.linspace(0.0, LENGTH, 20001)
    deepest = float(known(places).max())
    c = Camber(LENGTH, deepest, camber.curvature_from_depths(MEASURED, LENGTH))
    for x, depth in MEASURED:
        assert c.at(x)[0] == pytest.approx(depth, abs=0.01)
    assert float(c.deepest) * LENGTH == pytest.approx(places[known(places).argmax()], abs=0.2)


def test_points_at_the_ends_are_ignored():
    ends = [(0.0, 0.0), *MEASURED, (650.8, 0.1)]
    assert camber.curvature_from_depths(ends, LENGTH) == pytest.approx(
        camber.curvature_from_depths(MEASURED, LENGTH)
    )


@pytest.mark.parametrize("wrong", range(1, len(MEASURED) - 1))
def test_finds_the_wrong_depth_that_reverses_the_bend(wrong):
    """A depth read 4 mm short dents the curve there; scipy's spline is reversed there too."""
    assert camber.reversed_bend(MEASURED, LENGTH) is None
    dented = [(x, y - 4.0 * (i == wrong)) for i, (x, y) in enumerate(MEASURED)]
    place = camber.reversed_bend(dented, LENGTH)
    assert place == pytest.approx(MEASURED[wrong][0], abs=5.0)
    x, y = np.array([(0.0, 0.0), *dented, (LENGTH, 0.0)]).T
    natural = make_interp_spline(x, y, bc_type="natural").derivative(2)
    assert natural(place) > 0
