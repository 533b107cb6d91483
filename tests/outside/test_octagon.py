"""Compare handle and seat with a handbook's octagon and a published seat."""

import math

import numpy as np
import pytest
from outside.maker import drawn, on, stated
from scipy.special import roots_legendre

from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.octagon import octagon

#: Any standard handbook, across flats 1: area, one side, across corners, I about the middle.
AREA, SIDE, CORNERS, INERTIA = 0.8284271, 0.4142136, 1.0823922, 0.05473785


def cylindrical(across_flats):
    return stated(
        "violin",
        {"stick.across_flats_butt": across_flats, "stick.across_flats_handle_end": across_flats},
    )


@pytest.mark.parametrize("across_flats", [8.2, 8.6, 12.0])
def test_facet_of_a_handle(across_flats):
    facet = float(cylindrical(across_flats).derive(StickDims).least_facet)
    assert facet == pytest.approx(SIDE * across_flats, rel=2e-7)


def test_outline_is_the_handbooks_octagon():
    # Numbers for 8.6 across flats: 61.270470 mm², 299.420529 mm⁴ (handbook coefficients).
    path = octagon(8.6)
    assert path.area == pytest.approx(AREA * 8.6**2, rel=1e-7)
    assert path.area == pytest.approx(61.270470, abs=5e-7)
    assert [s.chord for s in path.segments] == pytest.approx([SIDE * 8.6] * 8, rel=2e-7)
    across = [2 * math.hypot(x, y) for x, y, _ in path.vertices]
    assert across == pytest.approx([CORNERS * 8.6] * 8, rel=1e-7)
    assert second_moment(path) == pytest.approx(INERTIA * 8.6**4, rel=1e-6)
    assert second_moment(path) == pytest.approx(299.420529, abs=5e-6)


def second_moment(path):
    """∫ y² dA as ∮ −y³/3 dx by Gauss's rule, exact for straight sides."""
    nodes, weights = roots_legendre(4)
    total = 0.0
    for s in path.segments:
        (x0, y0), (x1, y1) = s.start, s.end
        y = y0 + (y1 - y0) * (nodes + 1) / 2
        total += float(np.dot(weights, -(y**3) / 3)) / 2 * (x1 - x0)
    return total


def test_published_land_on_a_published_handle():
    """Source: a published German-language workshop series: land 3.3 on a handle of 8.2."""
    p = cylindrical(8.2)
    assert float(p.derive(UnderslideDims).land) == pytest.approx(3.3, abs=0.02)
    assert _level_edges(drawn(p, "underslide"))[0] == pytest.approx(3.3, abs=0.02)


def _level_edges(drawing):
    """Level edges of the pressed lining, shortest first: the land is the shorter face."""
    (section,) = [e for e in on(drawing, "OUTLINE") if len(e.corners) == 8]
    points = [c for c, _ in section.corners]
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return sorted(abs(a - b) for a, b in pairs if abs(a.imag - b.imag) < 1e-6)


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_seat_sides_rise_at_an_octagons_angle(family):
    """Source: any handbook: a regular octagon's corners are 135°."""
    (section,) = [e for e in on(drawn(stated(family), "underslide"), "OUTLINE") if e.corners[7:]]
    points = [c for c, _ in section.corners]
    sides = [b - a for a, b in zip(points, points[1:] + points[:1], strict=True)]
    turns = [
        math.degrees(np.angle(b / a)) for a, b in zip(sides, sides[1:] + sides[:1], strict=True)
    ]
    assert sum(turns) == pytest.approx(360, abs=1e-6)
    assert sorted(abs(t) for t in turns) == pytest.approx([45] * 4 + [90] * 4, abs=1e-4)
