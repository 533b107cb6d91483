"""The head's outlines: tangent where they must be, derived numbers by other methods."""

import math

import numpy as np
import pytest
from arcs import chord
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern
from shapely import LineString, Point

from templates_gen.errors import GeometryError
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.parts.head.dims_walls import HeadWalls

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


@every_file
def test_side_turns_only_at_its_corners(stem):
    """Rear edge, nose below and above, and the two ends of the stick's piece: else tangent, at
    the neck and the crown as well. The stick's top leaves the head by its own taper."""
    p = pattern(stem)
    v, side = p.values, outline.side(p)
    sharp = [q for q, turn in side.kinks() if abs(turn) > 1e-4]
    length, rise = v["head.face_length"], v["head.nose_rise"]
    for corner in ((0.0, 0.0), (length, rise), (length, rise + v["head.nose_thickness"])):
        assert min(math.dist(corner, q) for q in sharp) < 1e-6
    assert sum(q[0] < -50 for q in sharp) == 2
    (taper,) = [abs(turn) for q, turn in side.kinks() if math.dist(q, (0, v["head.height"])) < 1e-6]
    assert 0.3 < taper < 1.5
    assert len(sharp) == 6


@every_file
def test_neck_is_tangent_to_the_back_and_to_the_stick(stem):
    p = pattern(stem)
    n, v = neck(p), p.values
    r = v["head.back_radius"]
    assert math.dist(n.fillet, n.on_back) == pytest.approx(r, rel=1e-9)
    assert math.dist(n.fillet, n.on_stick) == pytest.approx(r, rel=1e-9)
    # The touching place, the rounding's centre and the stick's are in line: so are tangents.
    assert math.dist(n.centre, n.on_stick) == pytest.approx(n.under, rel=1e-9)
    assert math.dist(n.centre, n.fillet) == pytest.approx(n.under + r, rel=1e-9)
    back = math.radians(v["head.back_deg"])
    across = (n.fillet[0] - n.on_back[0], n.fillet[1] - n.on_back[1])
    assert across[0] * math.cos(back) + across[1] * math.sin(back) == pytest.approx(0, abs=1e-9)
    # And it touches on the back's own line, above the face.
    assert math.atan2(n.on_back[1], n.on_back[0]) == pytest.approx(back, abs=1e-9)


@every_file
def test_stick_rises_over_the_face_by_camber_and_hair_line(stem):
    """Slope 4 c/L of an even arc, and the hair's slope to the chord (any handbook)."""
    p = pattern(stem)
    v = p.values
    neck_height = v["head.height"] - v["stick.diameter_head"]
    hair = neck_height - v["frog.clear_height"] + v["ferrule.plate_thickness"]
    expected = math.atan(4 * v["stick.camber_depth"] / chord(p)) + math.atan(
        hair / v["hair.length"]
    )
    assert float(p.derive(HeadDims).rise) == pytest.approx(expected, abs=1e-9)
    # The stick is as thick at the neck as stated, upright over the face's rear edge.
    n = neck(p)
    upright = (n.under - n.top) / math.cos(expected)
    assert upright == pytest.approx(v["stick.diameter_head"], rel=1e-9)


@every_file
def test_face_plan_is_tangent_where_its_curve_begins(stem):
    p = pattern(stem)
    v, plan = p.values, outline.plan(p)
    at, wide = v["head.face_width_front_at"], v["head.face_width_front"] / 2
    smooth = {q for q, turn in plan.kinks() if abs(turn) > 1e-6}
    assert not any(math.dist((at, way * wide), q) < 1e-6 for q in smooth for way in (1, -1))
    left, low, right, high = plan.box
    assert (left, right) == pytest.approx((0.0, v["head.face_length"]), abs=1e-9)
    assert (low, high) == pytest.approx((-v["head.width"] / 2, v["head.width"] / 2), abs=1e-9)
    assert any(abs(x - right) < 1e-9 and abs(y) == pytest.approx(v["head.nose_width"] / 2)
               for x, y, _ in plan.vertices)  # fmt: skip


