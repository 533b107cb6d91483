"""Sections against handbooks (Roark; Machinery's Handbook) and numerical integration."""

import math

import numpy as np
import pytest
from scipy.integrate import quad

from templates_gen.mechanics.sections import (
    circle,
    d_section,
    half_disc,
    octagon,
    rectangle,
    rounded_octagon,
)

EXACT = 1e-9


def integrated(width, low, high):
    """Area, second moment and centroid of a shape by integrating its width over the height."""
    kinks = {"limit": 200, "epsabs": 1e-12, "epsrel": 1e-12}
    area = quad(width, low, high, **kinks)[0]
    middle = quad(lambda z: z * width(z), low, high, **kinks)[0] / area
    inertia = quad(lambda z: (z - middle) ** 2 * width(z), low, high, **kinks)[0]
    return area, inertia, middle


def test_octagon_by_handbook():
    """A 0.8284271 d², I 0.05473785 d⁴, section modulus 0.1094757 d³ on a flat, 0.1011424 d³ on a
    corner: any standard handbook, to the printed digits."""
    d = 8.6
    s = octagon(d)
    assert s.area == pytest.approx(2 * (math.sqrt(2) - 1) * d**2, rel=EXACT)
    assert s.area == pytest.approx(61.270470, abs=5e-7)
    assert s.inertia == pytest.approx(299.420529, abs=5e-7)
    assert s.inertia / (d / 2) == pytest.approx(0.1094757 * d**3, rel=5e-7)
    corner = d / 2 / math.cos(math.pi / 8)
    assert s.inertia / corner == pytest.approx(0.1011424 * d**3, rel=5e-7)


def test_circle_and_half_disc_by_handbook():
    s = circle(8.6)
    assert (s.area, s.inertia) == pytest.approx((58.088048, 268.512003), abs=5e-7)
    r = 4.0
    h = half_disc(r)
    assert h.area == pytest.approx(math.pi * r**2 / 2, rel=EXACT)
    assert h.centroid == pytest.approx(4 * r / (3 * math.pi), rel=EXACT)
    assert h.inertia == pytest.approx(0.109757 * r**4, rel=5e-6)


def test_two_half_discs_add_up_to_a_disc():
    upper = half_disc(3.0)
    lower = type(upper)(upper.area, upper.inertia, -upper.centroid)
    whole = upper + lower
    assert whole.area == pytest.approx(circle(6.0).area, rel=EXACT)
    assert whole.inertia == pytest.approx(circle(6.0).inertia, rel=EXACT)
    assert whole.centroid == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("roundness", [0.0, 0.2, 0.5, 0.9, 1.0])
def test_rounded_octagon_by_integration(roundness):
    a = 8.6
    r = a / 2
    disc = r / math.cos(math.pi / 8) * (1 - roundness) + r * roundness

    def width(z):
        return 2 * min(r, math.sqrt(2) * r - abs(z), math.sqrt(max(disc**2 - z**2, 0.0)))

    pieces = np.linspace(-r, r, 20001)
    heights = (pieces[1:] + pieces[:-1]) / 2
    widths = np.array([width(z) for z in heights])
    step = pieces[1] - pieces[0]
    s = rounded_octagon(a, roundness)
    assert s.area == pytest.approx(widths.sum() * step, rel=1e-5)
    assert s.inertia == pytest.approx((widths * heights**2).sum() * step, rel=1e-5)


def test_rounded_octagon_goes_from_octagon_to_circle():
    for roundness, end in ((0.0, octagon(9.0)), (1.0, circle(9.0))):
        s = rounded_octagon(9.0, roundness)
        assert (s.area, s.inertia) == pytest.approx((end.area, end.inertia), rel=EXACT)


def test_d_section_by_integration():
    w, h = 8.0, 9.5

    def width(z):
        top = z - (h - w / 2)
        return w if top < 0 else 2 * math.sqrt(max((w / 2) ** 2 - top**2, 0.0))

    s = d_section(w, h)
    assert (s.area, s.inertia, s.centroid) == pytest.approx(integrated(width, 0.0, h), rel=1e-7)
    low = d_section(w, w / 2)
    assert low.inertia == pytest.approx(half_disc(w / 2).inertia, rel=EXACT)


def test_subtracted_mortise_by_integration():
    a, wide, deep = 9.0, 4.0, 6.5
    r = a / 2

    def width(z):
        full = 2 * min(r, math.sqrt(2) * r - abs(z))
        return full - wide if z < -r + deep else full

    s = octagon(a) - rectangle(wide, deep).lifted(-r)
    pieces = np.linspace(-r, r, 36001)
    heights = (pieces[1:] + pieces[:-1]) / 2
    widths = np.array([width(z) for z in heights])
    step = pieces[1] - pieces[0]
    area = widths.sum() * step
    middle = (widths * heights).sum() * step / area
    assert s.area == pytest.approx(area, rel=1e-7)
    assert s.centroid == pytest.approx(middle, rel=1e-6)
    assert s.inertia == pytest.approx((widths * (heights - middle) ** 2).sum() * step, rel=1e-6)


def test_arrays_agree_with_single_sections():
    sizes = np.array([7.0, 8.0, 9.0])
    many = rounded_octagon(sizes, 0.3) - circle(sizes / 3)
    for i, size in enumerate(sizes):
        one = rounded_octagon(size, 0.3) - circle(size / 3)
        assert (many.area[i], many.inertia[i]) == pytest.approx((one.area, one.inertia))
