"""Lines and arcs. Reference: circular segment formulas, quadrature, exact fractions."""

import math
from fractions import Fraction

import pytest
from scipy.integrate import quad

from templates_gen.geometry import Segment
from templates_gen.geometry.segment import turn_minus_sine

BULGES = [1.0, -1.0, 0.5, -0.3, 0.01, -1e-5, 1e-8]


@pytest.mark.parametrize("turn_deg", [180, 90, 60, 12.5, 1, 0.01])
@pytest.mark.parametrize("side", [1, -1])
def test_arc_of_a_known_circle(turn_deg, side):
    # Chord 2 r sin(a/2), arc r a, area r² (a - sin a) / 2, centroid 4 r sin³(a/2) / 3 (a - sin a)
    # from the centre. Source: I. N. Bronshtein, K. A. Semendyayev, Handbook of Mathematics,
    # plane figures, segment of a circle (from memory).
    r, a = 25.0, math.radians(turn_deg)
    chord = 2 * r * math.sin(a / 2)
    arc = Segment((0.0, 0.0), (chord, 0.0), side * math.tan(a / 4))
    assert arc.radius == pytest.approx(r, rel=1e-12)
    assert arc.length == pytest.approx(r * a, rel=1e-12)
    assert arc.turn == pytest.approx(side * a, rel=1e-12)
    assert arc.centre == pytest.approx((chord / 2, side * r * math.cos(a / 2)), abs=1e-9)
    if turn_deg > 10:  # below, the handbook's formula loses digits
        area = r * r / 2 * (a - math.sin(a))
        reach = 4 * r * math.sin(a / 2) ** 3 / (3 * (a - math.sin(a)))
        assert arc.moments[0] == pytest.approx(side * area, rel=1e-9)
        assert arc.moments[1] / arc.moments[0] == pytest.approx(chord / 2, rel=1e-9)
        assert arc.moments[2] / arc.moments[0] == pytest.approx(
            arc.centre[1] - side * reach, rel=1e-9
        )


@pytest.mark.parametrize("bulge", BULGES)
def test_moments_by_quadrature(bulge):
    # Source: scipy's adaptive quadrature, along the chord, of the height by the circle's equation.
    arc = Segment((-3.0, 0.0), (3.0, 0.0), bulge)
    r = 3.0 * (1 + bulge**2) / (2 * abs(bulge))
    base = r - 3.0 * abs(bulge)

    def height(x: float) -> float:
        # sqrt(r² - x²) - base without cancellation
        return (9 - x * x) / (math.sqrt(r * r - x * x) + base)

    area = quad(height, -3, 3, epsabs=1e-13)[0]
    moment = quad(lambda x: height(x) ** 2 / 2, -3, 3, epsabs=1e-13)[0]
    assert abs(arc.moments[0]) == pytest.approx(area, rel=1e-7)
    assert arc.moments[2] == pytest.approx(-moment, rel=1e-6, abs=1e-13)
    assert math.copysign(1, arc.moments[0]) == math.copysign(1, bulge)


@pytest.mark.parametrize("turn", [1e-6, 1e-3, 0.0199, 0.0201, 0.5, 3.0])
def test_turn_minus_sine_keeps_its_digits(turn):
    # Source: the series of the sine in exact fractions.
    t = Fraction(turn)
    exact = sum((-1) ** k * t ** (2 * k + 3) / math.factorial(2 * k + 3) for k in range(15))
    assert turn_minus_sine(turn) == pytest.approx(float(exact), rel=1e-10)
    assert turn_minus_sine(-turn) == -turn_minus_sine(turn)


@pytest.mark.parametrize("bulge", [0.0, *BULGES])
def test_points_and_tangents_lie_on_the_circle(bulge):
    piece = Segment((2.0, -1.0), (5.0, 3.0), bulge)
    for i in range(11):
        p, (tx, ty) = piece.point(i / 10), piece.tangent(i / 10)
        assert math.hypot(tx, ty) == pytest.approx(1.0, abs=1e-14)
        assert piece.distance(p) <= 1e-12
        if abs(bulge) > 0.001:
            cx, cy = piece.centre
            assert math.hypot(p[0] - cx, p[1] - cy) == pytest.approx(piece.radius, rel=1e-12)
            assert (p[0] - cx) * tx + (p[1] - cy) * ty == pytest.approx(0.0, abs=1e-9)
    assert piece.point(0.0) == piece.start and piece.point(1.0) == piece.end


@pytest.mark.parametrize("bulge", [0.0, *BULGES])
def test_part_lies_on_the_piece(bulge):
    piece = Segment((2.0, -1.0), (5.0, 3.0), bulge)
    part = piece.part(0.2, 0.7)
    assert part.length == pytest.approx(piece.length / 2, rel=1e-9)
    assert part.point(0.5) == pytest.approx(piece.point(0.45), abs=1e-10)
    assert piece.reversed().point(0.3) == pytest.approx(piece.point(0.7), abs=1e-12)


@pytest.mark.parametrize("bulge", [0.0, 1.0, -0.7, 0.2, -0.02])
@pytest.mark.parametrize("p", [(0.0, 0.0), (3.0, 2.0), (9.0, -4.0), (-2.0, 6.0)])
def test_distance_agrees_with_brute_force(bulge, p):
    # Source: brute force, 20 000 points along it.
    piece = Segment((2.0, -1.0), (5.0, 3.0), bulge)
    brute = min(math.dist(p, piece.point(i / 20000)) for i in range(20001))
    assert piece.distance(p) == pytest.approx(brute, abs=2e-7 if brute > 1 else 1e-4)
    assert piece.distance(p) <= brute + 1e-12
    assert math.dist(p, piece.point(piece.nearest(p))) == pytest.approx(piece.distance(p), abs=1e-9)


@pytest.mark.parametrize("height", [1e-3, 1e-6, 1e-9, 1e-12])
def test_nearly_straight_arc_keeps_its_digits(height):
    # The distance is the sagitta itself; the centre is up to 5e12 mm away.
    arc = Segment((0.0, 0.0), (10.0, 0.0), height / 5)
    assert arc.distance((5.0, 0.0)) == pytest.approx(height, rel=1e-9)
    assert arc.distance((5.0, -2.0)) == pytest.approx(2.0 - height, rel=1e-12)
    assert arc.distance((13.0, 4.0)) == pytest.approx(5.0, rel=1e-12)
    assert arc.outside((5.0, 1.0)) == pytest.approx(-1.0 - height, rel=1e-9)
    assert arc.box == pytest.approx((0.0, -height, 10.0, 0.0), rel=1e-9, abs=1e-15)


def test_box_of_a_half_circle_and_of_a_quarter():
    assert Segment((-5.0, 0.0), (5.0, 0.0), 1.0).box == pytest.approx((-5, -5, 5, 0), abs=1e-12)
    quarter = Segment((5.0, 0.0), (0.0, 5.0), math.tan(math.pi / 8))
    assert quarter.box == pytest.approx((0, 0, 5, 5), abs=1e-12)


def test_a_line_has_no_centre():
    line = Segment((0.0, 0.0), (3.0, 4.0))
    assert line.radius == math.inf and line.length == 5.0 and line.moments == (0.0, 0.0, 0.0)
    with pytest.raises(ValueError, match="no centre"):
        _ = line.centre


def test_tiny_bulge_is_a_line():
    noise = Segment((0.0, 0.0), (10.0, 0.0), 1e-45)
    assert noise.is_line
    assert noise.distance((5.0, 1.0)) == 1.0
