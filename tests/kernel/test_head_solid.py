"""The head's solid: length of the face against plate and liner, position of the mortise."""

import math
from dataclasses import replace
from functools import cache

import pytest
from kernel.bench import BUILDERS, FILES, built, pattern, recipe
from scipy.integrate import quad

from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_walls import HeadWalls

pytestmark = pytest.mark.kernel
every_file = pytest.mark.parametrize("stem", FILES)


def dims(stem):
    return pattern(stem).derive(HeadDims)


@cache
def whole(stem):
    """The head before its mortise is cut, with the pocket moved to the face."""
    return BUILDERS["head"].build(replace(recipe(stem, "head"), mortise_depth=-1.0)).solid


@every_file
def test_face_of_the_solid_is_as_long_as_plate_and_liner_laid_flat(stem):
    """The section's edges, and DIN 6935's middle line of thin sheet on a large radius."""
    from templates_gen.kernel import solids

    v = pattern(stem).values
    rise = v["head.nose_rise"] + 1e-6
    face = [
        e for e in solids.section_edges(whole(stem), "y", 0.0)
        if all(-1e-6 < e.positionAt(t).z < rise and e.positionAt(t).x > -1e-6 for t in (0, 0.5, 1))
        # Skip the nose's front and the back of the head.
        and abs(e.tangentAt(0.5).x) > 0.5
    ]  # fmt: skip
    along = sum(e.Length() for e in face)
    (curve,) = [e for e in face if e.geomType() == "CIRCLE"]
    ways = [curve.tangentAt(t) for t in (0.0, 1.0)]
    turn = math.acos(min(1.0, abs(ways[0].dot(ways[1]))))
    plate, liner = v["head.plate_thickness"], v["head.liner_thickness"]
    d = dims(stem)
    r = curve.radius()
    # The end of a bent sheet leans; its inner side must still reach the vertical nose.
    lengths = [
        along - r * turn + (r - top - thick / 2) * math.asin(r * math.sin(turn) / (r - top - thick))
        for top, thick in ((0.0, plate), (plate, liner))
    ]
    assert lengths == pytest.approx([float(d.plate.length), float(d.liner.length)], abs=1e-6)
    # The template has this length plus the filing allowance at both ends.
    over = v["head.filing_allowance"]
    left, _, right, _ = outline.plate_flat(pattern(stem)).box
    assert (left, right) == pytest.approx((-over, float(d.plate.length) + over), abs=1e-6)
    left, _, right, _ = outline.liner_flat(pattern(stem)).box
    assert (left, right) == pytest.approx((-over, float(d.liner.length) + over), abs=1e-6)


@every_file
def test_bounding_box_has_the_stated_dimensions(stem):
    v = pattern(stem).values
    box = built(stem, "head").solid.BoundingBox(1e-9)
    assert (box.xmax, box.zmin) == pytest.approx((v["head.face_length"], 0.0), abs=1e-5)
    half = v["head.width"] / 2
    assert (box.ymin, box.ymax) == pytest.approx((-half, half), abs=1e-5)
    # Its top over the face's rear edge.
    from templates_gen.kernel import solids

    points = [
        e.positionAt(t) for e in solids.section_edges(whole(stem), "x", 0.0) for t in (0, 0.5, 1)
    ]
    assert max(q.z for q in points) == pytest.approx(v["head.height"], abs=2e-3)


def wood(solid, start, reach=40.0):
    """Thickness of wood from a point straight across, away from the mid-plane."""
    import cadquery as cq

    x, y, z = start
    beam = cq.Edge.makeLine(cq.Vector(x, y - 1e-7, z), cq.Vector(x, y + reach, z))
    pieces = solid.intersect(beam).Edges()
    first = min(pieces, key=lambda e: min(q.y for q in (e.startPoint(), e.endPoint())))
    ends = sorted(q.y for q in (first.startPoint(), first.endPoint()))
    assert ends[0] == pytest.approx(y, abs=1e-5)
    return ends[1] - y


