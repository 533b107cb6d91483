"""Compare camber card and bending form, read from their files, with the formula of the curve.

Sources: an even arc by any handbook (depth 4 c u (1 − u)); diameters by the published rule (Fétis
1856) in closed form; a form carries the stick's top, over-bent, at the thickness at which it is
bent (common practice, no source).
"""

import math
from functools import cached_property

import numpy as np
import pytest
from arcs import chord
from outside.maker import stated
from readers import dxf_raw, svg_page
from scipy.optimize import brentq
from shapely import LineString, MultiLineString, distance
from shapely import points as shapely_points

from templates_gen.pipeline import rendering

READERS = {
    "dxf": lambda data: dxf_raw.read(data).items,
    "svg": lambda data: svg_page.read(data).items,
}
both = pytest.mark.parametrize("form", READERS)
FIVE = ["violin", "viola", "cello", "bass-french", "bass-german"]
FAMILIES = pytest.mark.parametrize("family", ["violin", "bass-french"])
#: Stations at which the drawn curves are held against the formula.
U = np.linspace(0.0, 1.0, 200)


def lines(p, name, form, layer):
    """Pieces (end, middle, end) of each line on a layer, y upward; in an SVG it runs down."""
    files = rendering.render(rendering.check(p), formats=(form,), only=(name,), plane=True)
    (data,) = [data for file, data in files.items() if file.endswith(f".{form}")]
    items = [i for i in READERS[form](data) if i.layer == layer]
    rows = [i.pieces for i in items]
    if form == "svg":
        rows = [[tuple(z.conjugate() for z in piece) for piece in row] for row in rows]
    return rows


def chain(pieces):
    """Return points of a flat arc; the parabola through ends and middle agrees within 1e-4."""
    t = np.linspace(0.0, 1.0, 41)
    rows = [
        a * (1 - t) * (1 - 2 * t) + 4 * m * t * (1 - t) + b * t * (2 * t - 1) for a, m, b in pieces
    ]
    return [LineString([(z.real, z.imag) for z in row]) for row in rows]


class Analytic:
    """The bent stick by its formulas. Frame: over the ferrule's front, on the straight edge."""

    def __init__(self, p):
        self.v = p.values
        self.start = self.v["frog.front_at_play"]
        self.face = self.v["stick.length"] - self.v["head.face_length"]
        self.run = self.face - self.start
        self.length, self.depth = chord(p), self.v["stick.camber_depth"]

    def along(self, u):
        """Arc of the underside from the ferrule (any handbook: ∫ √(1 + t²) dt, t the slope)."""
        k = 4 * self.depth / self.length
        t = k * (1 - 2 * np.asarray(u))
        whole = k * math.sqrt(1 + k * k) + math.asinh(k)
        return self.length / (4 * k) * (whole - t * np.sqrt(1 + t * t) - np.arcsinh(t))

    def thick(self, u):
        return self.thick_at(self.start + self.along(u))

    def thick_at(self, at):
        """The published rule, s₀ = AB/4; the handle tapers evenly."""
        v, ab = self.v, self.face
        head, end, long = (
            v["stick.diameter_head"], v["stick.across_flats_handle_end"], v["stick.handle_length"]
        )  # fmt: skip
        whole = math.log((1.25 * ab - long) / (0.25 * ab))
        law = head + (end - head) * np.log((1.25 * ab - at) / (0.25 * ab)) / whole
        butt = v["stick.across_flats_butt"]
        return np.where(at < long, butt + (end - butt) * at / long, law)

    def under(self, u):
        return u * self.length - 4j * self.depth * u * (1 - u)

    def aside(self, curve, by, u):
        """Laid off square to a curve, away from the hair."""
        h = 1e-6
        way = curve(u + h) - curve(u - h)
        return curve(u) + 1j * way / np.abs(way) * by

    def top(self, u):
        return self.aside(self.under, self.thick(u), u)

    def axis(self, u):
        """The middle line, its depth below its ends' line enlarged, drawn together lengthwise
        until its underside is as long as the straight stick."""
        return self._deepened(u, self._factor)

    @cached_property
    def _factor(self):
        fine = np.linspace(0.0, 1.0, 20001)

        def excess(factor):
            under = self.aside(lambda w: self._deepened(w, factor), -self.thick(fine) / 2, fine)
            return np.abs(np.diff(under)).sum() - self.run

        return brentq(excess, 0.9, 1.1, xtol=1e-9)

    def _deepened(self, u, factor):

        def middle(w):
            return self.aside(self.under, self.thick(w) / 2, w)

        a, b = middle(np.array([0.0]))[0], middle(np.array([1.0]))[0]
        q = middle(u)
        line = a.imag + (b.imag - a.imag) * (q.real - a.real) / (b.real - a.real)
        x = a.real + factor * (q.real - a.real)
        return x + 1j * (line + self.v["stick.over_bend"] * (q.imag - line))

    def edge(self, u):
        over = self.thick(u) + self.v["stick.bent_oversize"]
        return self.aside(self.axis, over / 2, u)


