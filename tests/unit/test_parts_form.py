"""The bending form's board: depth, straight ends, holes, marks."""

import math

import numpy as np
import pytest
from arcs import chord
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern
from shapely import Point

from templates_gen.parts.form import dims_curves, outline, sheets

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


@every_file
def test_board_has_the_given_depth_and_a_straight_clamping_edge(stem):
    p = pattern(stem)
    board = outline.form(p)
    edge = dims_curves.edge(p).path
    assert board.box[3] - edge.box[1] == pytest.approx(p.values["form.depth"], abs=1e-6)
    top = [q for q in board.segments if q.is_line and min(q.start[1], q.end[1]) > edge.box[3]]
    (clamping,) = [q for q in top if abs(q.start[1] - q.end[1]) < 1e-9]
    assert clamping.length > 0.95 * (board.box[2] - board.box[0])


@every_file
def test_edge_extends_straight_beyond_both_ends_without_a_kink(stem):
    """Only the four corners at the straight ends and the clamping edge turn."""
    p = pattern(stem)
    board = outline.form(p)
    beyond = p.values["form.beyond"]
    assert sum(abs(q.length - beyond) < 1e-6 for q in board.segments if q.is_line) == 2
    assert len([turn for _, turn in board.kinks() if abs(turn) > 0.1]) == 4


@every_file
def test_edge_bends_more_than_the_stick_by_the_given_factor(stem):
    """Depth of the over-bent middle line below its own chord, to the stick's."""
    p = pattern(stem)

    def deep(q):
        line = dims_curves.axis(q)
        chord = np.interp(line.x, line.x[[0, -1]], line.z[[0, -1]])
        return float((chord - line.z).max())

    plain = p.with_("stick.over_bend", 1.0)
    assert deep(p) / deep(plain) == pytest.approx(p.values["stick.over_bend"], rel=1e-9)


def test_edge_is_offset_by_half_the_thickness_when_bent():
    p = pattern("bass-french")
    middle, edge = dims_curves.axis(p), dims_curves.edge(p)
    v = p.values
    off = np.hypot(edge.x - middle.x, edge.z - middle.z)
    assert off == pytest.approx((dims_curves.thickness(p) + v["stick.bent_oversize"]) / 2, abs=1e-9)
    # Common practice, no source: a stick that finishes at 10 is bent at 12.
    at_ten = np.interp(10.0, dims_curves.thickness(p)[::-1], (2 * off)[::-1])
    assert at_ten == pytest.approx(12.0, abs=0.05)


def test_marks_are_square_to_the_edge_every_50_mm():
    p = pattern("violin")
    edge = dims_curves.edge(p).path
    marks = outline.marks(edge)
    assert [along for along, _, _ in marks] == [50.0 * i for i in range(len(marks))]
    assert edge.length - marks[-1][0] < 50
    for along, (x, z), (u, w) in marks:
        assert edge.distance((x, z)) < 1e-9
        tangent = edge.tangent_at(along)
        assert tangent[0] * (u - x) + tangent[1] * (w - z) == pytest.approx(0.0, abs=1e-9)
        assert w > z


@every_file
def test_holes_have_the_given_spacing(stem):
    p = pattern(stem)
    (view,) = sheets.form.views(p)
    holes = [s.path.as_circle() for s in view.strokes if s.path.as_circle()]
    board = polygon_of(outline.form(p))
    assert len(holes) >= 6
    for (x, z), r in holes:
        assert 2 * r == pytest.approx(p.values["form.hole_diameter"], abs=1e-9)
        assert board.contains(Point(x, z).buffer(r + 4.0))
    xs = sorted(q[0][0] for q in holes)
    assert np.diff(xs) == pytest.approx([p.values["form.hole_spacing"]] * (len(xs) - 1))


@every_file
def test_card_is_as_thick_as_the_stick_and_square_at_its_ends(stem):
    p = pattern(stem)
    under, top = dims_curves.underside(p), dims_curves.top(p)
    thick = np.hypot(top.x - under.x, top.z - under.z)
    assert thick == pytest.approx(dims_curves.thickness(p), abs=1e-9)
    card = outline.camber_card(p)
    ends = [q for q in card.segments if q.is_line and q.length < 20]
    assert len(ends) == 2
    assert len([turn for _, turn in card.kinks() if abs(turn) > 5]) == 4
    slope = math.atan(4 * p.values["stick.camber_depth"] / float(under.x[-1]))
    (u, w) = ends[-1].tangent(0.5)
    assert math.atan(abs(u / w)) == pytest.approx(slope, abs=0.001)


def test_ordinates_table_lists_depth_thickness_and_camber():
    p = pattern("violin")
    (view,) = sheets.ordinates.views(p)
    words = [w.text for w in view.dimensions if hasattr(w, "text")]
    rows = [words[i : i + 4] for i in range(0, len(words), 4)]
    assert rows[0] == ["x", "form", "stick", "camber"]
    v, span = p.values, chord(p)
    for x, _, _, camber in rows[1:]:
        u = float(x) / span
        # An even arc by any handbook.
        assert float(camber) == pytest.approx(4 * v["stick.camber_depth"] * u * (1 - u), abs=0.051)
    assert [float(r[0]) for r in rows[1:-1]] == [50.0 * i for i in range(len(rows) - 2)]
    assert float(rows[-1][0]) == pytest.approx(span, abs=0.05)  # and at the head's end
