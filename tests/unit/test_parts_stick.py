"""The stick's derived numbers and outlines, and its gauges' order."""

import numpy as np
import pytest
from arcs import chord
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.checks.judge import judge
from templates_gen.parts.stick import outline
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes.stick_section import SectionKind

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


@every_file
def test_graduation_ends_at_the_given_diameters(stem):
    v, d = pattern(stem).values, pattern(stem).derive(StickDims)
    assert float(d.face_rear) == v["stick.length"] - v["head.face_length"]
    ends = d.diameter(np.array([0.0, v["stick.handle_length"], float(d.face_rear)]))
    stated = ("across_flats_butt", "across_flats_handle_end", "diameter_head")
    assert ends == pytest.approx([v[f"stick.{key}"] for key in stated], abs=1e-9)


@every_file
def test_no_stick_thickens_toward_the_head(stem):
    """Common practice, no source."""
    d = pattern(stem).derive(StickDims)
    all_along = d.diameter(np.linspace(0.0, float(d.face_rear), 2000))
    assert np.diff(all_along).max() <= 1e-12


@every_file
def test_stick_is_bent_with_the_usual_oversize(stem):
    """Common practice, no source: a stick that finishes at 10 is bent at about 12."""
    over = pattern(stem).values["stick.bent_oversize"]
    assert 1.0 <= over <= 2.5
    if stem in ("bass-french", "bass-german", "whimbrel"):
        assert over == pytest.approx(2.0, abs=0.3)


#: Area across, by the handbook, per square of the width.
AREAS = {
    SectionKind.ROUND: np.pi / 4,
    SectionKind.OCTAGON: 0.8284271,
    SectionKind.D_SECTION: 0.80691,
}


@pytest.mark.parametrize("kind", AREAS, ids=str)
def test_section_ahead_of_the_handle(kind):
    p = pattern("violin").with_("stick.section", kind)
    across = outline.ahead(p, 400.0)
    wide = float(p.derive(StickDims).diameter(400.0))
    left, low, right, high = across.box
    assert (right - left, high - low) == pytest.approx((wide, wide), abs=1e-9)
    assert across.area == pytest.approx(AREAS[kind] * wide**2, rel=5e-6)
    # By another library, on short chords.
    assert polygon_of(across).area == pytest.approx(across.area, rel=1e-3)


def test_d_section_is_tangent_where_its_round_meets_the_flats():
    """Its lower half is the octagon's: kinks at four corners only, each of 45°."""
    across = outline.ahead(pattern("violin").with_("stick.section", SectionKind.D_SECTION), 300.0)
    turns = [abs(turn) for _, turn in across.kinks()]
    assert [t for t in turns if t > 0.01] == pytest.approx([45.0] * 4, abs=1e-9)


def test_camber_is_measured_from_the_ferrule_to_the_face():
    p = pattern("violin")
    v, d = p.values, p.derive(StickDims)
    along = v["stick.length"] - v["head.face_length"] - v["frog.front_at_play"]
    assert float(d.run) == along
    assert float(d.chord) == pytest.approx(chord(p), abs=1e-6)
    assert d.camber.depths.max() == pytest.approx(v["stick.camber_depth"], abs=1e-9)


def test_bend_radius_at_its_limit():
    """R ≥ 33 D: an even arc's radius is L²/8c, of the over-bent form that over its factor."""
    rule = next(r for r in registry.rules() if r.id == "stick.bend_radius")
    v = pattern("bass-french").values
    deep = v["stick.camber_depth"] * v["stick.over_bend"]
    span = chord(pattern("bass-french"))
    bound = rule.bound(pattern("bass-french"))
    assert float(bound.measured) == pytest.approx(span**2 / (8 * deep), rel=1e-9)
    thick = v["stick.across_flats_handle_end"] + v["stick.bent_oversize"]
    assert float(bound.limit) == pytest.approx(33 * thick, rel=1e-12)
    # A short stick bent as deep is bent too sharply.
    short = pattern("bass-french").with_many({"stick.length": 470.0, "stick.camber_depth": 36.0})
    assert judge(rule, short).stops


@pytest.mark.parametrize(
    ("law", "head", "uneven"),
    [
        ("uniform", 5.3, False),
        ("even-strain", 5.3, False),
        ("tension", 5.3, False),
        ("even-strain", 3.2, True),
        ("tension", 3.2, True),
    ],
)
def test_bend_of_each_law_changes_gently_or_not(law, head, uneven):
    """d falls by 0.3 in the last 30 at 5.6: by under a tenth in 25 mm, d⁴ by under four. Ending at
    3.2 it falls by more than a tenth there (arithmetic)."""
    from templates_gen.shapes.camber import CamberKind

    p = pattern("violin").with_many({"stick.camber": CamberKind(law), "stick.diameter_head": head})
    rule = next(r for r in registry.rules() if r.id == "stick.camber_even")
    assert (judge(rule, p).verdict == "fail") is uneven
    assert not judge(rule, p).stops
