"""Check the places of centre lines, dimension ends and text on every sheet.

Sources: ISO 128 and ISO 129-1 (from memory) for centre lines and dimensions; the place of text is
common practice, no source.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from outside.maker import PARAMS

from templates_gen.bench.routing import templates
from templates_gen.bow import catalogue
from templates_gen.drawing.sheet import Layer, Stroke
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import HorizontalDim, Leader, Text, VerticalDim, View
from templates_gen.geometry.segment import Box
from templates_gen.parameters import Pattern
from templates_gen.parts.heel.params import HeelKind
from templates_gen.pipeline import rendering
from templates_gen.shop.read import usual

SAME = 1e-6
TEMPLATES = [*catalogue.templates(), *templates.templates(usual())]
NAMED = {t.name: t for t in TEMPLATES}
EACH = pytest.mark.parametrize("t", TEMPLATES, ids=[t.name for t in TEMPLATES])
#: Changes to a starter that bring other lines to a sheet, by the sheet.
OTHERWISE = {"heel-plate": {"heel.kind": HeelKind.TWO_PIECE}}


@pytest.fixture(scope="module", params=["violin", "bass-german"])
def p(request: pytest.FixtureRequest) -> Pattern:
    return rendering.read(str(PARAMS / f"{request.param}.toml"))


@cache
def drawn(p: Pattern, t: Template) -> list[View]:
    """Return the views of the starter, or of a changed starter."""
    kinds = [p, p.with_many(OTHERWISE[t.name])] if t.name in OTHERWISE else [p]
    return [view for q in kinds if t.wanted(q) for view in t.views(q)]


def views(p: Pattern, t: Template) -> list[View]:
    found = drawn(p, t)
    if not found:
        pytest.skip("this bow has no such template")
    return found


def of(view: View, *layers: Layer) -> list[Stroke]:
    return [s for s in view.strokes if s.layer in layers]


def span(box: Box, axis: int) -> tuple[float, float]:
    return box[axis], box[axis + 2]


#: Level (0) or upright (1) lines whose two ends differ for a reason: a word, a second line or a
#: line's own end stands at the one.
UNEVEN = {
    ("underslide", 1), ("frog-side", 1), ("frog-eyelet-gauge", 1), ("frog-mortise-card", 1),
    ("frog-eyelet-card", 0), ("head-caul", 1), ("form-camber-card", 1), ("bow-frog-on-stick", 0),
    ("bow-frog-on-stick", 1), ("bow-sighting-gauge", 1),
}  # fmt: skip


@EACH
def test_centre_line_extends_equally_at_both_ends(p: Pattern, t: Template) -> None:
    """Where it runs out of what is drawn, it stands out at both ends, by 1.5 to 4."""
    for view in views(p, t):
        boxes = [s.path.box for s in view.strokes if s.layer is not Layer.CENTRE]
        for s in of(view, Layer.CENTRE):
            axis = 0 if s.path.box[1] == s.path.box[3] else 1
            a, b = span(s.path.box, axis)
            low, high = min(q[axis] for q in boxes), max(q[axis + 2] for q in boxes)
            if (a < low or high < b) and (t.name, axis) not in UNEVEN:
                assert low - a == pytest.approx(b - high, abs=0.01)
                assert 1.5 <= low - a <= 4.0


@EACH
def test_centre_cross_is_symmetric(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        left, low, right, high = view.cut_box
        for s in of(view, Layer.DRILL):
            ((x, y), r) = s.path.as_circle() or ((0.0, 0.0), 0.0)
            for mark in of(view, Layer.CENTRE):
                a, b, c, d = mark.path.box
                if a == c == x and low < b < y < d < high:
                    assert y - b == pytest.approx(d - y) and d - y > r
                if b == d == y and left < a < x < c < right:
                    assert x - a == pytest.approx(c - x) and c - x > r


@EACH
def test_symmetric_width_is_dimensioned_at_one_height(p: Pattern, t: Template) -> None:
    """Its two extension lines begin on the same level; so do those of a height about the axis."""
    for view in views(p, t):
        for d in view.dimensions:
            for kind, axis in ((HorizontalDim, 0), (VerticalDim, 1)):
                if isinstance(d, kind) and d.p[axis] == -d.q[axis]:
                    assert d.p[1 - axis] == pytest.approx(d.q[1 - axis], abs=0.012), f"{d}"


@EACH
def test_dimension_starts_at_a_place_on_the_drawing(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        left, low, right, high = view.box
        for d in view.dimensions:
            if isinstance(d, HorizontalDim | VerticalDim):
                for x, y in (d.p, d.q):
                    assert left - SAME <= x <= right + SAME, f"{d}"
                    assert low - SAME <= y <= high + SAME, f"{d}"


def test_sheet_titles_are_unique() -> None:
    titles = [t.title for t in TEMPLATES]
    assert len(titles) == len({*titles})


def test_view_is_named_for_the_side_it_is_seen_from(p: Pattern) -> None:
    """The head lies in front of the frog, the button behind it (the frame, DEVELOPERS.md)."""
    for name, called, seen in (
        ("frog-front", "front view", "from the head"),
        ("frog-rear", "rear view", "from the button"),
    ):
        assert called in NAMED[name].title
        assert NAMED[name].views(p)[0].title.startswith(seen)


def test_each_number_on_the_head_piece_is_at_a_mark(p: Pattern) -> None:
    """The base line of a number is a little above the end of its mark."""
    (view,) = NAMED["form-head-piece"].views(p)
    ends = [e for s in of(view, Layer.SCRIBE) for e in (s.path.start, s.path.end)]
    figures = [d for d in view.dimensions if isinstance(d, Text) and d.text.isdigit()]
    assert [d.text for d in figures] == ["0", "50"]
    for d in figures:
        assert min(abs(d.at[0] - x) + abs(d.at[1] - 1.2 - z) for x, z in ends) < SAME


def test_each_notch_has_its_text_over_the_middle(p: Pattern) -> None:
    """Height and width below, from the left; length above."""
    (view,) = NAMED["frog-notch-gauge"].views(p)
    (card,) = of(view, Layer.OUTLINE)
    told = {d.text: d.at[0] for d in view.dimensions if isinstance(d, Text)}
    low, high = span(card.path.box, 1)
    floors = [
        sorted((a[0], b[0]))
        for a, b in pairwise([*card.path.vertices, card.path.vertices[0]])
        if a[1] == b[1] and low < a[1] < high
    ]
    middles = {round(sum(floor) / 2, 6) for floor in floors}
    assert {round(x, 6) for x in told.values()} == middles
    assert told["height"] < told["width"]


def test_text_about_heel_pins_is_beside_the_heel(p: Pattern) -> None:
    (view,) = NAMED["frog-rear"].views(p)
    (path,) = [s.path for s in of(view, Layer.OUTLINE)]
    for d in view.dimensions:
        if isinstance(d, Leader):
            half = max(x for x, z, _ in path.vertices if z > 0.3 * path.box[3])
            assert abs(d.to[0]) > half


def test_the_button_card_leaves_a_rim_to_hold(p: Pattern) -> None:
    """Of 5 to 15 all round the octagon; common practice, no source."""
    (view,) = NAMED["button-facets"].views(p)
    (card,), (hole,) = of(view, Layer.OUTLINE), of(view, Layer.POCKET)
    a, b, c, d = (z - o for z, o in zip(card.path.box, hole.path.box, strict=True))
    assert all(5.0 <= rim <= 15.0 for rim in (-a, -b, d))
    assert c > d


def test_flank_gauge_has_a_square_base_and_back(p: Pattern) -> None:
    """Foot and top are level and meet an upright back 12 behind the foot, as high as the frog."""
    (view,) = NAMED["frog-flank-gauge"].views(p)
    (card,) = of(view, Layer.OUTLINE)
    _, low, right, high = card.path.box
    corners = {(round(x, 6), round(z, 6)) for x, z, _ in card.path.vertices}
    assert {(round(right, 6), 0.0), (round(right, 6), round(high, 6))} <= corners
    assert low == 0.0
    assert high == pytest.approx(p.values["frog.overall_height"])
    feet = sorted(x for x, z in corners if z == 0.0)
    assert len(feet) == 2
    assert feet[1] - feet[0] == pytest.approx(12.0)
