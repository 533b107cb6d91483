"""The wood in hand, the table of materials, and the bow as one body."""

import math

import pytest
from mechanics.sticks import published_stick, round_stick

from templates_gen.mechanics.bow import weighed
from templates_gen.mechanics.materials import materials
from templates_gen.mechanics.sections import circle
from templates_gen.mechanics.vibration import Body, free_tones
from templates_gen.mechanics.wood import equally_heavy, equally_stiff


def test_a_tapped_rod_by_the_standards_formula():
    """E = 1.6067 (L³/D⁴) m f², a slender rod (ASTM E1876); SI units."""
    b = round_stick((0, 750), lambda x: 8.0 + 0 * x, 22.6, 1100)
    mass, _ = b.total()
    frequency = float(free_tones(b, 1)[0])
    found = 1.6067 * (0.75**3 / 0.008**4) * mass * 1e-3 * frequency**2 * 1e-9
    assert found == pytest.approx(22.6, rel=5e-5)


def test_other_wood_of_other_diameters_is_as_stiff_or_as_heavy():
    """Equal stiffness: diameters × (E₀/E)^¼, so the mass × (ρ/ρ₀) √(E₀/E), whose index √E/ρ is
    that of Longui et al., IAWA Journal 31(2), 2010."""
    stiff = equally_stiff(20.0, 24.0)
    assert 20.0 * circle(8.0).inertia == pytest.approx(24.0 * circle(8.0 * stiff).inertia)
    assert circle(8.0 * stiff).area / circle(8.0).area == pytest.approx(math.sqrt(20 / 24))
    heavy = equally_heavy(1050.0, 980.0)
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
    found = weighed(b, [Body(0.0, 12.0), Body(600.0, 4.0)])
    mass = rod + 16.0
    x = (rod * 300.0 + 4.0 * 600.0) / mass
    moment_of_inertia = rod * (600.0**2 / 12 + (300 - x) ** 2) + 12.0 * x**2 + 4.0 * (600 - x) ** 2
    whole = found.whole
    assert (whole.mass, whole.x, whole.moment_of_inertia) == pytest.approx(
        (mass, x, moment_of_inertia), rel=1e-9
    )
    assert found.bow_tones[0] < found.stick_tones[0]


def test_a_published_stick_with_its_fittings_weighs_as_a_published_bow():
    """H. Saint-George, The Bow, ch. VII: violin bows of 55.1 to 61.6 g. A band, and the fittings'
    weights are common practice, no source: frog 17, screw and button 6, head and tip 2.5."""
    fittings = [Body(38.0, 17.0), Body(0.0, 6.0), Body(703.0, 2.5)]
    found = weighed(published_stick(), fittings)
    assert 55.1 < found.whole.mass < 61.6
