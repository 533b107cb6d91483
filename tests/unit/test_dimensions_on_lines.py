"""A dimension measures between lines that are drawn, and a radius is that of a drawn arc.

Source: ISO 129-1 (from memory): a dimension is put to a feature of the drawing. So what a sheet
prints is what is cut, whatever formula gave the dimension its ends.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from outside.maker import PARAMS

from templates_gen import pipeline, registry
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import Leader, Level, Radius, Upright, View
from templates_gen.parameters import Pattern

#: A fitted arc may stand so far (mm) off the curve that is dimensioned.
OFF = 0.012
#: Ends that lie between corners for a reason, by template: the camber's middle, on many arcs.
BETWEEN = {"form-camber-card": 1}
TEMPLATES = registry.templates()
EACH = pytest.mark.parametrize("t", TEMPLATES, ids=[t.name for t in TEMPLATES])


@pytest.fixture(scope="module", params=["violin", "bass-german"])
def p(request: pytest.FixtureRequest) -> Pattern:
    return pipeline.read(str(PARAMS / f"{request.param}.toml"))


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
        if isinstance(d, Level):
            yield from ((at, xs, f"{d}") for at in (d.p[0], d.q[0]))
        elif isinstance(d, Upright):
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
    """A row left out is paper lost, and a row used twice over the same place is settled aside."""
    for view in views(p, t):
        for kind in (Level, Upright):
            rows = {d.row for d in view.dimensions if isinstance(d, kind)}
            for side in (1, -1):
                own = sorted(side * row for row in rows if side * row > 0)
                assert own in ([*range(1, len(own) + 1)], [*range(2, len(own) + 2)])
            assert 0 not in rows


@EACH
def test_no_dimension_measures_nothing(p: Pattern, t: Template) -> None:
    for view in views(p, t):
        for d in view.dimensions:
            if isinstance(d, Level):
                assert d.p[0] != d.q[0], f"{d}"
            if isinstance(d, Upright):
                assert d.p[1] != d.q[1], f"{d}"
