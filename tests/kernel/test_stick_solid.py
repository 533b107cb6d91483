"""The stick's solid: its sections by the handbook, its volume by sums, where it ends.

Source of the coefficients: any standard handbook (Roark, Machinery's Handbook), re-derived: octagon
across flats d, 0.8284271 d² and 0.05473785 d⁴; circle π/4 and π/64. The D is put together below
from the same handbooks' half disc, rectangle and trapezoid.
"""

import math
from functools import cache

import pytest
from kernel.bench import BUILDERS, FILES, PARAMS, built, pattern

from templates_gen.bow.dims import frames
from templates_gen.mechanics.assembly import STICK
from templates_gen.parameters.rewrite import set_values
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.pipeline import rendering

pytestmark = pytest.mark.kernel
OCTAGON = (0.8284271, 0.05473785)
ROUND = (math.pi / 4, math.pi / 64)


def put_together(*shapes):
    """Combine shapes (area, height, own moment): area, centroid height and second moment.

    Source: the parallel axis theorem (any handbook).
    """
    area = sum(a for a, _, _ in shapes)
    middle = sum(a * z for a, z, _ in shapes) / area
    return area, middle, sum(i + a * (z - middle) ** 2 for a, z, i in shapes)


def d_shape():
    """A D-section of width 1: half disc, rectangle between the vertical facets, trapezoid below.

    Source: any handbook (Roark, Machinery's Handbook). Half disc π r² / 2, 4 r / 3π up, and
    0.109757 r⁴; trapezoid (a + b) h / 2, h (a + 2 b) / 3 (a + b) from a, and
    h³ (a² + 4 a b + b²) / 36 (a + b).
    """
    facet = math.sqrt(2) - 1
    high, a, b = (1 - facet) / 2, 1.0, facet
    half_disc = (math.pi / 8, 2 / (3 * math.pi), (math.pi / 8 - 8 / (9 * math.pi)) / 16)
    assert half_disc[2] * 16 == pytest.approx(0.109757, abs=5e-7)
    uprights = (facet / 2, -facet / 4, (facet / 2) ** 3 / 12)
    low = -facet / 2 - high * (a + 2 * b) / (3 * (a + b))
    below = ((a + b) * high / 2, low, high**3 * (a * a + 4 * a * b + b * b) / (36 * (a + b)))
    return put_together(half_disc, uprights, below)


D_AREA, D_MIDDLE, D_MOMENT = d_shape()
D_SECTION = (D_AREA, D_MOMENT)
KINDS = {"round": ROUND, "octagon": OCTAGON, "d-section": D_SECTION}


@cache
def stick(kind):
    """A violin's stick with a given section, from a file."""
    return made("violin", kind, "stick")


@cache
def made(stem, kind, part):
    """A bow with a given stick section, from a file, and one of its solids."""
    text = set_values((PARAMS / f"{stem}.toml").read_text("utf-8"), {"stick.section": kind})
    p = _read(text)
    return p, BUILDERS[part].build(BUILDERS[part].recipe(p)).solid


def _read(text):
    import tempfile
    from pathlib import Path

    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "dunlin.toml"
        file.write_text(text, "utf-8")
        return rendering.read(str(file))


def section(solid, x):
    """Area, centroid height, and second moment about the horizontal line through the centroid."""
    return square_to(solid, (x, 0.0, 0.0), (1.0, 0.0, 0.0))


def square_to(solid, place, way):
    """The same of a solid's section by a plane through a point, square to a direction."""
    import cadquery as cq
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    plane = cq.Face.makePlane(50, 50, basePnt=cq.Vector(*place), dir=cq.Vector(*way))
    (face,) = solid.intersect(plane).Faces()
    sums = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face.wrapped, sums, 1e-10)
    centre = sums.CentreOfMass()
    # About the centroid; the plane's axis along y is the horizontal one.
    return sums.Mass(), centre.Z(), sums.MatrixOfInertia().Value(2, 2)


