"""Compare sticks with independent libraries: scikit-fem, anastruct, scipy."""

import itertools
import math

import numpy as np
import pytest
from mechanics.elements import buckling_load, clamped_deflection, height_under_tension
from mechanics.sticks import HANDLE, LENGTH, published, published_stick, round_stick
from scipy.integrate import quad, solve_bvp, solve_ivp
from scipy.linalg import eigh
from scipy.optimize import brentq

from templates_gen.mechanics.bending import supported_deflection
from templates_gen.mechanics.vibration import Body, free_frequencies


def stiffness(diameter, modulus):
    return modulus * 1e3 * math.pi / 64 * diameter**4


def scikit_fem_frequencies(nodes, diameter, modulus, density, count, ends=(0.0, 0.0)):
    """Free frequencies by scikit-fem's Hermite line elements; weights on both ends in grams."""
    from skfem import Basis, BilinearForm, ElementLineHermite, MeshLine
    from skfem.helpers import dd

    basis = Basis(MeshLine(nodes), ElementLineHermite(), intorder=7)

    @BilinearForm
    def bend(u, v, w):
        return stiffness(diameter(w.x[0]), modulus) * dd(u)[0, 0] * dd(v)[0, 0]

    @BilinearForm
    def mass(u, v, w):
        return density * 1e-6 * math.pi / 4 * diameter(w.x[0]) ** 2 * u * v

    k, m = (form.assemble(basis).toarray() for form in (bend, mass))
    heights = basis.nodal_dofs[0]
    for node, weight in zip((0, -1), ends, strict=True):
        at = heights[np.argsort(nodes)[node]]
        m[at, at] += weight
    shift = (2 * math.pi * 50) ** 2 / 1e6
    ratios = eigh(m, k + shift * m, eigvals_only=True)[::-1]
    squares = np.maximum(1 / ratios[: count + 2] - shift, 0) * 1e6
    return np.sqrt(squares[2:]) / (2 * math.pi)


@pytest.mark.parametrize("ends", [(0.0, 0.0), (23.0, 4.0)])
def test_frequencies_of_the_published_stick_by_scikit_fem(ends):
    nodes = np.concatenate([np.linspace(0, HANDLE, 21), np.linspace(HANDLE, LENGTH, 101)[1:]])
    expected = scikit_fem_frequencies(nodes, published, 20, 1000, 3, ends)
    bodies = [Body(0.0, ends[0]), Body(LENGTH, ends[1])]
    assert free_frequencies(published_stick(), 3, bodies) == pytest.approx(expected, rel=1e-5)


def test_a_tapered_cantilever_by_anastruct():
    """Replace the taper by 100 uniform steps, each with the diameter at its middle."""
    from anastruct import SystemElements

    def diameter(x):
        return 8.6 + (5.3 - 8.6) * x / 600

    frame = SystemElements()
    cuts = np.linspace(0, 0.6, 101)
    for start, end in itertools.pairwise(cuts):
        ei = stiffness(diameter(500 * (start + end)), 22) * 1e-6
        frame.add_element([[start, 0], [end, 0]], EA=1e6, EI=ei)
    frame.add_support_fixed(node_id=1)
    frame.point_load(node_id=101, Fy=-1e-3)
    frame.solve()
    expected = abs(frame.get_node_displacements(node_id=101)["uy"]) * 1e6
    b = round_stick((0, 600), diameter, 22, 1000)
    assert clamped_deflection(b, {600.0: 1.0})[-1] == pytest.approx(expected, rel=2e-4)


def test_deflection_of_the_published_stick_follows_from_its_moments():
    """Mohr: δ = ∫ P (L − x)² / EI dx, and for two supports ∫ M m / EI dx, by scipy's quad."""
    deflection, _ = quad(
        lambda x: (LENGTH - x) ** 2 / stiffness(published(x), 20), 0, LENGTH, points=[HANDLE]
    )
    assert clamped_deflection(published_stick(), {LENGTH: 1.0})[-1] == pytest.approx(
        deflection, rel=1e-6
    )

    low, high, at = 40.0, 660.0, 350.0

    def moment(x):
        share = (high - at) / (high - low)
        return share * (x - low) - max(x - at, 0.0)

    def per_mm(x):
        return 8.0 * moment(x) ** 2 / stiffness(published(x), 20)

    b = round_stick((0, low, HANDLE, at, high, LENGTH), published, 20, 1000, 120)
    expected, _ = quad(per_mm, low, high, points=[HANDLE, at])
    assert supported_deflection(b, {at: 8.0}, (low, high))[b.node(at)] == pytest.approx(
        expected, rel=1e-6
    )


def _between(x):
    """The published stick between the hair's ends, 54 mm from the butt."""
    return stiffness(published(x + 54.0), 22)


def test_a_cambered_stick_under_tension_by_scipy():
    """EI (y″ − y₀″) = −T y as a boundary problem, by collocation (solve_bvp)."""
    span, pull, arms = 640.0, 40.0, (21.0, 18.5)

    def unstrung(x):
        return arms[0] + (arms[1] - arms[0]) * x / span - 18.0 * np.sin(np.pi * x / span)

    def bend(x):
        return 18.0 * (np.pi / span) ** 2 * np.sin(np.pi * x / span)

    def rates(x, y):
        return np.vstack([y[1], bend(x) - pull * y[0] / _between(x)])

    def ends(a, b):
        return np.array([a[0] - arms[0], b[0] - arms[1]])

    # The taper begins with a kink, at which a node must stand.
    x = np.unique(np.concatenate([np.linspace(0, span, 400), [HANDLE - 54.0]]))
    found = solve_bvp(rates, ends, x, np.vstack([unstrung(x), 0 * x]), tol=1e-9, max_nodes=100_000)
    assert found.success
    b = round_stick((0, HANDLE - 54.0, span), lambda x: published(x + 54.0), 22, 1000)
    assert height_under_tension(b, unstrung, pull) == pytest.approx(found.sol(b.nodes)[0], abs=1e-3)


def test_buckling_load_of_a_tapered_stick_by_scipy():
    """The lowest tension at which y″ = −T y / EI, starting at 0, returns to 0 (shooting)."""
    span = 640.0

    def end(pull):
        rates = lambda x, y: [y[1], -pull * y[0] / _between(x)]  # noqa: E731
        kink = HANDLE - 54.0
        first = solve_ivp(rates, (0, kink), [0.0, 1.0], rtol=1e-10, atol=1e-10)
        return solve_ivp(rates, (kink, span), first.y[:, -1], rtol=1e-10, atol=1e-10).y[0, -1]

    expected = brentq(end, 20.0, 90.0)
    b = round_stick((0, HANDLE - 54.0, span), lambda x: published(x + 54.0), 22, 1000)
    assert buckling_load(b) == pytest.approx(expected, rel=1e-6)