@every_file
def test_wood_round_the_mortise_agrees_with_shapely(stem):
    """From the mortise's corners to the ridge and to the back of the head, in the mid-plane."""
    p = pattern(stem)
    v, d = p.values, p.derive(HeadDims)
    ridge = LineString(np.array([q.point(t) for q in outline.ridge(p).segments
                                 for t in np.linspace(0, 1, 2000)]))  # fmt: skip
    deep = v["head.mortise_depth"]
    corner = Point(float(d.mortise_foot), deep)
    assert float(d.to_ridge) == pytest.approx(corner.distance(ridge), abs=1e-4)
    back = math.radians(v["head.back_deg"])
    line = LineString([(t * math.cos(back), t * math.sin(back)) for t in (-40, 40)])
    rear = LineString([(v["head.mortise_from_rear"], z) for z in (0.0, deep)])
    # Square to the back, whose line is carried on below the face.
    assert float(d.to_back) == pytest.approx(rear.distance(line), abs=1e-9)


@every_file
def test_wood_to_the_facets_is_the_distance_to_their_nearest_point(stem):
    """The ridge carried across: 5 mm back and down over half the face's width (the solid's own)."""
    p = pattern(stem)
    v, d = p.values, p.derive(HeadDims)
    fall = 5.0 / (v["head.width"] / 2)
    slope = (v["head.mortise_width_front"] - v["head.mortise_width"]) / v["head.mortise_length"]
    far = float(d.mortise_foot) - v["head.mortise_from_rear"]
    corner = (float(d.mortise_foot), (v["head.mortise_width"] + slope * far) / 2)
    ridge = np.array([q.point(t) for q in outline.ridge(p).segments
                      for t in np.linspace(0, 1, 400)])  # fmt: skip
    across = np.linspace(0.0, v["head.width"], 800)[:, None]
    x, z = ridge[:, 0] - fall * across, ridge[:, 1] - fall * across
    y = v["head.ridge_width"] / 2 + across
    cheek = float(d.half_width(0.0)) + (float(d.half_width(1.0)) - float(d.half_width(0.0))) * x
    there = y <= cheek - float(d.cheek_lean) * z
    away = (x - corner[0]) ** 2 + (y - corner[1]) ** 2 + (z - v["head.mortise_depth"]) ** 2
    assert float(d.to_facets) == pytest.approx(math.sqrt(away[there].min()), abs=0.01)


@every_file
def test_wood_before_a_longer_mortise_never_increases(stem):
    p = pattern(stem)
    lengths = np.arange(p.values["head.mortise_length"], 24.0, 0.25)
    d = p.with_many({"head.mortise_length": lengths}).derive(HeadDims)
    for told in (d.to_ridge, d.to_facets):
        assert (np.diff(told) < 0).all()
        assert told[0] > 0 > told[-1]


@every_file
def test_mortise_lies_within_the_side_and_the_face(stem):
    p = pattern(stem)
    side, plan = polygon_of(outline.side(p)), polygon_of(outline.plan(p))
    assert plan.contains(polygon_of(outline.mortise(p)))
    inside = polygon_of(outline.mortise_side(p)).intersection(side)
    v = p.values
    tilt = math.tan(math.radians(v["head.mortise_undercut_deg"]))
    deep, long = v["head.mortise_depth"], v["head.mortise_length"]
    # Whole but for the little the face has risen at the front.
    assert inside.area == pytest.approx(deep * long + deep * deep * tilt / 2, rel=0.01)


@every_file
def test_plate_laid_flat_is_the_face_and_its_allowance(stem):
    """As wide as the face and 2 × the allowance; its area by the middle line's stretch at most."""
    p = pattern(stem)
    v = p.values
    over = v["head.filing_allowance"]
    flat, plan = outline.plate_flat(p), outline.plan(p)
    _, low, _, high = flat.box
    assert high - low == pytest.approx(v["head.width"] + 2 * over, abs=1e-6)
    bare = outline.plate_flat(p.with_("head.filing_allowance", 0.0))
    assert plan.area < bare.area < plan.area * 1.02
    thin = outline.liner_flat(p.with_("head.filing_allowance", 0.0))
    assert thin.area < bare.area


