"""How much of the head is seen from the side, against shapely on the outline that is drawn."""

import numpy as np
import pytest
from outside.maker import FAMILIES, stated
from shapely import Polygon, box
from templates_gen.bow.dims.head_side import side

from templates_gen.geometry.flatten import flatten
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.outline import block

#: A ridge as measured on a head for bass (invented).
FULL = ((12, 32.6), (15, 32.6), (18, 31.2), (21, 28.6), (24, 25), (27, 20.4), (33, 8.8), (36, 5.6))
RIDGES = {
    "usual": {},
    "full": {"head.crown_fraction": 0.40, "head.ridge_deg": 88.0, "head.ridge_ratio": 1.0},
    "swept": {"head.crown_fraction": 0.26, "head.ridge_deg": 42.0, "head.ridge_ratio": 0.8},
}


def drawn(p):
    """Area and middle of the outline ahead of the face's rear edge."""
    ahead = Polygon(flatten(block(p), 0.002)).intersection(box(0.0, -50.0, 100.0, 100.0))
    return ahead.area, ahead.centroid.x


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("ridge", RIDGES)
def test_area_and_middle_are_those_of_the_outline(family, ridge):
    p = stated(family, RIDGES[ridge])
    area, middle = side(p.derive(HeadDims))
    assert (area, middle) == pytest.approx(drawn(p), rel=0.005)


def test_a_ridge_as_measured_counts():
    p = stated("bass-french", {"head.face_length": 38.0, "head.height": 31.6})
    q = p.with_("head.ridge_points", FULL)
    area, middle = side(q.derive(HeadDims))
    assert (area, middle) == pytest.approx(drawn(q), rel=0.005)
    assert abs(area - side(p.derive(HeadDims))[0]) > 20.0


def test_many_heads_at_once():
    p = stated("violin")
    many = side(p.with_("head.height", np.array([20.0, 22.0])).derive(HeadDims))
    for i, height in enumerate((20.0, 22.0)):
        one = side(p.with_("head.height", height).derive(HeadDims))
        assert [float(each[i]) for each in many] == pytest.approx([float(v) for v in one])
