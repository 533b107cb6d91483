"""The frog's outlines: given corners, a tangent throat, valid whenever its rules pass."""

import numpy as np
import pytest
import shapely
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.checks.judge import judge
from templates_gen.errors import GeometryError
from templates_gen.parameters import Scale
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


def numbers(p):
    """Return the x of the shoulder and of the tongue's front, and the tongue's foot and top."""
    v = p.values
    shoulder = v["frog.length_bottom"] - v["ferrule.length"]
    hair = v["hair.count"] * np.pi / 4 * 0.2**2 / 0.75 / v["hair.ribbon_width_frog"]
    low = v["ferrule.plate_thickness"] + hair + v["ferrule.wedge_thickness"]
    top = v["ferrule.height"] - v["ferrule.arch_thickness"] - v["ferrule.tongue_fit"] / 2
    return shoulder, v["frog.length_bottom"] - 0.3, low, top


@every_file
def test_side_reaches_from_heel_to_tongue_and_up_to_the_edges(stem):
    p = pattern(stem).with_("heel.lean_deg", 0.0)
    _, front, _, _ = numbers(p)
    expected = (0.0, 0.0, front, p.values["frog.overall_height"])
    assert outline.side(p).box == pytest.approx(expected, abs=1e-9)


def test_a_leaning_heel_touches_the_heel_plane_too():
    """Lengths are from the heel's rearmost place; with 3° and 5 mm it is at 0.27."""
    p = pattern("bass-german").with_("heel.lean_deg", 3.0)
    assert outline.side(p).box[0] == pytest.approx(0.0, abs=1e-6)


@every_file
def test_side_has_the_given_corners(stem):
    p = pattern(stem)
    shoulder, front, low, top = numbers(p)
    corners = {(round(x, 6), round(y, 6)) for x, y, _ in outline.side(p).vertices}
    for x, y in (
        (shoulder, 0.0),
        (shoulder, low),
        (front, low),
        (front, top),
        (shoulder, top),
        (shoulder, p.values["ferrule.height"]),
    ):
        assert (round(float(x), 6), round(float(y), 6)) in corners


@every_file
def test_side_is_smooth_but_for_shoulder_and_tongue(stem):
    """Tongue and shoulder have six sharp corners; heel, edges, tip and throat are rounded."""
    p = pattern(stem)
    shoulder = numbers(p)[0]
    sharp = [(place, turn) for place, turn in outline.side(p).kinks() if abs(turn) > 1e-6]
    assert len(sharp) == 6
    assert all(place[0] > shoulder - 1e-9 and abs(turn) > 30 for place, turn in sharp)


@every_file
def test_throat_is_hollow_and_has_the_given_depth(stem):
    p = pattern(stem)
    v, side = p.values, outline.side(p)
    hollow = [s for s in side.segments if s.bulge < 0]
    assert len(hollow) == 2
    deepest = min(s.box[0] for s in hollow)
    shoulder = numbers(p)[0]
    assert shoulder - deepest == pytest.approx(v["frog.throat_depth"], abs=1e-9)
    d = p.derive(FrogDims)
    radii = sorted(s.radius for s in hollow)
    told = sorted((float(d.throat.lower_radius), float(d.throat.upper_radius)))
    assert radii == pytest.approx(told, rel=1e-9)


def test_a_straight_in_the_throat_has_the_given_length():
    p = pattern("violin").with_many({"frog.throat_straight": 1.5, "frog.throat_depth": 3.6})
    deepest = float(p.derive(FrogDims).throat.deepest)
    upright = [
        s
        for s in outline.side(p).segments
        if s.is_line and abs(s.start[0] - deepest) < 1e-9 and abs(s.end[0] - deepest) < 1e-9
    ]
    assert [s.chord for s in upright] == pytest.approx([1.5])


#: As given; and mortises whose front wall comes nearest to the throat between its ends.
DEEPER = {
    "as given": {},
    "deep": {"frog.hair_mortise_depth": 12.0},
    "deep and long": {"frog.hair_mortise_depth": 20.0, "frog.hair_mortise_length": 14.0},
}


