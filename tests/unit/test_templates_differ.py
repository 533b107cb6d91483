"""Check that no two templates of a pattern cut the same outline.

Two outlines are one if either lies on the other when moved, turned or turned over: shapely lays
them on each other by their tightest boxes. Names are not compared.
"""

import math
from functools import cache
from itertools import combinations

import pytest
import shapely
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern
from shapely.affinity import affine_transform, rotate, translate

from templates_gen.drawing.sheet import Layer
from templates_gen.geometry import Pen, polygon
from templates_gen.pipeline import rendering, selection

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])

#: Outlines are one where neither stands farther than this from the other (mm). Slide and channel
#: differ by a fit of twice as much on each side, and are two.
SAME = 0.005
#: Tip plate and liner are cut of different stock. Both are bent to one face and end at one nose,
#: so laid flat they are as long as one another to 0.03 mm, and on a bass within ``SAME``.
ALIKE = {("head-plate", "head-liner")}
#: Chord error of an arc (mm).
CHORD = 1e-3
TURNED_OVER = [-1, 0, 0, 1, 0, 0]


def laid_straight(shape):
    """Middle at the origin, the longer side of the tightest box level."""
    box = shapely.minimum_rotated_rectangle(shape)
    (x0, y0), (x1, y1), (x2, y2) = list(box.exterior.coords)[:3]
    if math.dist((x0, y0), (x1, y1)) < math.dist((x1, y1), (x2, y2)):
        x0, y0, x1, y1 = x1, y1, x2, y2
    middle = box.centroid
    level = translate(shape, -middle.x, -middle.y)
    return rotate(level, -math.degrees(math.atan2(y1 - y0, x1 - x0)), origin=(0, 0))


def farthest(one, other):
    """Return the largest distance of a corner of one outline from the other."""
    return shapely.distance(shapely.points(one.exterior.coords), other.exterior).max()


def same(one, other):
    """Whether two outlines are one, wherever each lies."""
    if abs(one.length - other.length) > 0.01 * one.length:
        return False
    a, b = laid_straight(one), laid_straight(other)
    for quarter in (0, 90, 180, 270):
        turned = rotate(b, quarter, origin=(0, 0))
        for there in (turned, affine_transform(turned, TURNED_OVER)):
            if max(farthest(a, there), farthest(there, a)) < SAME:
                return True
    return False


@cache
def outlines(stem, layer):
    """By template, what it cuts: closed lines but for plain drill holes."""
    found = {}
    for t in selection.templates(pattern(stem)):
        strokes = (s for view in rendering.views(pattern(stem), t) for s in view.strokes)
        found[t.name] = [
            polygon_of(s.path, CHORD)
            for s in strokes
            if s.layer is layer and s.path.closed and s.path.as_circle() is None
        ]
    return found


def shared(cut):
    """Pairs of templates that have an outline in common."""
    return {
        (a, b)
        for (a, some), (b, others) in combinations(cut.items(), 2)
        if any(same(x, y) for x in some for y in others)
    }


@every_file
def test_no_two_templates_have_an_outline_in_common(stem):
    cut = outlines(stem, Layer.OUTLINE)
    assert sum(len(v) for v in cut.values()) > 20
    assert shared(cut) <= ALIKE


@every_file
def test_two_templates_share_a_pocket_only_if_it_is_the_same_one(stem):
    """The head's mortise goes through plate and liner too.

    So a pocket may occur again within one part, and nowhere else.
    """
    v = pattern(stem).values
    parts = {t.name: t.part for t in selection.templates(pattern(stem))}
    cut = outlines(stem, Layer.POCKET)
    again = shared(cut)
    assert ("head-face", "head-plate") in again
    assert all(parts[a] == parts[b] for a, b in again)
    rear, long = v["head.mortise_width"] / 2, v["head.mortise_length"]
    front = v["head.mortise_width_front"] / 2
    mortise = shapely.Polygon([(0, -rear), (long, -front), (long, front), (0, rear)])
    for name in ("head-face", "head-plate", "head-liner"):
        assert any(same(mortise, shape) for shape in cut[name])


#: An outline of lines and arcs that is its own mirror image nowhere.
PEN = Pen((0, 0)).line_to(30, 0).line_to(30, 8).arc_to((20, 18), (30, 18), left=False)
ODD = polygon_of(PEN.line_to(0, 12).close(), CHORD)


@pytest.mark.parametrize("turn", [0.0, 17.0, 90.0, 211.0])
@pytest.mark.parametrize("over", [False, True])
def test_recognises_an_outline_moved_or_turned(turn, over):
    there = rotate(translate(ODD, 40.0, -7.0), turn, origin=(3, 4))
    assert same(ODD, affine_transform(there, TURNED_OVER) if over else there)


def test_distinguishes_outlines_of_equal_area_and_length():
    """The same two corners cut off a plate, beside one another or across."""
    beside = polygon([(0, 0), (20, 0), (20, 10), (16, 14), (4, 14), (0, 10)])
    across = polygon([(4, 0), (20, 0), (20, 10), (16, 14), (0, 14), (0, 4)])
    a, b = polygon_of(beside), polygon_of(across)
    assert a.area == pytest.approx(b.area)
    assert a.length == pytest.approx(b.length)
    assert not same(a, b)


def test_outline_longer_by_a_fit_clearance_is_different():
    assert not same(shapely.box(0, 0, 30, 10), shapely.box(0, 0, 30.02, 10))
    assert same(shapely.box(0, 0, 30, 10), shapely.box(5, 5, 15, 35.001))
