"""Beams against closed forms and the published stick."""

import math

import numpy as np
import pytest
from mechanics.sticks import HANDLE, LENGTH, clamped, published, published_stick, round_stick

from templates_gen.mechanics.beam import beam
from templates_gen.mechanics.bending import supported
from templates_gen.mechanics.sections import circle
from templates_gen.mechanics.vibration import Body, clamped_tones, free_tones


def uniform(diameter, length, modulus, density, elements=80):
    return round_stick(
        (0, length / 2, length), lambda x: diameter + 0 * x, modulus, density, elements
    )


def test_a_tapered_cantilever_sinks_as_the_handbook_says():
    """δ = 64 P L³ / (3 π E D₀³ D₁) for a diameter linear from root to tip (Roark)."""
    b = round_stick((0, 600), lambda x: 8.6 + (5.3 - 8.6) * x / 600, 22, 1000)
    found = clamped(b, {600.0: 1.0})[-1]
    assert found == pytest.approx(64 * 600**3 / (3 * math.pi * 22e3 * 8.6**3 * 5.3), rel=1e-6)
    assert found == pytest.approx(19.777377, rel=1e-6)


def test_a_uniform_beam_on_two_supports_sinks_as_the_handbook_says():
    """P L³ / (48 E I), and under a load off the middle P a² b² / (3 E I L) (any handbook)."""
    b = round_stick((0, 50, 300, 350, 650, 700), lambda x: 8.0 + 0 * x, 22, 1100)
    ei, span = 22e3 * circle(8.0).inertia, 600.0
    middle = supported(b, {350.0: 5.0}, (50.0, 650.0))[b.node(350.0)]
    assert middle == pytest.approx(5.0 * span**3 / (48 * ei), rel=1e-9)
    aside = supported(b, {300.0: 5.0}, (50.0, 650.0))[b.node(300.0)]
    assert aside == pytest.approx(5.0 * 250.0**2 * 350.0**2 / (3 * ei * span), rel=1e-9)


def test_a_free_uniform_stick_rings_as_the_handbook_says():
    """βL 4.730041, 7.853205, 10.995608, 14.137165 (any handbook of vibration)."""
    b = uniform(8.0, 750.0, 22, 1100)
    ei = 22e9 * math.pi / 64 * 0.008**4
    per_metre = 1100 * math.pi / 4 * 0.008**2
    roots = np.array([4.730041, 7.853205, 10.995608, 14.137165])
    expected = (roots / 0.75) ** 2 * math.sqrt(ei / per_metre) / (2 * math.pi)
    assert free_tones(b, 4) == pytest.approx(expected, rel=5e-6)
    assert free_tones(b, 3) == pytest.approx([56.6203, 156.0761, 305.9716], abs=5e-4)


def test_a_clamped_uniform_stick_rings_as_the_handbook_says():
    """βL 1.875104, 4.694091, 7.854757 (any handbook of vibration)."""
    b = uniform(8.0, 750.0, 22, 1100)
    ei = 22e9 * math.pi / 64 * 0.008**4
    per_metre = 1100 * math.pi / 4 * 0.008**2
    roots = np.array([1.875104, 4.694091, 7.854757])
    expected = (roots / 0.75) ** 2 * math.sqrt(ei / per_metre) / (2 * math.pi)
    assert clamped_tones(b) == pytest.approx(expected, rel=2e-6)


def test_a_weight_on_the_tip_slows_a_light_stick_to_that_of_a_spring():
    """ω² = 3 E I / (m L³) for a mass on a cantilever of none (any handbook of vibration)."""
    b = uniform(8.0, 600.0, 22, 1e-3)
    k = 3 * 22e3 * circle(8.0).inertia / 600**3  # N/mm
    expected = math.sqrt(k * 1e6 / 50.0) / (2 * math.pi)
    assert clamped_tones(b, 1, [Body(600.0, 50.0)]) == pytest.approx(expected, rel=1e-4)


def test_two_heavy_turning_ends_ring_as_two_wheels_on_a_spring():
    """Two equal inertias J on the ends of a beam of no mass: ω² = 2 E I / (J L), for its ends turn
    against each other under a constant moment (any handbook)."""
    b = uniform(8.0, 600.0, 22, 1e-4)
    j = 5e6
    expected = math.sqrt(2 * 22e3 * circle(8.0).inertia / (j * 600) * 1e6) / (2 * math.pi)
    ends = [Body(0.0, 1e-3, j), Body(600.0, 1e-3, j)]
    assert free_tones(b, 1, ends) == pytest.approx(expected, rel=1e-3)


def test_a_body_between_nodes_is_a_body_on_a_node():
    coarse = uniform(8.0, 700.0, 20, 1000, 40)
    fine = round_stick((0, 123.4, 700), lambda x: 8.0 + 0 * x, 20, 1000, 80)
    body = [Body(123.4, 20.0, 500.0)]
    assert free_tones(coarse, 3, body) == pytest.approx(free_tones(fine, 3, body), rel=1e-5)


def test_the_published_stick():
    """Worked out outside this package for the rule of F.-J. Fétis, 1856: round, 700 mm, 1000 kg/m³,
    20 GPa, without head and holes."""
    b = published_stick()
    mass, balance = b.total()
    assert mass == pytest.approx(31.759, abs=5e-4)
    assert balance == pytest.approx(302.869, abs=5e-4)
    assert free_tones(b) == pytest.approx([66.023, 175.051, 336.906], abs=1e-3)
    assert clamped(b, {LENGTH: 1.0})[-1] == pytest.approx(25.632, abs=5e-4)


def test_the_published_rules_stations_lie_on_its_log_form():
    """Stations as printed by H. Saint-George, The Bow, ch. VI; 0.3 mm less at each."""
    stations = [110, 206.171, 290.253, 363.764, 428.034, 484.224]
    stations += [533.350, 576.300, 613.851, 646.681, 675.384, 700.479]
    diameters = 8.6 - 0.3 * np.arange(len(stations))
    assert published(np.array(stations) + 1e-9) == pytest.approx(diameters, abs=0.005)
    assert stations[0] == HANDLE


def test_more_pieces_change_next_to_nothing():
    few, many = published_stick(20), published_stick(480)
    body = [Body(10.0, 12.0, 300.0), Body(690.0, 3.0, 80.0)]
    assert free_tones(few, 3, body) == pytest.approx(free_tones(many, 3, body), rel=1e-4)
    deflection = [clamped(b, {LENGTH: 1.0})[-1] for b in (few, many)]
    assert deflection[0] == pytest.approx(deflection[1], rel=1e-4)
    assert few.total() == pytest.approx(many.total(), rel=1e-9)


def test_a_load_must_hang_where_a_piece_ends():
    with pytest.raises(ValueError, match="333 mm"):
        clamped(published_stick(), {333.0: 1.0})


def test_a_beam_has_no_more_pieces_than_are_asked_for():
    """One piece from break to break where each is short enough; else nearly one length."""
    one = beam([0.0, 100.0], lambda x: 1.0 + 0 * x, lambda x: 1.0 + 0 * x, elements=1)
    assert one.nodes.tolist() == [0.0, 100.0]
    four = beam([0.0, 25.0, 100.0], lambda x: 1.0 + 0 * x, lambda x: 1.0 + 0 * x, elements=4)
    assert four.nodes.tolist() == [0.0, 25.0, 50.0, 75.0, 100.0]