@pytest.mark.parametrize("piece", [0, 6, 12, 18, 23])
@pytest.mark.parametrize("kind", KINDS)
def test_section_by_handbook(kind, piece):
    """At a joint of its 24 pieces, ahead of the blend, by its diameter there."""
    p, solid = stick(kind)
    d = p.derive(StickDims)
    *_, start = blend(p)
    # The first position is a little ahead of the blend, where the section changes.
    x = start + (piece or 1e-4) / 24 * (float(d.face_rear) - 60.0 - start)
    a = float(d.diameter(x))
    area, middle, moment = section(solid, x)
    per_area, per_moment = KINDS[kind]
    assert area == pytest.approx(per_area * a**2, rel=1e-6)
    assert moment == pytest.approx(per_moment * a**4, rel=1e-6)
    assert middle == pytest.approx(D_MIDDLE * a if kind == "d-section" else 0.0, abs=1e-6 * a)


def test_d_section_is_half_a_circle_on_half_an_octagon():
    """Half the octagon's 0.8284271 and half the circle's 0.7853982; moments by parallel axes."""
    p, solid = stick("d-section")
    x = 300.0
    area, middle, moment = section(solid, x)
    _, _, round_moment = section(stick("round")[1], x)
    round_area, _, _ = section(stick("round")[1], x)
    eight_area, _, eight_moment = section(stick("octagon")[1], x)
    assert area == pytest.approx((round_area + eight_area) / 2, rel=1e-6)
    about_mid_height = (round_moment + eight_moment) / 2
    assert moment == pytest.approx(about_mid_height - area * middle**2, rel=1e-6)
    assert p.values["stick.section"] == "d-section"


def test_handle_is_an_octagon_by_handbook():
    """Behind the mortise, less the bore in the centre."""
    p, solid = stick("round")
    v, x = p.values, 8.0
    a, bore = float(p.derive(StickDims).diameter(x)), v["stick.rear_bore"]
    area, middle, moment = section(solid, x)
    assert area == pytest.approx(OCTAGON[0] * a**2 - ROUND[0] * bore**2, rel=1e-6)
    assert moment == pytest.approx(OCTAGON[1] * a**4 - ROUND[1] * bore**4, rel=1e-6)
    assert middle == pytest.approx(0.0, abs=1e-9)


# --- the blend ---------------------------------------------------------------------------------


def blend(p):
    """Start, middle and end of the blend, which is built in two pieces."""
    v = p.values
    start, long = v["stick.handle_length"], v["stick.blend_length"]
    return start, start + long / 2, start + long


def octagon_in_disc(flats, radius, corners=8):
    """Area of an octagon less some corners outside a disc about its centre.

    Each corner: two triangles less two sectors, between the flat's end and the corner (plane
    geometry).
    """
    h = flats / 2
    edge, turn = math.sqrt(radius**2 - h**2), math.acos(h / radius)
    corner = h * (h * math.tan(math.pi / 8) - edge) - radius**2 * (math.pi / 8 - turn)
    return OCTAGON_EXACT * flats**2 - corners * corner


OCTAGON_EXACT = 2 * math.sqrt(2) - 2  # the handbook's 0.8284271 to all digits
ROUNDED_CORNERS = {"round": 8, "octagon": 0, "d-section": 4}


def blend_area(kind, p, x):
    """The area at x: octagon and disc each change linearly between the pieces' ends."""
    d, places = p.derive(StickDims), blend(p)
    first = 0 if x < places[1] else 1
    ends = places[first : first + 2]
    share = (x - ends[0]) / (ends[1] - ends[0])
    out = [(at - places[0]) / (places[2] - places[0]) for at in ends]
    flats = [float(d.diameter(at)) for at in ends]
    corner = 1 / math.cos(math.pi / 8)
    discs = [a / 2 * (corner + (1 - corner) * o) for a, o in zip(flats, out, strict=True)]
    mix = [u + (w - u) * share for u, w in (flats, discs)]
    return octagon_in_disc(*mix, ROUNDED_CORNERS[kind])


def blend_volume(kind, p):
    from scipy.integrate import quad

    a, b, c = blend(p)
    return sum(
        quad(lambda x: blend_area(kind, p, x), *ends, epsrel=1e-11)[0] for ends in ((a, b), (b, c))
    )


