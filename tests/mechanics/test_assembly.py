"""Volumes added and cut, frames, and quadrature between breaks, by handbook sums."""

import numpy as np
import pytest

from templates_gen import registry
from templates_gen.mechanics.assembly import ALONG, Frame, VolumeAt
from templates_gen.mechanics.quadrature import breaks, gauss, gauss_across


def test_a_hole_moves_the_centre_away_from_it():
    """A bar of 100 mm³ from 0 to 10 without its first 20 mm³: 80 mm³, its middle at 6."""
    left = VolumeAt(100.0, 5.0) - VolumeAt(20.0, 1.0)
    assert (left.volume, left.x) == (80.0, pytest.approx(6.0))
    whole = left + VolumeAt(20.0, 1.0)
    assert (whole.volume, whole.x) == (100.0, pytest.approx(5.0))
    assert left.moved(2.5) == VolumeAt(80.0, left.x + 2.5)


@pytest.mark.parametrize(
    ("frame", "x"),
    [
        (Frame((10.0, 0.0, 0.0)), 11.0),
        (Frame((10.0, 0.0, 0.0), (-1.0, 0.0, 0.0)), 9.0),
        (Frame((10.0, 0.0, 0.0), (0.0, 1.0, 0.0), ALONG), 13.0),
        (Frame((10.0, 0.0, 0.0), (0.0, 1.0, 0.0)), 8.0),
        (Frame((10.0, 0.0, 0.0), (0.6, 0.0, 0.8), (-0.8, 0.0, 0.6)), 10 + 0.6 - 0.8 * 3),
    ],
)
def test_a_point_is_found_along_the_outer_frame(frame, x):
    """The point (1, 2, 3): each of its own axes turned as the frame says, y being z × x."""
    assert frame.along((1.0, 2.0, 3.0)) == pytest.approx(x)


def test_a_polynomial_is_integrated_exactly_on_each_side_of_a_kink():
    """∫|x − 1|³ from −1 to 2 is 16/4 + 1/4; four points are exact to the seventh degree."""
    x, weight = gauss(breaks(-1.0, 2.0, 1.0))
    assert (np.abs(x - 1) ** 3 * weight).sum() == pytest.approx(4.25, rel=1e-14)
    assert (x**7 * weight).sum() == pytest.approx((2**8 - 1) / 8, rel=1e-13)


def test_breaks_outside_are_left_out_and_many_are_each_as_one():
    ends = np.array([2.0, 3.0])[:, None]
    edges = breaks(0.0 * ends, ends, -5.0, 1.0, 9.0)
    assert edges.tolist() == [[0, 0, 1, 2, 2], [0, 0, 1, 3, 3]]
    x, weight = gauss_across(edges[:, None, :])
    assert (x**2 * weight).sum(axis=(1, 2)) == pytest.approx([8 / 3, 9.0])


def test_every_solid_is_a_member_of_the_assembly():
    """Else it would be missing from the weight, the assembled file and the overlap checks."""
    assert {b.part for b in registry.builders()} <= {m.part for m in registry.members()}
