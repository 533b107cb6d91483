"""The stick's diameter by position: published rule, linear taper, measured stations.

Source of the rule's numbers: F.-J. Fétis 1856, quoted in H. Saint-George, The Bow, ch. VI.
"""

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from templates_gen.shapes import graduation

STATIONS = (
    0.0, 110.0, 206.171, 290.253, 363.764, 428.034, 484.224,
    533.350, 576.300, 613.851, 646.681, 675.384, 700.479,
)  # fmt: skip
DIAMETERS = (8.6, *(8.6 - 0.3 * i for i in range(12)))


def constructed(length, first, share=0.2, count=12):
    """The rule constructed step by step: each step as long as the ordinate at its start."""
    places = [0.0]
    for _ in range(count):
        places.append(places[-1] + first - first * (1 - share) * places[-1] / length)
    return places


def test_construction_gives_the_published_stations():
    assert constructed(700.0, 110.0) == pytest.approx(STATIONS, abs=0.001)


def test_diameters_at_the_published_stations():
    """Over the length the construction gives, which exceeds its nominal 700 by 0.48."""
    whole = constructed(700.0, 110.0)[-1]
    found = graduation.published_diameter(np.array(STATIONS[1:]), whole, 110.0, 8.6, 5.3)
    assert found == pytest.approx(DIAMETERS[1:], abs=0.005)


def test_agrees_with_the_published_logarithm():
    """d = −6.2269 + 5.1417 log10(175 + z), z from the head at 700 of the construction's 700.479."""
    along = np.linspace(110.0, 700.0, 300)
    expected = -6.2269 + 5.1417 * np.log10(175.0 + 700.0 - along)
    found = graduation.published_diameter(along, STATIONS[-1], 110.0, 8.6, 5.3)
    assert np.abs(found - expected).max() <= 0.005


@pytest.mark.parametrize("length", [560.0, 649.0, 676.5, 700.0, 705.0, 760.0])
def test_rule_closes_at_any_length_with_equal_steps(length):
    """AC = 0.15690 AB closes exactly with ordinates as 1 : 5 and twelve intervals.

    To the digits: AC/AB = (1 − 5^(−1/12)) · 5/4, a geometric series.
    """
    exact = (1 - 5 ** (-1 / 12)) * 1.25
    assert exact == pytest.approx(0.15690, abs=1e-5)
    handle = exact * length
    places = constructed(length, handle)
    assert places[-1] == pytest.approx(length, rel=1e-12)
    found = graduation.published_diameter(np.array(places[1:]), length, handle, 11.8, 7.8)
    assert found == pytest.approx(11.8 - np.arange(12) * 4.0 / 11, abs=1e-9)
    # The published five digits are within 0.02 mm.
    assert constructed(length, 0.15690 * length)[-1] == pytest.approx(length, abs=0.02)


def test_published_rule_takes_arrays():
    lengths = np.array([[649.0], [705.0]])
    along = np.linspace(120.0, 640.0, 5)
    both = graduation.published_diameter(along, lengths, 110.0, 8.6, 5.3)
    for row, length in zip(both, (649.0, 705.0), strict=True):
        assert row == pytest.approx(graduation.published_diameter(along, length, 110.0, 8.6, 5.3))


def test_linear_taper():
    found = graduation.linear_diameter(np.array([110.0, 407.5, 705.0]), 705.0, 110.0, 8.6, 5.3)
    assert found == pytest.approx([8.6, 6.95, 5.3], abs=1e-12)


MEASURED = [(0.0, 8.6), (110.0, 8.6), (200.0, 8.3), (290.0, 8.02), (500.0, 7.3), (705.0, 5.3)]


def test_passes_measured_stations_and_is_constant_before_the_first():
    x, d = np.array(MEASURED).T
    assert graduation.interpolated_diameter(x, MEASURED) == pytest.approx(d, abs=1e-12)
    assert graduation.interpolated_diameter(np.array([-50.0]), MEASURED) == pytest.approx([8.6])


def test_continues_smoothly_beyond_the_last_station():
    """The last station is a little behind the face: from 7.3 to 5.3 over the last 205 mm."""
    at = np.array([704.99, 705.0, 705.01, 709.0])
    found = graduation.interpolated_diameter(at, MEASURED)
    assert np.diff(found[:3]) / 0.01 == pytest.approx([-2.0 / 205] * 2, abs=1e-5)
    assert found[3] == pytest.approx(5.3 - 4 * 2.0 / 205, abs=1e-12)


def test_agrees_with_scipys_monotone_cubic_between_inner_stations():
    """scipy's PCHIP has the same slopes at inner stations, but others at the ends."""
    x, d = np.array(MEASURED).T
    inside = np.linspace(x[1], x[-2], 400)
    expected = PchipInterpolator(x, d)(inside)
    assert graduation.interpolated_diameter(inside, MEASURED) == pytest.approx(expected, abs=1e-12)


def test_interpolation_is_monotone():
    everywhere = graduation.interpolated_diameter(np.linspace(0.0, 705.0, 3001), MEASURED)
    assert np.diff(everywhere).max() <= 1e-12


def test_finds_where_a_measured_stick_thickens():
    assert graduation.first_thickening(MEASURED) is None
    humped = [*MEASURED[:3], (290.0, 8.4), *MEASURED[4:]]
    assert graduation.first_thickening(humped) == 290.0
    # The resolution of a gauge does not count.
    assert graduation.first_thickening([(0.0, 8.6), (110.0, 8.604), (300.0, 8.0)]) is None
