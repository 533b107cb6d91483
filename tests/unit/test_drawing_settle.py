"""Label placement: overlapping texts move apart, clear ones stay."""

import math
from random import Random

import pytest
from readers import corpus
from readers.arrows import tips

from templates_gen import registry
from templates_gen.drawing import dimension
from templates_gen.drawing.compose import compose
from templates_gen.drawing.lint import lint
from templates_gen.drawing.marks import box_of, label_corners, overlap, stands_on
from templates_gen.drawing.settle import settled
from templates_gen.drawing.view import (
    Angle,
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    View,
    all_strokes,
    cut,
    drill,
)
from templates_gen.errors import GeometryError
from templates_gen.geometry import circle, rectangle

PLATE = rectangle(0, 0, 30, 12)


def view(*dimensions, strokes=()) -> View:
    return View("", all_strokes(cut(PLATE), *strokes), dimensions)


def boxes(marks):
    return [box_of(label_corners(n)) for n in marks.labels]


def clear(marks) -> bool:
    found = boxes(marks)
    apart = not any(overlap(a, b) for i, a in enumerate(found) for b in found[:i])
    return apart and not any(stands_on(b, s.path) for b in found for s in marks.strokes)


def test_clear_dimensions_stay():
    dims = (
        HorizontalDim((0, 0), (30, 0), -1),
        HorizontalDim((0, 12), (30, 12), 1),
        VerticalDim((30, 0), (30, 12), 2),
        Leader((10, 12), (-20, 30), "edge"),
        Angle((0, 0), 100, 160, 12),
        Text((15, 5), "plate"),
    )
    marks = settled(view(*dims))
    meant = [label for d in dims for label in dimension.draw(d, PLATE.box).labels]
    assert sorted(map(repr, marks.labels)) == sorted(map(repr, meant))


SAME = HorizontalDim((0, 12), (30, 12), 1, suffix=" one")
WITHIN = HorizontalDim((13, 12), (16, 12), 1, suffix=" between two scribed lines")
CROWDED = {
    "two in one row": (SAME, HorizontalDim((0, 12), (30, 12), 1, suffix=" two")),
    "round one corner": (WITHIN, VerticalDim((30, 11), (30, 12), 1, suffix=" of the small step")),
    "on both sides": (
        WITHIN,
        VerticalDim((30, 11), (30, 12), 1, suffix=" right"),
        VerticalDim((0, 11), (0, 12), -1, suffix=" left"),
    ),
    "two radii": (
        Radius((15, 6), 2, 45, reach=15),
        Radius((15, 6), 2, 50, diameter=True, reach=15),
    ),
    "a radius onto a level": (Radius((15, 6), 2, 90, reach=15), SAME),
    "leaders to one place": (Leader((30, 6), (40, 9), "one"), Leader((30, 5), (40, 9), "two")),
    "a leader into the cut": (Leader((15, 6), (28, 11), "the hole for the pin"),),
    "an angle over a word": (Angle((0, 0), 100, 160, 12), Text((-12, 10), "heel")),
}


@pytest.mark.parametrize("dims", CROWDED.values(), ids=CROWDED)
def test_overlapping_dimensions_move_apart(dims):
    crowded = view(*dims, strokes=(cut(circle((15, 6), 2)),))
    marks = settled(crowded)
    drawn = [label for d in dims for label in dimension.draw(d, crowded.box).labels]
    assert clear(marks)
    assert sorted(n.text for n in marks.labels) == sorted(n.text for n in drawn)


@pytest.mark.parametrize("dims", [d for name, d in CROWDED.items() if "leader" not in name])
def test_moved_dimensions_measure_the_same(dims):
    """Arrows of a distance keep it; arrows of a radius stay on its arc."""
    found = tips(settled(view(*dims, strokes=(cut(circle((15, 6), 2)),))))
    for d in dims:
        if isinstance(d, HorizontalDim):
            assert {d.p[0], d.q[0]} <= {x for x, _ in found}
        if isinstance(d, VerticalDim):
            assert {d.p[1], d.q[1]} <= {y for _, y in found}
    on_the_arc = [p for p in found if math.isclose(math.dist(p, (15, 6)), 2, abs_tol=1e-9)]
    assert len(on_the_arc) == sum(isinstance(d, Radius) for d in dims)


def test_fixed_text_stays_and_lint_reports_the_overlap():
    """Fixed text cannot move."""
    marks = settled(view(Text((15, 5), "one"), Text((16, 5), "two")))
    assert [n.at for n in marks.labels] == [(15, 5), (16, 5)]
    sheet = compose([view(Text((15, 5), "one"), Text((16, 5), "two"))], corpus.CARD_INFO)
    assert any("overlap" in t for t in lint(sheet))


def test_hole_with_its_diameter():
    dims = (Radius((15, 6), 3, 0, diameter=True, reach=-2), HorizontalDim((0, 0), (15, 0), -1))
    assert clear(settled(view(*dims, strokes=drill((15, 6), 6))))


@pytest.mark.parametrize("file", corpus.FILES, ids=lambda f: f.stem)
def test_every_template_can_be_drawn_with_changed_lengths(file):
    """Change every length at random by a few per cent: no sheet has a lint fault.

    A shape that cannot be constructed is skipped: the checks report it.
    """
    rng, base, drawn, tried = Random(file.stem), corpus.pattern(file.stem), 0, 0
    for _ in range(3):
        lengths = [k for k, v in base if isinstance(v, float)]
        p = base.with_many({k: base.values[k] * rng.uniform(0.93, 1.07) for k in lengths})
        for t in registry.templates():
            if not t.wanted(p):
                continue
            tried += 1
            try:
                sheet = compose(t.views(p), corpus.CARD_INFO)
            except GeometryError:
                continue
            drawn += 1
            assert lint(sheet) == [], t.name
    assert drawn > 0.8 * tried
