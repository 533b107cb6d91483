"""Simple shapes: octagon, dovetail, trapezoid."""

import math

import numpy as np
import pytest

from templates_gen.shapes import dovetail, octagon
from templates_gen.shapes.trapezoid import trapezoid


@pytest.mark.parametrize("across", [5.0, 8.6, 18.0])
def test_octagon_is_regular_with_a_facet_down(across):
    path = octagon.octagon(across, (3.0, -2.0))
    assert path.closed
    assert len(path.segments) == 8
    assert [s.chord for s in path.segments] == pytest.approx([octagon.facet(across)] * 8, rel=1e-12)
    assert [turn for _, turn in path.kinks()] == pytest.approx([45.0] * 8, abs=1e-9)
    half = across / 2
    assert path.box == pytest.approx((3 - half, -2 - half, 3 + half, -2 + half), rel=1e-12)
    assert path.centroid == pytest.approx((3, -2), abs=1e-9)
    first = path.segments[0]
    assert first.start[1] == first.end[1] == pytest.approx(-2 - half)


def test_octagon_constants():
    across = [2 * math.hypot(x, y) for x, y, _ in octagon.octagon(1.0).vertices]
    assert across == pytest.approx([octagon.CORNERS] * 8, rel=1e-12)
    # From the corner of the square to the facet: the setting of a marking gauge.
    both_gauges_and_a_facet = 2 * octagon.GAUGE + octagon.FACET
    assert both_gauges_and_a_facet == pytest.approx(1.0, rel=1e-15)


def test_facet_of_arrays():
    assert np.allclose(octagon.facet(np.array([8.0, 12.0])), octagon.FACET * np.array([8.0, 12.0]))


@pytest.mark.parametrize("flank", [5.0, 15.0, 30.0])
def test_dovetail_is_wider_at_the_floor(flank):
    path = dovetail.section(6.9, 1.6, flank)
    floor = float(dovetail.floor_width(6.9, 1.6, flank))
    assert floor > 6.9
    assert path.box == pytest.approx((-floor / 2, 0.0, floor / 2, 1.6), rel=1e-12)
    assert path.area == pytest.approx(1.6 * (6.9 + floor) / 2, rel=1e-12)
    # The flanks have the stated angle from the vertical.
    ups = [s for s in path.segments if abs(s.start[1] - s.end[1]) > 1]
    leans = [
        math.degrees(math.atan2(abs(s.end[0] - s.start[0]), abs(s.end[1] - s.start[1])))
        for s in ups
    ]
    assert leans == pytest.approx([flank] * 2, abs=1e-9)


def test_floor_width_of_a_dovetail_cutter():
    """Source: plane geometry; 14° cutter, 6.35 at the bottom, 3 deep: 4.8540 at the top."""
    assert float(dovetail.floor_width(4.8540, 3.0, 14.0)) == pytest.approx(6.35, abs=1e-4)


def test_floor_width_of_arrays():
    faces = np.array([6.0, 7.0])
    assert np.allclose(dovetail.floor_width(faces, 1.6, 15.0) - faces, 3.2 * math.tan(math.pi / 12))


def test_trapezoid():
    path = trapezoid(2.0, 12.0, 4.0, 7.0)
    assert path.closed
    assert path.area == pytest.approx(55.0, rel=1e-12)
    assert path.box == pytest.approx((2.0, -3.5, 12.0, 3.5))
    assert {v[:2] for v in path.vertices} == {(2.0, -2.0), (2.0, 2.0), (12.0, -3.5), (12.0, 3.5)}
    assert path.centroid[1] == pytest.approx(0.0, abs=1e-12)
