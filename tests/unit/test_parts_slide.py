"""The slide's outlines: one tapered dovetail from three sides."""

import pytest
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern

from templates_gen.parts.slide import outline
from templates_gen.parts.slide.dims import SlideDims

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


def widths(path, at):
    """The outline's widths at its two ends (or levels)."""
    return sorted(2 * y for x, y, _ in path.vertices if abs(x - at) < 1e-9 and y > 0)


@every_file
def test_face_has_the_given_taper(stem):
    p = pattern(stem)
    v, path = p.values, outline.face(p)
    front, length = v["slide.width_front"], v["slide.length"]
    assert path.box == pytest.approx((0.0, -front / 2, length, front / 2))
    assert widths(path, 0.0) == pytest.approx([front])
    assert widths(path, length) == pytest.approx([front - v["slide.width_taper"]])


@every_file
def test_floor_is_the_face_widened_by_the_dovetail(stem):
    """Referee: shapely: the floor's outline stands evenly outside the face's."""
    p = pattern(stem)
    d = p.derive(SlideDims)
    face, back = polygon_of(outline.face(p)), polygon_of(outline.back(p))
    assert back.covers(face)
    over = float(d.floor(d.params.width_front) - d.params.width_front)
    assert back.area - face.area == pytest.approx(over * d.params.length)


@every_file
def test_sections_agree_with_the_plans(stem):
    p = pattern(stem)
    d, s = p.derive(SlideDims), p.derive(SlideDims).params
    front, middle, heel = (
        f(p) for f in (outline.section_front, outline.section_middle, outline.section_heel)
    )
    for path, width in ((front, s.width_front), (heel, d.width_heel)):
        assert path.box[1::2] == pytest.approx((0.0, s.thickness))
        assert path.box[2] - path.box[0] == pytest.approx(float(d.floor(width)))
    assert middle.area == pytest.approx((front.area + heel.area) / 2)
    half_up = outline.half_up(p)
    assert half_up.area == pytest.approx((outline.face(p).area + outline.back(p).area) / 2)
    assert half_up.box[0::2] == pytest.approx((0.0, s.length))


@every_file
def test_slide_is_narrower_at_the_heel(stem):
    d = pattern(stem).derive(SlideDims)
    assert d.width_heel < d.params.width_front
