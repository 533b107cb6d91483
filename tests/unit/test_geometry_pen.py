"""Drawing with rule and compass. Outside: Euclid and the formulas of handbooks."""

import math

import pytest

from templates_gen.errors import GeometryError
from templates_gen.geometry import Pen


def test_a_rounded_rectangle():
    # Area w h - (4 - π) r²; outline 2 (w + h) - (8 - 2 π) r.
    pen = Pen((-5.0, 0.0)).line_to(5.0, 0.0)
    for x, y in [(5.0, 8.0), (-5.0, 8.0), (-5.0, 0.0)]:
        pen.fillet(2.0).line_to(x, y)
    path = pen.close()
    assert path.area == pytest.approx(80 - 3 * (1 - math.pi / 4) * 4, rel=1e-12)
    assert path.length == pytest.approx(36 - 3 * (4 - math.pi), rel=1e-12)
    assert [abs(t) for _, t in path.kinks() if abs(t) > 1e-9] == pytest.approx([90.0])


def test_a_chamfer_cuts_both_legs_alike():
    path = Pen((0.0, 0.0)).line_to(10.0, 0.0).chamfer(3.0).line_to(10.0, 10.0).open()
    assert [v[:2] for v in path.vertices] == [(0, 0), (7.0, 0), (10.0, 3.0), (10.0, 10.0)]


def test_a_fillet_in_a_hollow_turns_right():
    path = Pen((0.0, 10.0)).line_to(0.0, 0.0).fillet(2.0).line_to(-10.0, 0.0).open()
    arc = path.segments[1]
    assert arc.bulge < 0 and arc.radius == pytest.approx(2.0)
    assert arc.centre == pytest.approx((-2.0, 2.0), abs=1e-12)


@pytest.mark.parametrize(("left", "turn"), [(True, math.pi / 2), (False, -3 * math.pi / 2)])
def test_arc_to_goes_the_way_it_is_told(left, turn):
    path = Pen((5.0, 0.0)).arc_to((0.0, 5.0), (0.0, 0.0), left=left).open()
    assert sum(s.turn for s in path.segments) == pytest.approx(turn)
    assert all(s.radius == pytest.approx(5.0) for s in path.segments)


def test_arc_by_more_than_half_is_drawn_in_two():
    path = Pen((3.0, 0.0)).arc_by((0.0, 0.0), 1.5 * math.pi).open()
    assert len(path.segments) == 2
    assert path.end == pytest.approx((0.0, -3.0), abs=1e-12)
    assert path.length == pytest.approx(4.5 * math.pi)


@pytest.mark.parametrize("end", [(10.0, 3.0), (4.0, 4.0), (-2.0, 1.0)])
def test_tangent_arc_leaves_as_the_pen_arrived(end):
    # Euclid III.32: the angle of tangent and chord is half the arc's turn.
    path = Pen((-5.0, 0.0)).line_to(0.0, 0.0).tangent_arc_to(end).open()
    assert path.kinks()[0][1] == pytest.approx(0.0, abs=1e-9)
    assert path.end == end
    turn = sum(s.turn for s in path.segments)
    assert turn == pytest.approx(2 * math.atan2(end[1], end[0]))


def test_moves_of_no_length_are_left_out():
    path = Pen((0.0, 0.0)).line_by(4.0, 0.0).line_by(0.0, 0.0).line_by(0.0, 3.0).open()
    assert len(path.segments) == 2


def test_close_runs_counter_clockwise_from_the_lowest_left():
    path = Pen((0.0, 5.0)).line_to(5.0, 5.0).line_to(5.0, 0.0).line_to(0.0, 0.0).close()
    assert path.area == pytest.approx(25.0) and path.start == (0.0, 0.0)


@pytest.mark.parametrize(
    ("draw", "description"),
    [
        (lambda p: p.arc_to((9.0, 9.0), (0.0, 0.0), left=True), "cannot end"),
        (lambda p: p.tangent_arc_to((3.0, 3.0)), "a piece before"),
        (lambda p: p.line_to(5.0, 0.0).tangent_arc_to((-5.0, 0.0)), "straight behind"),
        (lambda p: p.line_by(1.0, 0.0).fillet(5.0).line_by(0.0, 9.0), "does not fit"),
        (lambda p: p.line_by(1.0, 0.0).chamfer(1.0).line_by(0.0, 9.0), "does not fit"),
        (lambda p: p.bulge_to((6.0, 0.0), 0.2).fillet(0.1).line_by(0.0, 9.0), "two straight"),
    ],
)
def test_what_no_compass_draws_is_refused(draw, description):
    with pytest.raises(GeometryError, match=description):
        draw(Pen((1.0, 0.0)))


def test_an_arc_through_three_points():
    """Source: any handbook: three places on the circle of radius 5 about the origin."""
    piece = Pen((5.0, 0.0)).arc_through((4.0, 3.0), (-3.0, 4.0)).open().segments[0]
    assert piece.radius == pytest.approx(5.0, rel=1e-12)
    assert piece.centre == pytest.approx((0.0, 0.0), abs=1e-12)
    assert piece.bulge > 0
    assert Pen((0.0, 0.0)).arc_through((1.0, 1.0), (3.0, 3.0)).open().segments[0].bulge == 0.0