@every_file
def test_walls_beside_the_mortise_agree_with_the_check(stem):
    """Measured on the solid straight across, from the mortise's corners at full depth."""
    v, d, solid = pattern(stem).values, dims(stem), built(stem, "head").solid
    roof = v["head.mortise_depth"]
    corners = [
        q.Center() for q in solid.Vertices()
        if abs(q.Z - roof) < 1e-6 and q.Y > 0 and v["head.mortise_from_rear"] - 1e-6 < q.X
    ]  # fmt: skip
    corners = [q for q in corners if q.y <= v["head.mortise_width"] / 2 + 1e-6]
    rear, foot = sorted(corners, key=lambda q: q.x)
    assert rear.x == pytest.approx(v["head.mortise_from_rear"], abs=1e-6)
    assert foot.x == pytest.approx(float(d.mortise_foot), abs=1e-6)
    measured = [wood(solid, q.toTuple()) for q in (rear, foot)]
    # Straight across is a little more than square to the leaning, tapered cheek.
    beside = float(pattern(stem).derive(HeadWalls).beside)
    assert min(measured) - 0.01 < beside <= min(measured)
    assert beside >= 1.2


@every_file
def test_nose_is_as_wide_as_the_face_is_drawn(stem):
    """The ridge's facets must leave wood under the plate's square end."""
    v = pattern(stem).values
    over = v["head.nose_rise"] + 0.01
    half = wood(whole(stem), (v["head.face_length"] - 1e-6, 0.0, over))
    lean = math.tan(math.radians(v["head.cheek_lean_deg"]))
    assert half == pytest.approx(v["head.nose_width"] / 2 - lean * over, abs=1e-5)


@every_file
def test_mortise_opens_only_in_the_face(stem):
    """The cut removes the pocket's whole volume above the face, integrated by scipy."""
    v, d = pattern(stem).values, dims(stem)
    rear, long, deep = (
        v["head.mortise_from_rear"], v["head.mortise_length"], v["head.mortise_depth"]
    )  # fmt: skip
    grows = (v["head.mortise_width_front"] - v["head.mortise_width"]) / long
    tilt = math.tan(math.radians(v["head.mortise_undercut_deg"]))
    flat, radius = 0.36 * v["head.face_length"], float(d.face_radius)

    def height(x):
        """From the face, or the undercut wall, up to the roof."""
        face = radius - math.sqrt(radius**2 - max(0.0, x - flat) ** 2)
        return max(0.0, deep - max(face, (x - rear - long) / tilt if tilt else 0.0))

    def slice_(x):
        return (v["head.mortise_width"] + grows * (x - rear)) * height(x)

    ends = (rear, rear + long, rear + long + deep * tilt)
    kinks = [x for x in (flat, ends[1], *(ends[1] + s for s in (0.01, 0.02, 0.05))) if x > rear]
    expected = quad(slice_, ends[0], ends[2], points=kinks, limit=400, epsabs=1e-9)[0]
    taken = whole(stem).Volume(1e-9) - built(stem, "head").solid.Volume(1e-9)
    assert taken == pytest.approx(expected, rel=2e-6)


def test_notices_a_mortise_that_breaks_through_a_cheek():
    """As wide as the face: the cut removes less than the whole pocket."""
    r = recipe("violin", "head")
    from templates_gen.shapes.trapezoid import trapezoid

    wide = replace(r, mortise=trapezoid(2.5, 18.9, 11.0, 11.0))
    taken = whole("violin").Volume(1e-9) - BUILDERS["head"].build(wide).solid.Volume(1e-9)
    v = pattern("violin").values
    assert taken < 0.95 * 11.0 * v["head.mortise_length"] * v["head.mortise_depth"]


@every_file
def test_head_is_symmetric(stem):
    """A bow's head is laid out from its centre line (common practice, no source)."""
    from templates_gen.kernel import solids

    solid = built(stem, "head").solid
    assert solids.centroid(solid)[1] == pytest.approx(0.0, abs=1e-5)
    half = solids.cut(solid, solids.box((-90, 0, -10), (60, 60, 60)), step="half")
    assert half.Volume(1e-9) == pytest.approx(solid.Volume(1e-9) / 2, rel=1e-6)
