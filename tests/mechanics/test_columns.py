"""The stick under the hair's pull, against closed forms."""

import math

import numpy as np
import pytest
from mechanics.beam_column import buckling_load, camber_for, under_tension
from mechanics.sticks import published, round_stick

from templates_gen.mechanics.sections import circle

SPAN = 650.0


@pytest.fixture(scope="module")
def uniform():
    return round_stick((0, SPAN / 2, SPAN), lambda x: 7.5 + 0 * x, 22, 1000)


def test_euler(uniform):
    """π² E I / L² (Euler; any handbook)."""
    expected = math.pi**2 * 22e3 * circle(7.5).inertia / SPAN**2
    assert buckling_load(uniform) == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("pull", [0.0, 10.0, 30.0, 60.0])
def test_a_column_pulled_off_its_axis(uniform, pull):
    """y = h cos k(x − L/2) / cos(kL/2), k² = T/EI (the secant formula; any handbook)."""
    k = math.sqrt(pull / (22e3 * circle(7.5).inertia))
    found = under_tension(uniform, lambda x: 20.0 + 0 * x, pull)
    across = uniform.nodes - SPAN / 2
    expected = 20.0 * np.cos(k * across) / math.cos(k * SPAN / 2)
    assert found == pytest.approx(expected, rel=1e-6)


def test_a_parabola_is_what_a_uniform_stick_is_pulled_straight_from(uniform):
    """y₀″ = T* y / EI with y constant, so y₀ = h − T* h x (L − x) / 2EI."""
    pull, arm = 30.0, 20.0
    ei = 22e3 * circle(7.5).inertia

    def unstrung(x):
        return arm - pull * arm * x * (SPAN - x) / (2 * ei)

    assert under_tension(uniform, unstrung, pull) == pytest.approx(arm, abs=1e-3)  # a micrometre
    found = camber_for(uniform, pull, (arm, arm))
    assert found == pytest.approx(unstrung(uniform.nodes), abs=1e-6)


def test_uneven_arms_and_a_taper_are_pulled_straight_too():
    """Twice integrated by sums of its own, then pulled: the residual is below a micrometre."""
    b = round_stick((0, 56, SPAN), lambda x: published(x + 54), 22, 1000)
    pull, arms = 45.0, (21.0, 18.0)
    x = np.linspace(0, SPAN, 200_001)
    straight = arms[0] + (arms[1] - arms[0]) * x / SPAN
    bend = pull * straight / (22e3 * circle(published(x + 54)).inertia)
    step = x[1] - x[0]
    slope = np.concatenate([[0.0], np.cumsum((bend[1:] + bend[:-1]) / 2) * step])
    rise = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2) * step])
    unstrung = arms[0] + rise + (arms[1] - arms[0] - rise[-1]) * x / SPAN
    line = np.interp(b.nodes, x, straight)
    found = under_tension(b, lambda at: np.interp(at, x, unstrung), pull)
    assert found == pytest.approx(line, abs=1e-3)
    assert camber_for(b, pull, arms) == pytest.approx(np.interp(b.nodes, x, unstrung), abs=1e-3)


def test_a_tapered_column_bears_less_than_its_thick_end_and_more_than_its_thin():
    b = round_stick((0, SPAN), lambda x: 8.6 + (5.3 - 8.6) * x / SPAN, 22, 1000)
    ends = [math.pi**2 * 22e3 * circle(d).inertia / SPAN**2 for d in (5.3, 8.6)]
    assert ends[0] < buckling_load(b) < ends[1]
