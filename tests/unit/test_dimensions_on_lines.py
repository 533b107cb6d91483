"""Check that dimensions measure between drawn lines, and radii are those of drawn arcs.

Source: ISO 129-1 (from memory): a dimension refers to a feature of the drawing. So the
printed number is what is cut, whatever formula placed the ends of the dimension.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from outside.maker import PARAMS
from shapely.geometry import Polygon
from shapely.ops import unary_union
from shapely.validation import explain_validity

from templates_gen.bench.routing import templates
from templates_gen.bow import catalogue
from templates_gen.drawing.sheet import CUTS, UNSCALED, Layer
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import HorizontalDim, Leader, Radius, VerticalDim, View
from templates_gen.geometry.flatten import flatten
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.shop.read import usual

#: A fitted arc may stand so far (mm) off the curve that is dimensioned.
OFF = 0.012
#: Ends that lie between corners for a reason, by template: the camber's middle, on many arcs.
BETWEEN = {"form-camber-card": 1}
TEMPLATES = [*catalogue.templates(), *templates.templates(usual())]
EACH = pytest.mark.parametrize("t", TEMPLATES, ids=[t.name for t in TEMPLATES])


@pytest.fixture(scope="module", params=["violin", "bass-german"])
def p(request: pytest.FixtureRequest) -> Pattern:
    return rendering.read(str(PARAMS / f"{request.param}.toml"))


def views(p: Pattern, t: Template) -> list[View]:
    if not t.wanted(p):
        pytest.skip("this bow has no such template")
    return list(t.views(p))


def places(view: View) -> tuple[set[float], set[float]]:
    """x and y of every corner, of every arc's farthest points and of every circle's centre."""
    xs, ys = {0.0}, {0.0}
    for stroke in view.strokes:
        for s in stroke.path.segments:
            left, bottom, right, top = s.box
            xs |= {left, right}
            ys |= {bottom, top}
            across, up = sorted((s.start[0], s.end[0])), sorted((s.start[1], s.end[1]))
            if left < across[0] or right > across[1]:  # it runs upright at its centre's height
                ys.add(s.centre[1])
            if bottom < up[0] or top > up[1]:
                xs.add(s.centre[0])
        if whole := stroke.path.as_circle():
            xs.add(whole[0][0])
            ys.add(whole[0][1])
    return xs, ys


def ends(view: View) -> Iterator[tuple[float, set[float], str]]:
    """Each end of each linear dimension, with the places it may stand at."""
    xs, ys = places(view)
    for d in view.dimensions:
        if isinstance(d, HorizontalDim):
            yield from ((at, xs, f"{d}") for at in (d.p[0], d.q[0]))
        elif isinstance(d, VerticalDim):
            yield from ((at, ys, f"{d}") for at in (d.p[1], d.q[1]))


@EACH
def test_a_dimension_runs_from_line_to_line(p: Pattern, t: Template) -> None:
    loose = [
        said
        for view in views(p, t)
        for at, there, said in ends(view)
        if min(abs(at - x) for x in there) > OFF
    ]
    assert len(loose) <= BETWEEN.get(t.name, 0), loose


#: Sheets where an extension line may start beside the line to which it measures.
STARTS_BESIDE = {
    "ferrule-spread-wedge", "slide-dovetail", "heel-plate", "underslide", "underslide-press",
    "frog-side", "frog-dummy", "frog-bottom", "frog-front", "frog-rear", "frog-section-waist",
    "frog-section-mortise", "frog-section-eyelet", "frog-seat-gauge", "frog-eyelet-gauge",
    "frog-eyelet-card", "head-side", "head-face", "head-plate", "head-liner", "form-bending",
    "stick-handle", "bow-frog-on-stick",
}  # fmt: skip


@EACH
def test_an_extension_line_starts_on_a_drawn_line(p: Pattern, t: Template) -> None:
    """Source: ISO 129-1 (from memory)."""
    for view in views(p, t):
        for d in view.dimensions:
            if isinstance(d, HorizontalDim | VerticalDim) and t.name not in STARTS_BESIDE:
                for end in (d.p, d.q):
                    assert min(s.path.distance(end) for s in view.strokes) < OFF, f"{d}"


@EACH
def test_a_radius_is_that_of_an_arc_that_is_drawn(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        arcs = [
            (s.centre, s.radius) for q in view.strokes for s in q.path.segments if not s.is_line
        ]
        for d in view.dimensions:
            if isinstance(d, Radius):
                off = min(
                    abs(d.radius - r) + max(abs(a - b) for a, b in zip(d.centre, c, strict=True))
                    for c, r in arcs
                )
                assert off < 5 * OFF, f"{d}"


@EACH
def test_a_leader_points_at_a_line(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        for d in view.dimensions:
            if isinstance(d, Leader):
                assert min(s.path.distance(d.tip) for s in view.strokes) < 0.5, f"{d}"


@EACH
def test_rows_of_dimensions_follow_each_other_without_a_gap(p: Pattern, t: Template) -> None:
    """An empty row wastes paper; two dimensions of one row at the same place are moved apart."""
    for view in views(p, t):
        for kind in (HorizontalDim, VerticalDim):
            rows = {d.row for d in view.dimensions if isinstance(d, kind)}
            for side in (1, -1):
                own = sorted(side * row for row in rows if side * row > 0)
                # Along the hair line the first row is left to the heights over it.
                first = own[0] if own and t.name == "bow-hair-line" else 1
                assert first <= 2
                assert own == [*range(first, len(own) + first)]
            assert 0 not in rows


@EACH
def test_no_dimension_measures_nothing(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        for d in view.dimensions:
            if isinstance(d, HorizontalDim):
                assert d.p[0] != d.q[0], f"{d}"
            if isinstance(d, VerticalDim):
                assert d.p[1] != d.q[1], f"{d}"


#: Drawings to look at, of which nothing is cut.
LOOKED_AT = {"bow-frog-on-stick", "bow-hair-line"}


@EACH
def test_cuts_are_closed_lines(p: Pattern, t: Template) -> None:
    """A saw or laser follows OUTLINE and POCKET; sheets without a scale have neither."""
    for view in views(p, t):
        cuts = [s for s in view.strokes if s.layer in CUTS]
        assert all(s.path.closed for s in cuts)
        needed = t.up not in UNSCALED and t.name not in LOOKED_AT
        assert bool(cuts) == needed
        assert not needed or any(s.layer is Layer.OUTLINE for s in cuts)


@EACH
def test_nothing_extends_beyond_the_cut(p: Pattern, t: Template) -> None:
    """Pockets and holes lie within the outline; scribed lines end on it."""
    for view in views(p, t):
        outlines = [s.path.box for s in view.strokes if s.layer is Layer.OUTLINE]
        if not outlines:
            continue
        left, low = min(b[0] for b in outlines), min(b[1] for b in outlines)
        right, high = max(b[2] for b in outlines), max(b[3] for b in outlines)
        for s in view.strokes:
            if s.layer in (Layer.POCKET, Layer.DRILL, Layer.SCRIBE):
                a, b, c, d = s.path.box
                inside = left - OFF <= a and low - OFF <= b and c <= right + OFF and d <= high + OFF
                assert inside, f"{s.layer} {s.path.box}"


@EACH
def test_centre_lines_reach_beyond_what_they_halve(p: Pattern, t: Template) -> None:
    """Source: ISO 128 (from memory): a little beyond the outline, not across the sheet."""
    for view in views(p, t):
        left, low, right, high = view.cut_box
        for s in view.strokes:
            if s.layer is Layer.CENTRE:
                a, b, c, d = s.path.box
                assert left - 10 <= a
                assert low - 10 <= b
                assert c <= right + 10
                assert d <= high + 10
                assert a == c or b == d


@EACH
def test_tables_are_ruled_from_edge_to_edge(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        if view.table:
            left, low, right, high = view.box
            boxes = [s.path.box for s in view.strokes]
            level = [b for b in boxes if b[1] == b[3]]
            upright = [b for b in boxes if b[0] == b[2]]
            assert all((b[0], b[2]) == (left, right) for b in level)
            assert all((b[1], b[3]) == (low, high) for b in upright)
            assert len(level) == len(view.table) - 1
            assert len(upright) == len(view.table[0]) - 1


@EACH
def test_cuts_do_not_cross_themselves_and_outlines_turn_one_way(p: Pattern, t: Template) -> None:
    """Source: shapely's test of a simple polygon; area by the shoelace formula."""
    for view in views(p, t):
        for s in view.strokes:
            if s.layer in CUTS:
                polygon = Polygon(flatten(s.path, 1e-3))
                assert polygon.is_valid, explain_validity(polygon)
                assert polygon.area == pytest.approx(abs(s.path.area), rel=2e-3)