@pytest.mark.parametrize("share", [0.02, 0.3, 0.5, 0.8, 0.98])
@pytest.mark.parametrize("kind", KINDS)
def test_octagon_fades_over_the_blend(kind, share):
    """From octagon to the section ahead without a step: a disc trims the corners gradually."""
    p, solid = stick(kind)
    start, _, end = blend(p)
    x = start + share * (end - start)
    area, _, _ = section(solid, x)
    assert area == pytest.approx(blend_area(kind, p, x), rel=1e-6)


@pytest.mark.parametrize("kind", KINDS)
def test_blend_starts_and_ends_without_a_step(kind):
    """A hundredth before and after each end the areas differ only by the taper."""
    p, solid = stick(kind)
    start, _, end = blend(p)
    for at, coefficient in ((start, OCTAGON[0]), (end, KINDS[kind][0])):
        before, after = (section(solid, at + way * 0.01)[0] for way in (-1, 1))
        assert after == pytest.approx(before, rel=2e-4)
        thick = float(p.derive(StickDims).diameter(at))
        assert (before + after) / 2 == pytest.approx(coefficient * thick**2, rel=2e-4)


def frustums(kind, p):
    """Ahead of the blend: 24 frustums, h/3 (A + √(A B) + B) each (any handbook)."""
    d = p.derive(StickDims)
    start, end = blend(p)[2], float(d.face_rear) - 60.0
    step = (end - start) / 24
    total = 0.0
    for i in range(24):
        a, b = (float(d.diameter(start + (i + j) * step)) for j in (0, 1))
        total += step / 3 * (a * a + a * b + b * b)
    return KINDS[kind][0] * total


def handle_volume(p):
    """An octagonal frustum and the nipple less bores and mortise (the slot within the facet's
    45° flanks, see the sum below)."""
    v = p.values
    a, b, long = (
        v["stick.across_flats_butt"], v["stick.across_flats_handle_end"], v["stick.handle_length"]
    )  # fmt: skip
    whole = OCTAGON[0] * long / 3 * (a * a + a * b + b * b)
    nipple = ROUND[0] * v["stick.nipple_diameter"] ** 2 * v["stick.nipple_length"]
    start, slot = v["stick.mortise_from_butt"], v["stick.mortise_length"]
    bores = ROUND[0] * v["stick.rear_bore"] ** 2 * (v["stick.nipple_length"] + start)
    bores += ROUND[0] * v["stick.front_bore"] ** 2 * v["screw.bearing_depth"]
    # A mouth wider than the facet loses a 45° triangle on each side.
    beyond = max(0.0, v["stick.mortise_width"] - (math.sqrt(2) - 1) * a)
    mouth = v["stick.mortise_width"] * v["stick.mortise_depth"] - (beyond / 2) ** 2
    assert a == b
    return whole + nipple - bores - mouth * slot


@pytest.mark.parametrize("kind", KINDS)
def test_volume_of_the_stick_is_handle_and_frustums(kind):
    p, solid = stick(kind)
    expected = handle_volume(p) + blend_volume(kind, p) + frustums(kind, p)
    assert solid.Volume(1e-9) == pytest.approx(expected, rel=1e-6)


def test_stick_of_frustums_is_slightly_smaller_than_the_smooth_one():
    """The published rule's curve is concave from above: frustums are slightly inside it."""
    from scipy.integrate import quad

    p, _ = stick("round")
    d = p.derive(StickDims)
    start, end = blend(p)[2], float(d.face_rear) - 60.0
    smooth = quad(lambda x: math.pi / 4 * float(d.diameter(x)) ** 2, start, end)[0]
    assert 0 < smooth - frustums("round", p) < 2e-4 * smooth