@pytest.mark.parametrize("deeper", DEEPER)
@every_file
def test_mortise_to_throat_by_shapely(stem, deeper):
    """The mortise's front wall against the throat as drawn."""
    p = pattern(stem).with_many(DEEPER[deeper])
    v = p.values
    front = v["frog.hair_mortise_from_heel"] + v["frog.hair_mortise_length"]
    floor = v["slide.thickness"]
    wall = shapely.LineString([(front, floor), (front, floor + v["frog.hair_mortise_depth"])])
    hollow = [s for s in outline.side(p).segments if s.bulge < 0]
    arcs = [shapely.LineString([s.point(i / 500) for i in range(501)]) for s in hollow]
    nearest = min(a.distance(wall) for a in arcs)
    assert float(p.derive(FrogDims).mortise_to_throat) == pytest.approx(nearest, abs=1e-4)


@every_file
def test_dummy_fills_the_space_between_hair_and_stick(stem):
    p = pattern(stem)
    v, path = p.values, outline.dummy(p)
    box = (0.0, v["ferrule.plate_thickness"], v["frog.length_bottom"], v["frog.clear_height"])
    assert path.box == pytest.approx(box, abs=1e-9)


#: What keeps the side outline drawable, whatever else may fail.
SIDE_RULES = {
    "frog.edges_rise",
    "frog.throat_undercut",
    "frog.throat_arcs",
    "frog.thumb_line",
    "frog.waist_behind_throat",
}


def side_holds(p):
    rules = [r for r in registry.rules() if r.id in SIDE_RULES]
    assert len(rules) == len(SIDE_RULES)
    return all(judge(r, p).verdict != "fail" for r in rules)


def drawn_from_bands(family, rng):
    """A pattern whose frog, heel and ferrule are anywhere within the family's usual bands.

    Tall frogs are tall in every height: one random number sets them all.
    """
    p = pattern(family)
    tall, changes = rng.uniform(), {}
    for key, band in bands(family).items():
        q = p.schema.parameters.get(key)
        if (
            q is None
            or not q.numeric
            or q.whole
            or key.split(".")[0] not in ("frog", "heel", "ferrule")
        ):
            continue
        share = tall if q.scale is Scale.HEIGHT else rng.uniform()
        changes[key] = float(band.low + share * (band.high - band.low))
    return p.with_many(changes)


@pytest.mark.parametrize("family", sorted(FAMILIES))
def test_side_is_valid_whenever_its_rules_pass(family):
    """Two dozen random patterns of a family that pass; shapely is the referee."""
    rng = np.random.default_rng(20)
    sound = 0
    for _ in range(600):
        p = drawn_from_bands(family, rng)
        if not side_holds(p):
            continue
        path = outline.side(p)
        polygon = polygon_of(path, 1e-3)
        assert polygon.is_valid, (shapely.is_valid_reason(polygon), p.values)
        assert path.area > 0
        assert len([s for s in path.segments if s.bulge < 0]) == 2, p.values
        assert len([turn for _, turn in path.kinks() if abs(turn) > 1e-6]) == 6, p.values
        sound += 1
        if sound == 24:
            break
    assert sound == 24


@pytest.mark.parametrize(
    "changes",
    [
        {"frog.throat_centre_height": 6.0},  # below the ferrule's top
        {"frog.throat_centre_height": 16.2},  # no room under the thumb projection
        {"frog.thumb_slope_deg": 30.0},  # the thumb's line falls below the deepest place
        {"frog.length_top": 29.0},  # the projection ends above the throat
    ],
)
def test_reports_a_throat_that_does_not_fit(changes):
    p = pattern("violin").with_many(changes)
    assert not side_holds(p)
    with pytest.raises(GeometryError, match="throat does not fit"):
        outline.side(p)


def test_only_the_tongue_reaches_into_the_ferrule():
    p = pattern("violin")
    shoulder, front, low, top = (float(n) for n in numbers(p))
    wood = polygon_of(outline.side(p), 1e-4)
    ahead = shapely.box(shoulder + 0.01, 0.0, front + 0.3, p.values["ferrule.height"] - 0.01)
    tongue = wood.intersection(ahead)
    assert tongue.bounds == pytest.approx((shoulder + 0.01, low, front, top), abs=1e-6)
    assert tongue.area == pytest.approx((front - shoulder - 0.01) * (top - low), abs=1e-6)
