"""The frog's hollow flank: a circle through band, waist and edge."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.shapes.flank import Flank

VIOLIN = Flank(6.05, 4.2, 4.4, 2.6, 20.1)


@st.composite
def flanks(draw):
    waist = draw(st.floats(2.0, 10.0))
    heel, top = (waist + draw(st.floats(0.05, 3.0)) for _ in range(2))
    band = draw(st.floats(1.0, 6.0))
    return Flank(heel, waist, top, band, band + draw(st.floats(10.0, 40.0)))


@given(flanks())
def test_circle_goes_through_band_waist_and_edge(f):
    # The waist is the innermost point of the circle; the centre is a radius outside it.
    centre = (float(f.waist + f.radius), float(f.waist_height))
    for y, z in ((f.heel, f.band), (f.waist, f.waist_height), (f.top, f.edge)):
        off = math.hypot(float(y) - centre[0], float(z) - centre[1])
        assert off == pytest.approx(float(f.radius), rel=1e-9)
    assert f.band < f.waist_height < f.edge


@given(flanks())
def test_half_width_is_least_at_the_waist(f):
    z = np.linspace(float(f.band), float(f.edge), 200)
    y = f.half_width(z)
    assert y.min() >= f.waist - 1e-12
    assert y[0] == pytest.approx(f.heel, rel=1e-9)
    assert y[-1] == pytest.approx(f.top, rel=1e-9)
    assert float(f.half_width(f.waist_height)) == pytest.approx(f.waist, rel=1e-12)


@given(flanks(), st.floats(0.05, 0.95))
def test_meets_inverts_half_width(f, share):
    half = float(f.waist + share * (f.heel - f.waist))
    z = float(f.meets(half))
    assert f.band - 1e-9 <= z <= f.waist_height
    assert float(f.half_width(z)) == pytest.approx(half, rel=1e-9)


@given(flanks(), st.floats(0.0, 1.0))
def test_lean_is_the_slope_of_the_flank(f, share):
    """By differences: the normal points up where the flank comes inward with height."""
    z, h = float(f.band + share * (f.edge - f.band)), 1e-4
    slope = float(f.half_width(z + h) - f.half_width(z - h)) / (2 * h)
    assert math.tan(float(f.lean(z))) == pytest.approx(-slope, abs=1e-4)


def test_equal_ends_put_the_waist_midway():
    f = Flank(6.0, 4.5, 6.0, 2.0, 22.0)
    assert float(f.waist_height) == pytest.approx(12.0, rel=1e-12)
    # Any handbook: chord c and rise s make R = (c²/4 + s²)/(2 s).
    assert float(f.radius) == pytest.approx((100 + 2.25) / 3, rel=1e-12)


def test_arrays_agree_with_single_flanks():
    waists = np.array([3.8, 4.0, 4.2])
    many = Flank(6.05, waists, 4.4, 2.6, 20.1)
    alone = [Flank(6.05, float(w), 4.4, 2.6, 20.1) for w in waists]
    assert np.allclose(many.waist_height, [f.waist_height for f in alone], rtol=1e-14)
    assert np.allclose(many.radius, [f.radius for f in alone], rtol=1e-14)