def off(points, pieces):
    """Return the distance of each point from the nearest drawn piece."""
    points = np.asarray(points)
    return distance(shapely_points(points.real, points.imag), MultiLineString(chain(pieces)))


def card(p, form):
    """The card's outline with the straight edge's left end as origin."""
    (outline,) = lines(p, "form-camber-card", form, "OUTLINE")
    ((straight,),) = lines(p, "form-camber-card", form, "HIDDEN")
    ends = sorted((straight[0], straight[2]), key=lambda z: z.real)
    assert abs(ends[1] - ends[0] - Analytic(p).length) < 1e-3
    return [tuple(z - ends[0] for z in piece) for piece in outline]


@both
@FAMILIES
def test_card_is_the_finished_sticks_underside_and_top(form, family):
    p = stated(family)
    a, pieces = Analytic(p), card(p, form)
    assert off(a.under(U), pieces).max() < 0.005
    assert off(a.top(U), pieces).max() < 0.005


@both
def test_arc_is_longer_than_its_chord_by_the_closed_form(form):
    """A parabola's arc: L/2 (√(1 + k²) + asinh k / k), k = 4 c/L (any handbook)."""
    p = stated("violin")
    a, pieces = Analytic(p), card(p, form)
    near = _run(a.under)
    from_it = off([q[1] for q in pieces], near)
    under = [q for q, far in zip(pieces, from_it, strict=True) if far < 0.05]
    k = 4 * a.depth / a.length
    exact = a.length / 2 * (math.sqrt(1 + k * k) + math.asinh(k) / k)
    assert exact - a.length == pytest.approx(8 * a.depth**2 / (3 * a.length), rel=0.01)
    assert sum(c.length for c in chain(under)) == pytest.approx(exact, abs=0.002)


@both
@pytest.mark.parametrize("family", FIVE)
@pytest.mark.parametrize("law", ["uniform", "even-strain", "tension"])
def test_bent_stick_keeps_its_length(form, family, law):
    """The card's underside, measured along the drawn curve, is the straight stick's length from the
    ferrule in play to the face's rear edge; its chord is the drawn straight edge."""
    p = stated(family, {"stick.camber": law})
    v = p.values
    run = v["stick.length"] - v["head.face_length"] - v["frog.front_at_play"]
    (outline,) = lines(p, "form-camber-card", form, "OUTLINE")
    under = pieces_below(outline)
    assert sum(c.length for c in chain(under)) == pytest.approx(run, abs=0.01)
    ends = sorted((under[0][0], under[-1][2]), key=lambda z: z.real)
    ((straight,),) = lines(p, "form-camber-card", form, "HIDDEN")
    assert abs(ends[1] - ends[0]) == pytest.approx(abs(straight[2] - straight[0]), abs=1e-3)


def pieces_below(outline):
    """The pieces of the card between its two short straight ends, on the hair side."""
    first, second = (
        i for i, (a, _, b) in enumerate(outline) if abs((b - a).imag) > abs((b - a).real)
    )
    runs = outline[first + 1 : second], [*outline[second + 1 :], *outline[:first]]
    return min(runs, key=lambda run: np.mean([m.imag for _, m, _ in run]))