@EACH
def test_gauges_and_cards_are_valid_pieces(p: Pattern, t: Template) -> None:
    """A card with its windows cut out is still one piece."""
    for view in views(p, t):
        outlines = [s.path for s in view.strokes if s.layer is Layer.OUTLINE]
        pockets = [s.path for s in view.strokes if s.layer is Layer.POCKET]
        if len(outlines) == 1 and pockets:
            card = Polygon(flatten(outlines[0], 1e-3))
            left = card.difference(unary_union([Polygon(flatten(q, 1e-3)) for q in pockets]))
            assert left.geom_type == "Polygon"


@EACH
def test_dimensions_of_one_row_do_not_overlap(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        for kind, axis in ((HorizontalDim, 0), (VerticalDim, 1)):
            rows: dict[int, list[tuple[float, float]]] = {}
            for d in view.dimensions:
                if isinstance(d, kind):
                    span = sorted((d.p[axis], d.q[axis]))
                    rows.setdefault(d.row, []).append((span[0], span[1]))
            for row, spans in rows.items():
                for (_, end), (start, _) in pairwise(sorted(spans)):
                    assert start >= end - OFF, f"{kind.__name__} row {row}"


#: Drawings where a dimension must reach across, for the near side is taken.
REACHES_ACROSS = {
    "underslide-press", "frog-bottom", "head-side", "head-plate", "head-liner", "form-camber-card",
}  # fmt: skip


@EACH
def test_dimension_is_on_the_side_of_what_it_measures(p: Pattern, t: Template) -> None:
    """Source: ISO 129-1 (from memory): extension lines do not cross the part without need."""
    for view in views(p, t):
        left, low, right, high = view.box
        for kind, axis, start, end in (
            (HorizontalDim, 1, low, high),
            (VerticalDim, 0, left, right),
        ):
            middle, slack = (start + end) / 2, 0.02 * (end - start) + OFF
            for d in view.dimensions:
                if isinstance(d, kind) and t.name not in REACHES_ACROSS:
                    at = (d.p[axis], d.q[axis])
                    across = max(at) < middle - slack if d.row > 0 else min(at) > middle + slack
                    assert not across, f"{d}"