@every_file
@pytest.mark.parametrize("sheet", ["plate", "liner"])
def test_plate_and_liner_reach_the_upright_nose_when_bent(stem, sheet):
    """The sheet bent about the face's own centre, its middle as long as it is cut, its end square.

    The end of a bent sheet leans: the face that lies deeper is the shorter one. It must reach
    the nose too, with the whole filing allowance beyond it. By coordinates; the middle of a thin
    sheet keeps its length (DIN 6935, from memory).
    """
    v = pattern(stem).values
    top = 0.0 if sheet == "plate" else v["head.plate_thickness"]
    thick, over = v[f"head.{sheet}_thickness"], v["head.filing_allowance"]
    path = (outline.plate_flat if sheet == "plate" else outline.liner_flat)(pattern(stem))
    # The face: straight, then an arc through the nose, tangent to the straight part.
    long, rise = v["head.face_length"], v["head.nose_rise"]
    flat = max(q[0] for q in outline.side(pattern(stem)).vertices if q[1] == 0.0)
    r = ((long - flat) ** 2 + rise**2) / (2 * rise)
    middle = r - top - thick / 2
    turn = (path.box[2] - over - flat) / middle
    ends = [flat + (r - depth) * math.sin(turn) for depth in (top, top + thick)]
    assert min(ends) == pytest.approx(long, abs=1e-6)
    # Across, wherever it lies, the bent sheet covers the face.
    plan, shape = polygon_of(outline.plan(pattern(stem))), polygon_of(path)
    for x in np.linspace(flat, long - 0.01, 30):
        for depth in (top, top + thick):
            along = flat + middle * math.asin((x - flat) / (r - depth))
            wide, need = (_width(s, at) for s, at in ((shape, along), (plan, x)))
            assert wide >= need + 2 * over - 0.02, (x, depth)


def _width(shape, x):
    return shape.intersection(LineString([(x, -99), (x, 99)])).length


def test_reports_a_rounding_too_large_for_the_back():
    with pytest.raises(GeometryError, match="too large"):
        outline.side(pattern("violin").with_("head.back_radius", 20.0))


def test_zero_width_makes_a_sharp_ridge():
    """Width 0 is sharp, up to 1 is usual (common practice, no source)."""
    assert pattern("violin").values["head.ridge_width"] <= 1.0


def test_a_face_too_steep_for_its_plate_still_has_sheets():
    """Where the deeper side cannot reach the nose at any bend, lengths and outlines stay finite."""
    p = pattern("violin")
    for key, value in (("face_length", 16.0), ("nose_rise", 8.0), ("liner_thickness", 3.0)):
        p = p.with_(f"head.{key}", value)
    d = p.derive(HeadDims)
    assert float(d.face_radius) - 3.8 < 16.0 - float(d.flat)  # the deeper side cannot reach it
    for length in (d.plate.length, d.liner.length):
        assert 16.0 < float(length) < 16.0 * math.pi / 2
    assert outline.liner_flat(p).area > 0.0


@pytest.mark.parametrize("nose", [7.0, 8.9, 9.0, 9.3])
def test_wood_beside_the_mortise_agrees_with_the_drawing(nose):
    """By another library, from the front corner of the mortise to the drawn face; the nose's curve
    is bulging or hollow. No undercut: the wall is least at the face or by the cheek's lean."""
    changes = {"head.nose_width": nose, "head.face_width_front_at": 10.0}
    p = pattern("violin").with_many(changes | {"head.mortise_undercut_deg": 0.0})
    face, v = outline.plan(p), p.values
    front = v["head.mortise_from_rear"] + v["head.mortise_length"]
    corner = Point(front, v["head.mortise_width_front"] / 2)
    shown = polygon_of(face).exterior.distance(corner)
    level, _ = p.derive(HeadWalls)._in_plan(front, v["head.mortise_width_front"] / 2)
    assert float(level) == pytest.approx(shown, abs=2e-3)