@pytest.mark.parametrize("family", FIVE)
@pytest.mark.parametrize("law", ["uniform", "tension"])
def test_over_bent_stick_keeps_its_length(family, law):
    """From the form's drawn edge back to the finished underside, square to the edge: as long as the
    straight stick, however deep it is bent."""
    p = stated(family, {"stick.camber": law})
    v = p.values
    run = v["stick.length"] - v["head.face_length"] - v["frog.front_at_play"]
    (outline,) = lines(p, "form-bending", "dxf", "OUTLINE")
    curved = [piece for piece in outline if abs(piece[1] - (piece[0] + piece[2]) / 2) > 1e-3]
    points = [x + 1j * y for c in chain(curved) for x, y in c.coords]
    edge = np.unique(np.round(points, 7))
    along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(edge)))])
    way = np.gradient(edge, along)
    place = v["frog.front_at_play"] + along / along[-1] * run
    finished = Analytic(p).thick_at(place)
    thick = finished + v["stick.bent_oversize"] / 2
    # Square to the middle line, from which the edge leans by half the taper.
    way = way * np.exp(-0.5j * np.gradient(finished, along))
    under = edge - 1j * way / np.abs(way) * thick
    assert np.abs(np.diff(under)).sum() == pytest.approx(run, abs=0.01)


def _run(curve):
    """A curve as pieces."""
    z = curve(np.linspace(0.0, 1.0, 801))
    return list(zip(z[:-1:2], z[1::2], z[2::2], strict=True))


def board(p, form):
    """The form's outline and its marks, the edge's end at the ferrule as in the formula."""
    (outline,) = lines(p, "form-bending", form, "OUTLINE")
    marks = [_foot(m[0]) for m in lines(p, "form-bending", form, "SCRIBE")]
    marks.sort(key=lambda z: z.real)
    shift = Analytic(p).edge(np.array([0.0]))[0] - marks[0]
    return [tuple(z + shift for z in piece) for piece in outline], [m + shift for m in marks]


def _foot(mark):
    """A mark's end on the edge: the lower one, since the clamping edge is above."""
    return min((mark[0], mark[2]), key=lambda z: z.imag)


@both
@FAMILIES
def test_form_carries_the_over_bent_top(form, family):
    p = stated(family)
    pieces, _ = board(p, form)
    assert off(Analytic(p).edge(U), pieces).max() < 0.005


@both
def test_form_has_a_mark_every_50_of_arc_length_and_at_the_face(form):
    p = stated("violin")
    _, marks = board(p, form)
    fine = Analytic(p).edge(np.linspace(0.0, 1.0, 200001))
    along = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(fine)))])
    found = [along[np.abs(fine - m).argmin()] for m in marks]
    # One that would be nearer than 5 mm to the face's mark is left out.
    steps = [50.0 * i for i in range(int((along[-1] - 5.0) // 50) + 1)]
    assert found == pytest.approx([*steps, along[-1]], abs=0.02)


def test_form_made_from_the_underside_would_be_caught():
    """It would be wrong by the stick's taper: more than 1 mm on a violin."""
    p = stated("violin")
    a, (pieces, _) = Analytic(p), board(p, "dxf")
    wrong = a.under(U) - a.under(U)[0] + a.edge(U)[0]
    assert off(wrong, pieces).max() > 1.0
    bent = wrong.real + 1j * (wrong.imag[0] + a.v["stick.over_bend"] * (wrong.imag - wrong.imag[0]))
    assert off(bent, pieces).max() > 1.0


@pytest.mark.parametrize("law", ["even-strain", "tension"])
def test_other_laws_are_deepest_nearer_the_head(law):
    """Common practice, no source: where the wood is thinner it is bent more."""
    p = stated("violin", {"stick.camber": law})
    (marks,) = (lines(p, "form-camber-card", "dxf", "CENTRE"),)
    ((straight,),) = lines(p, "form-camber-card", "dxf", "HIDDEN")
    left = min(straight[0].real, straight[2].real)
    (at,) = {round(m[0][1].real - left, 3) for m in marks}
    assert Analytic(p).length / 2 + 5 < at < Analytic(p).length * 0.62
