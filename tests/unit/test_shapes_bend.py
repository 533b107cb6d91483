"""Bend allowance: the neutral line moves inward as the bend gets tighter."""

import math

import numpy as np
import pytest

from templates_gen.shapes.bend import bend_length, neutral_factor


def test_neutral_line_is_within_the_sheet():
    slender = np.geomspace(1e-6, 1e4, 200)
    k = neutral_factor(slender * 0.4, 0.4)
    assert np.all((k >= 0) & (k <= 1))
    assert np.all(np.diff(k) >= 0)
    assert k[0] == 0.0
    assert k[-1] == 1.0


def test_neutral_line_depends_on_the_ratio_only():
    assert neutral_factor(0.6, 0.3) == pytest.approx(neutral_factor(6.0, 3.0), rel=1e-15)


def test_sharp_bend_has_a_finite_length():
    assert float(bend_length(90.0, 0.0, 0.5)) >= 0.0
    assert np.isfinite(bend_length(90.0, 0.0, 0.5))


def test_length_is_between_those_of_inner_face_and_middle():
    radii = np.linspace(0.01, 20.0, 60)
    length = bend_length(45.0, radii, 0.5)
    quarter = math.pi / 4
    assert np.all(length >= quarter * radii)
    assert np.all(length <= quarter * (radii + 0.25) + 1e-12)
    assert np.all(np.diff(length) > 0)


def test_length_is_proportional_to_the_angle():
    assert bend_length(90.0, 1.0, 0.5) == pytest.approx(2 * bend_length(45.0, 1.0, 0.5), rel=1e-15)
