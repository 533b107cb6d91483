"""The camber's depth and slope against closed forms and scipy's own integration."""

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import CubicSpline, make_interp_spline
from scipy.optimize import minimize_scalar

from templates_gen.shapes import camber
from templates_gen.shapes.camber import STATIONS, Camber, CamberKind

LENGTH, DEPTH = 651.0, 16.3
U = np.linspace(0.0, 1.0, STATIONS + 1)
#: Measured with a straight edge and a rule: place from the ferrule and depth.
MEASURED = [
    (60.0, 5.1), (130.0, 9.7), (220.0, 13.9), (325.0, 16.3), (430.0, 14.6), (540.0, 9.1),
    (600.0, 4.5),
]  # fmt: skip


def diameter(x):
    """A stick that thins as the published rule has it (Fétis 1856), from the ferrule's front."""
    return -6.2269 + 5.1417 * np.log10(175.0 + 700.0 - 54.0 - x)


def of(kind):
    return Camber(LENGTH, DEPTH, camber.weights(diameter(U * LENGTH), kind))


@pytest.fixture(scope="module", params=[CamberKind.EVEN_STRAIN, CamberKind.TENSION])
def integrated(request):
    """A law's camber by scipy: y″ in proportion to 1/dⁿ, nought at both ends, as deep as stated.

    Source: the shallow beam (any handbook): curvature M/EI; constant M, and I as d⁴, give n = 4.
    """
    power = {CamberKind.EVEN_STRAIN: 1.0, CamberKind.TENSION: 4.0}[request.param]

    def bends(x, state):
        return [state[1], -(diameter(x) ** -power) * 1000.0]

    # From slope nought; a straight line added brings the far end to nought.
    run = solve_ivp(bends, (0.0, LENGTH), [0.0, 0.0], rtol=1e-11, atol=1e-13, dense_output=True)
    tilt = -run.sol(LENGTH)[0] / LENGTH

    def plain(x):
        y, slope = run.sol(x)
        return y + tilt * x, slope + tilt

    best = minimize_scalar(
        lambda x: -plain(x)[0], bounds=(0.0, LENGTH), method="bounded", options={"xatol": 1e-9}
    )
    scale = DEPTH / plain(best.x)[0]
    return of(request.param), lambda x: np.array(plain(x)) * scale, best.x


def test_even_arc_is_the_parabola():
    """4 c u (1 − u), slope 4 c/L at the ends, curvature 8 c/L² (any handbook)."""
    c = of(CamberKind.UNIFORM)
    assert c.depths == pytest.approx(4 * DEPTH * U * (1 - U), abs=1e-10)
    assert c.slopes == pytest.approx(4 * DEPTH / LENGTH * (1 - 2 * U), abs=1e-12)
    assert float(c.at_head) == pytest.approx(4 * DEPTH / LENGTH, rel=1e-12)
    assert float(c.sharpest) == pytest.approx(8 * DEPTH / LENGTH**2, rel=1e-12)
    assert float(c.deepest) == pytest.approx(0.5, abs=1e-12)
    assert float(c.unevenness) == 0.0


def test_depth_and_slope_of_a_law_are_what_scipy_integrates(integrated):
    c, known, _ = integrated
    depth, slope = known(U * LENGTH)
    # Within a micrometre; the slope is the depth's own.
    assert np.abs(c.depths - depth).max() < 1e-3
    assert np.abs(c.slopes - slope).max() < 1e-5


def test_between_its_places_too(integrated):
    c, known, _ = integrated
    for x in (0.0, 1.234, 99.9, 325.5, 500.01, LENGTH):
        depth, slope = known(x)
        assert c.at(x) == pytest.approx((depth, slope), abs=1e-3)


def test_deepest_place_is_where_scipy_finds_it(integrated):
    c, _, place = integrated
    assert float(c.deepest) * LENGTH == pytest.approx(place, abs=0.01)
    # Where the wood is thinner it bends more: the deepest place lies toward the head.
    assert place > LENGTH / 2 + 5


