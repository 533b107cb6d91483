"""The wood in hand, the table of materials, and the bow as one body."""

import math

import pytest
from mechanics.sticks import published_stick, round_stick

from templates_gen.mechanics.bow import (
    balance_shift_per_gram,
    bow_properties,
    centre_of_percussion,
    combine_bodies,
)
from templates_gen.mechanics.materials import materials
from templates_gen.mechanics.sections import circle, octagon
from templates_gen.mechanics.vibration import Body, free_frequencies
from templates_gen.mechanics.wood import (
    diameter_factor_same_mass,
    diameter_factor_same_stiffness,
    modulus_from_load,
    modulus_from_longitudinal_tap,
    modulus_from_tap,
)


def test_a_tapped_rod_by_the_standards_formula():
    """E = 1.6067 (L³/D⁴) m f², a slender rod (ASTM E1876); SI units."""
    length, diameter, mass, frequency = 750.0, 8.0, 41.5, 57.0
    expected = 1.6067 * (0.75**3 / 0.008**4) * 0.0415 * frequency**2 * 1e-9
    found = modulus_from_tap(length, mass, circle(diameter).inertia, frequency)
    assert found == pytest.approx(expected, rel=5e-5)


def test_a_tapped_blank_gives_the_modulus_it_was_tapped_with():
    b = round_stick((0, 700), lambda x: 9.0 + 0 * x, 23.4, 1050)
    mass, _ = b.total()
    frequency = float(free_frequencies(b, 1)[0])
    found = modulus_from_tap(700.0, mass, circle(9.0).inertia, frequency)
    assert found == pytest.approx(23.4, rel=1e-6)


def test_a_lengthwise_tap_and_a_load():
    """c = 2 L f and E = ρ c²; P L³ / (48 E I) (any handbook)."""
    speed = math.sqrt(21e9 / 1050)
    frequency = speed / (2 * 0.72)
    assert modulus_from_longitudinal_tap(720.0, 1050.0, frequency) == pytest.approx(21.0, rel=1e-9)
    inertia = octagon(9.0).inertia
    deflection = 10.0 * 600.0**3 / (48 * 21e3 * inertia)
    assert modulus_from_load(600.0, 10.0, deflection, inertia) == pytest.approx(21.0, rel=1e-9)


def test_other_wood_of_other_diameters_is_as_stiff_or_as_heavy():
    """Equal stiffness: diameters × (E₀/E)^¼, so the mass × (ρ/ρ₀) √(E₀/E), whose index √E/ρ is
    that of Longui et al., IAWA Journal 31(2), 2010."""
    stiff = diameter_factor_same_stiffness(20.0, 24.0)
    assert 20.0 * circle(8.0).inertia == pytest.approx(24.0 * circle(8.0 * stiff).inertia)
    assert circle(8.0 * stiff).area / circle(8.0).area == pytest.approx(math.sqrt(20 / 24))
    heavy = diameter_factor_same_mass(1050.0, 980.0)
    assert 1050 * circle(8.0).area == pytest.approx(980 * circle(8.0 * heavy).area)


def test_every_material_has_a_basis_and_a_band_the_right_way_round():
    known = materials()
    assert {"pernambuco", "ebony", "sterling silver", "horse hair"} <= {*known}
    for name, m in known.items():
        assert m.basis, name
        for band in filter(None, (m.density, m.modulus)):
            assert 0 < band.low <= band.usual <= band.high, name


def test_published_woods_are_as_published():
    """The Wood Database, Paubrasilia echinata: 1050 kg/m³, 20.2 GPa. M. Chudnoff, USDA Agriculture
    Handbook 607, 1984: bulletwood 23.8 to 24.3 GPa, cumaru 993 to 1297 kg/m³."""
    known = materials()
    assert known["pernambuco"].density.usual == 1050
    assert known["pernambuco"].modulus.usual == 20.2
    assert (known["bulletwood"].modulus.low, known["bulletwood"].modulus.high) == (23.8, 24.3)
    assert (known["cumaru"].density.low, known["cumaru"].density.high) == (993, 1297)


def test_balance_and_turning_of_two_weights_on_a_rod():
    """Σ m x / Σ m; a uniform rod's own M L²/12 and Steiner's m a² (any handbook)."""
    b = round_stick((0, 600), lambda x: 8.0 + 0 * x, 20, 1000)
    rod = 1e-3 * circle(8.0).area * 600
    found = bow_properties(b, [Body(0.0, 12.0), Body(600.0, 4.0)])
    mass = rod + 16.0
    x = (rod * 300.0 + 4.0 * 600.0) / mass
    moment_of_inertia = rod * (600.0**2 / 12 + (300 - x) ** 2) + 12.0 * x**2 + 4.0 * (600 - x) ** 2
    whole = found.whole
    assert (whole.mass, whole.x, whole.moment_of_inertia) == pytest.approx(
        (mass, x, moment_of_inertia), rel=1e-9
    )
    assert found.bow_tones[0] < found.stick_tones[0]


def test_a_gram_moves_the_balance_by_its_arm_over_the_new_mass():
    """(x − x̄) / (M + 1), held to the balance worked out anew."""
    bodies = [Body(30.0, 25.0), Body(300.0, 32.0, 1000.0), Body(700.0, 6.0)]
    whole = combine_bodies(bodies)
    for x in (0.0, 50.0, 700.0):
        anew = combine_bodies([*bodies, Body(x, 1.0)])
        assert balance_shift_per_gram(whole, x) == pytest.approx(anew.x - whole.x, rel=1e-9)


def test_a_rods_centre_of_percussion_is_at_two_thirds():
    """A uniform rod held at its end: 2 L / 3 (any handbook)."""
    b = round_stick((0, 600), lambda x: 8.0 + 0 * x, 20, 1000)
    assert centre_of_percussion(bow_properties(b, []).whole, 0.0) == pytest.approx(400.0, rel=1e-9)


def test_a_published_stick_with_its_fittings_weighs_as_a_published_bow():
    """H. Saint-George, The Bow, ch. VII: violin bows of 55.1 to 61.6 g. A band, and the fittings'
    weights are common practice, no source: frog 17, screw and button 6, head and tip 2.5."""
    fittings = [Body(38.0, 17.0), Body(0.0, 6.0), Body(703.0, 2.5)]
    found = bow_properties(published_stick(), fittings)
    assert 55.1 < found.whole.mass < 61.6