@pytest.mark.parametrize("stem", FILES)
def test_head_starts_where_the_stick_ends(stem):
    """The head is entirely ahead of the stick's front end, so the two cannot overlap."""
    from templates_gen.kernel import assembly

    there = frames.of_group(pattern(stem), STICK)["head"]
    head = assembly.placed(built(stem, "head").solid, there).BoundingBox(1e-9)
    stick_ = built(stem, "stick").solid.BoundingBox(1e-9)
    assert head.xmin == pytest.approx(stick_.xmax, abs=1e-5)
    assert head.xmin >= stick_.xmax - 1e-5


# --- the length of stick at the head -----------------------------------------------------------

SOME = [("violin", k) for k in KINDS] + [("bass-german", "octagon"), ("cello", "round")]


def on_the_stick(p, head):
    """The head's solid at its position on the stick."""
    from templates_gen.kernel import assembly

    return assembly.placed(head, frames.of_group(p, STICK)["head"])


@pytest.mark.parametrize("way", [0.25, 0.5, 0.75])
@pytest.mark.parametrize(("stem", "kind"), SOME)
def test_stick_at_the_head_has_bend_graduation_and_section(stem, kind, way):
    """Square to the bend, whose centre is above its end: the handbook's section.

    The camber's radius, told along the underside; the thickness there by the graduation.
    """
    p, head = made(stem, kind, "head")
    d = p.derive(StickDims)
    join = float(d.face_rear) - 60.0
    thick = float(d.diameter(join + 60.0 * way))
    # The underside's curvature between the last stations of the camber.
    radius = float(p.derive(HeadDims).camber_radius)
    turn, high = 60.0 * way / radius, radius - float(d.diameter(join)) / 2
    middle = (
        join + (radius - thick / 2) * math.sin(turn), 0.0,
        high - (radius - thick / 2) * math.cos(turn),
    )  # fmt: skip
    if way == 0.75 and middle[0] > join + 60.0 - 2 * p.values["head.back_radius"]:
        pytest.skip("within the rounding behind the head")
    solid = on_the_stick(p, head)
    area, _, moment = square_to(solid, middle, (math.cos(turn), 0.0, math.sin(turn)))
    per_area, per_moment = KINDS[kind]
    # At half way it is the graduation's; elsewhere the top is an arc through three of its points.
    rel = 5e-3 if way != 0.5 else 2e-6
    assert area == pytest.approx(per_area * thick**2, rel=rel)
    assert moment == pytest.approx(per_moment * thick**4, rel=2 * rel)


@pytest.mark.parametrize(("stem", "kind"), SOME)
def test_stick_and_head_join_without_a_step(stem, kind):
    """Both end faces coincide, square to the axis and of one size; fused they are one solid."""
    p, head = made(stem, kind, "head")
    _, solid = made(stem, kind, "stick")
    there = on_the_stick(p, head)
    end = max(solid.Faces(), key=lambda f: f.Center().x)
    start = min(there.Faces(), key=lambda f: f.Center().x)
    assert start.Area() == pytest.approx(end.Area(), rel=1e-6)
    assert start.Center().toTuple() == pytest.approx(end.Center().toTuple(), abs=1e-6)
    assert abs(start.normalAt().x) == pytest.approx(1.0, abs=1e-9)
    glued = solid.fuse(there)
    assert len(glued.Solids()) == 1
    assert glued.Volume(1e-9) == pytest.approx(solid.Volume(1e-9) + head.Volume(1e-9), rel=1e-6)


@pytest.mark.parametrize(("stem", "kind"), SOME)
def test_mass_of_stick_in_the_head_agrees_with_the_solid(stem, kind):
    """The piece of stick alone, by the kernel's integration."""
    from templates_gen.kernel import solids
    from templates_gen.parts.head.dims_volume import rod as carried

    p, _ = made(stem, kind, "head")
    r = BUILDERS["head"].recipe(p)
    told = carried(p)
    rod = solids.bent_prism(r.stick, r.centre, r.under)
    assert float(told.volume) == pytest.approx(rod.Volume(1e-9), rel=1e-6)
    middle = solids.centroid(rod)
    # The thickness of the slices along the bend is neglected: one or two thousandths.
    assert [float(v) for v in told.centre] == pytest.approx(middle, abs=0.005)