def test_a_tension_pulls_the_tension_law_straight():
    """M = EI y″ is the same all along; the depth's own quadrature leaves less than 1 µm.

    By Green's function of the beam on two supports (any handbook), integrated by scipy's quad.
    """
    c = of(CamberKind.TENSION)

    def depth(x):
        near = quad(lambda s: s * diameter(s) ** -4, 0, x, epsabs=1e-16, epsrel=1e-12)[0]
        far = quad(lambda s: (LENGTH - s) * diameter(s) ** -4, x, LENGTH, epsrel=1e-12)[0]
        return (near * (LENGTH - x) + far * x) / LENGTH

    places = np.arange(10, STATIONS, 19)
    ratios = np.array([c.depths[i] / depth(U[i] * LENGTH) for i in places])
    residual = (ratios / ratios.mean() - 1) * c.depths[places]
    assert np.abs(residual).max() < 1e-3
    moment = np.diff(c.slopes) / np.diff(U * LENGTH) * diameter((U[1:] + U[:-1]) / 2 * LENGTH) ** 4
    assert moment == pytest.approx(np.full(STATIONS, moment.mean()), rel=1e-3)


def test_sharpest_and_uneven_of_a_law():
    """1/d between two places: the change of curvature is that of d (by arithmetic)."""
    c = of(CamberKind.EVEN_STRAIN)
    bend = -np.diff(c.slopes) / np.diff(U * LENGTH)
    assert float(c.sharpest) == pytest.approx(bend.max(), rel=1e-2)
    step = 25.0
    x = np.linspace(0.0, LENGTH - step, 500)
    change = np.abs(diameter(x) / diameter(x + step) - 1)
    assert float(c.unevenness) == pytest.approx(change.max(), rel=0.1)


def test_many_bows_at_once():
    lengths, depths = np.array([600.0, 651.0]), np.array([15.0, 16.3])
    w = camber.weights(np.stack([diameter(U * L) for L in lengths]), CamberKind.TENSION)
    both = Camber(lengths, depths, w)
    for i in (0, 1):
        one = Camber(lengths[i], depths[i], w[i])
        assert both.depths[i] == pytest.approx(one.depths)
        for what in ("at_head", "sharpest", "deepest", "unevenness"):
            assert getattr(both, what)[i] == pytest.approx(float(getattr(one, what)))


def spline():
    """scipy's spline through the points, its third derivative nought in the outermost spans."""
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


def test_measured_camber_is_scipys_spline():
    bend = -spline()(U * LENGTH, 2)
    assert camber.measured(MEASURED, LENGTH) == pytest.approx(bend, abs=1e-12)


def test_measured_camber_passes_through_what_was_measured():
    known = spline()
    places = np.linspace(0.0, LENGTH, 20001)
    deepest = float(known(places).max())
    c = Camber(LENGTH, deepest, camber.measured(MEASURED, LENGTH))
    for x, depth in MEASURED:
        assert c.at(x)[0] == pytest.approx(depth, abs=0.01)
    assert float(c.deepest) * LENGTH == pytest.approx(places[known(places).argmax()], abs=0.2)


def test_points_at_the_very_ends_are_the_ends_own():
    ends = [(0.0, 0.0), *MEASURED, (650.8, 0.1)]
    assert camber.measured(ends, LENGTH) == pytest.approx(camber.measured(MEASURED, LENGTH))


@pytest.mark.parametrize("wrong", range(1, len(MEASURED) - 1))
def test_a_camber_that_bends_the_other_way_is_told_by_the_figure_that_is_wrong(wrong):
    """One figure read 4 mm short dents the curve there; by scipy's spline too it bends up there."""
    assert camber.wrong_way(MEASURED, LENGTH) is None
    dented = [(x, y - 4.0 * (i == wrong)) for i, (x, y) in enumerate(MEASURED)]
    place = camber.wrong_way(dented, LENGTH)
    assert place == pytest.approx(MEASURED[wrong][0], abs=5.0)
    x, y = np.array([(0.0, 0.0), *dented, (LENGTH, 0.0)]).T
    natural = make_interp_spline(x, y, bc_type="natural").derivative(2)
    assert natural(place) > 0
