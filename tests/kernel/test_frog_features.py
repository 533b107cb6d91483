"""Radii, widths, tapers and walls of the frog's solid against the parameters."""

import math

import numpy as np
import pytest
from kernel.bench import BUILDERS, built, having, pattern
from kernel.test_frog_cuts import flank

from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

pytestmark = pytest.mark.kernel

CLOSE = 1e-6
every_frog = pytest.mark.parametrize("stem", having("frog"))


def numbers(stem):
    v = pattern(stem).values
    return v, v["frog.length_bottom"] - v["ferrule.length"]


def wood(stem, start, end):
    """Intervals (mm from its start) in which a straight line runs through the frog."""
    return wood_of(built(stem, "frog").solid, start, end)


def wood_of(solid, start, end):
    """Intervals in which a straight line runs through a solid."""
    from templates_gen.kernel import solids

    cq = solids.cq
    a, b = cq.Vector(*start), cq.Vector(*end)
    way = (b - a).normalized()
    met = solid.intersect(cq.Edge.makeLine(a, b)).Edges()
    ends = [sorted((e.positionAt(t) - a).dot(way) for t in (0, 1)) for e in met]
    return sorted((float(low), float(high)) for low, high in ends)


def half_width(stem, x, z):
    """Half the frog's width where the line finally leaves it."""
    return wood(stem, (x, 0.0, z), (x, 40.0, z))[-1][1]


def face(stem, place):
    """The frog's face through a point."""
    return face_of(built(stem, "frog").solid, place)


def face_of(solid, place):
    """A solid's face through a point."""
    from templates_gen.kernel import solids

    vertex = solids.cq.Vertex.makeVertex(*(float(c) for c in place))
    nearest = min(solid.Faces(), key=lambda f: f.distance(vertex))
    assert nearest.distance(vertex) < CLOSE
    return nearest


def at_ends(measured, start, end):
    """Extrapolate a linear quantity, measured twice inside, to both ends."""
    a, b = start + 0.2 * (end - start), start + 0.7 * (end - start)
    slope = (measured(b) - measured(a)) / (b - a)
    return measured(a) + slope * (start - a), measured(a) + slope * (end - a)


def behind_eye(v):
    """x where the flank is uncut: ahead of the heel plate, clear of the eye's recess."""
    throat = v["frog.length_bottom"] - v["ferrule.length"] - v["frog.throat_depth"]
    return (v["heel.leg_length"] + throat / 2 - v["frog.eye_diameter"] / 2) / 2


# --- flank -----------------------------------------------------------------------------------


@every_frog
def test_waist_and_radius_of_the_hollow(stem):
    """Three lines across the hollow give its circle: width at the waist and radius.

    Source: the circle through three points, R = abc / 4A (any handbook).
    """
    v, _ = numbers(stem)
    radius, waist = flank(v)
    x = v["heel.leg_length"] + 0.2
    heights = (waist - 0.3 * (waist - v["frog.flank_band"]), waist, v["frog.overall_height"] - 0.5)
    if v["frog.eye_kind"] != "none":
        x = min(x, behind_eye(v))
    places = [(half_width(stem, x, z), z) for z in heights]
    assert 2 * places[1][0] == pytest.approx(v["frog.width_waist"], abs=CLOSE)
    a, b, c = (math.dist(places[i], places[j]) for i, j in ((0, 1), (1, 2), (0, 2)))
    (y0, z0), (y1, z1), (y2, z2) = places
    area = abs((y1 - y0) * (z2 - z0) - (y2 - y0) * (z1 - z0)) / 2
    # A nanometre in a sagitta of half a millimetre.
    assert a * b * c / (4 * area) == pytest.approx(radius, rel=1e-5)
    from templates_gen.kernel import solids

    arcs = [e for e in solids.section_edges(built(stem, "frog").solid, "x", x) if is_arc(e)]
    assert [e.radius() for e in arcs] == pytest.approx([radius] * len(arcs), abs=CLOSE)
    assert [e.arcCenter().z for e in arcs] == pytest.approx([waist] * len(arcs), abs=CLOSE)
    assert len(arcs) >= 2


def is_arc(edge):
    return edge.geomType() == "CIRCLE"


@every_frog
def test_block_tapers_from_heel_to_ferrule(stem):
    v, shoulder = numbers(stem)

    def width(x):
        return 2 * half_width(stem, x, 1e-3)

    leg = v["heel.leg_length"]
    a, b = leg + 0.5, shoulder - v["frog.throat_depth"] - 1.0
    slope = (width(b) - width(a)) / (b - a)
    assert width(a) - slope * a == pytest.approx(v["frog.width_heel"], abs=CLOSE)
    assert width(a) + slope * (shoulder - a) == pytest.approx(v["ferrule.outer_width"], abs=CLOSE)


# --- channel and lip -------------------------------------------------------------------------


@every_frog
def test_channel_is_the_slides_dovetail_at_both_ends(stem):
    """At the face and at the floor, at the ferrule and at the heel; its flanks' angle from both."""
    v, shoulder = numbers(stem)
    deep, rear = v["slide.thickness"], shoulder - v["slide.length"]
    # The heel plate may overlap the channel's end and cut its face there.
    start = max(rear, v["heel.leg_length"] if v["heel.kind"] != "none" else rear) + 1e-3

    def width(z):
        return lambda x: 2 * wood(stem, (x, 0.0, z), (x, 40.0, z))[-1][0]

    low, high = 0.1 * deep, 0.9 * deep
    found = [at_ends(width(z), start, shoulder) for z in (low, high)]
    slope = [(upper - lower) / (high - low) for lower, upper in zip(*found, strict=True)]
    face_ = [lower - s * low for lower, s in zip(found[0], slope, strict=True)]
    floor = [lower + s * (deep - low) for lower, s in zip(found[0], slope, strict=True)]
    wide = v["slide.width_front"] + v["slide.channel_fit"]
    narrow = wide - v["slide.width_taper"] * (shoulder - start) / v["slide.length"]
    over = 2 * deep * math.tan(math.radians(v["slide.dovetail_deg"]))
    assert face_ == pytest.approx([narrow, wide], abs=CLOSE)
    assert floor == pytest.approx([narrow + over, wide + over], abs=CLOSE)
    angles = [math.degrees(math.atan(s / 2)) for s in slope]
    assert angles == pytest.approx([v["slide.dovetail_deg"]] * 2, abs=1e-4)


@every_frog
def test_lip_rises_from_the_channels_floor_to_the_tongues_step(stem):
    """A straight ramp, tangent to a rounding of the stated radius at the mortise's front wall."""
    v, shoulder = numbers(stem)
    front = v["frog.hair_mortise_from_heel"] + v["frog.hair_mortise_length"]
    hair = v["hair.count"] * math.pi / 4 * 0.2**2 / 0.75 / v["hair.ribbon_width_frog"]
    step = v["ferrule.plate_thickness"] + hair + v["ferrule.wedge_thickness"]
    floor, r = v["slide.thickness"], v["frog.lip_radius"]
    slope = (step - floor) / (shoulder - front)

    def under(x):
        return wood(stem, (x, 0.0, -1.0), (x, 0.0, v["ferrule.height"]))[0][0] - 1.0

    for x in np.linspace(front + 1.5 * r, shoulder - 0.1, 4):
        assert under(x) == pytest.approx(floor + slope * (x - front), abs=CLOSE)
    # The centre of the rounding is r from the wall and r from the ramp.
    centre = floor + slope * r + r * math.hypot(1.0, slope)
    for share in (0.1, 0.5, 0.8):
        expected = centre - math.sqrt(r**2 - (r - share * r) ** 2)
        assert under(front + share * r) == pytest.approx(expected, abs=CLOSE)


# --- tongue and shoulder ---------------------------------------------------------------------


@every_frog
def test_tongue_narrows_toward_its_front_by_its_taper(stem):
    """On both sides together by the stated taper over the ferrule's length, none in height."""
    v, shoulder = numbers(stem)
    d = pattern(stem).derive(FrogDims)
    foot = float(d.tongue_bottom) + 1e-3
    a, b = shoulder + 0.2, shoulder + v["ferrule.length"] - 0.5
    narrows = 2 * (half_width(stem, a, foot) - half_width(stem, b, foot))
    expected = v["ferrule.tongue_taper"] * (b - a) / v["ferrule.length"]
    assert narrows == pytest.approx(expected, abs=CLOSE)
    top = v["ferrule.height"] - v["ferrule.arch_thickness"] - v["ferrule.tongue_fit"] / 2
    for x in (a, b):
        (span,) = wood(stem, (x, 0.0, 0.0), (x, 0.0, v["ferrule.height"]))
        assert span == pytest.approx((float(d.tongue_bottom), top), abs=CLOSE)
    # It ends 0.3 behind the ferrule's front.
    end = v["frog.length_bottom"] - 0.3
    level = (foot + top) / 2
    assert wood(stem, (end - 1, 0.0, level), (end + 5, 0.0, level))[-1][1] == pytest.approx(1.0)


@every_frog
def test_ebony_at_the_shoulder_is_the_ferrules_outside(stem):
    """Common practice, no source: within 0.05 mm, so that the two are filed as one."""
    v, shoulder = numbers(stem)
    ring = max(built(stem, "ferrule").sections[0].outlines, key=lambda o: abs(o.area))
    outside = ring.moved(0.0, v["ferrule.plate_thickness"])
    high = v["ferrule.height"]

    def off(x):
        sides = [(half_width(stem, x, z), z) for z in np.linspace(0.05, 0.9, 7) * high]
        level = high - v["ferrule.arch_thickness"]
        crown = [
            (y, level + wood(stem, (x, y, level), (x, y, level + 3.0))[0][1])
            for y in np.linspace(-0.2, 0.2, 5) * v["ferrule.outer_width"]
        ]
        return max(outside.distance((float(y), float(z))) for y, z in sides + crown)

    assert off(shoulder - 0.03) <= 0.05
    # Farther back, in the cone, it is visibly larger, so the test can fail.
    assert off(shoulder - 0.5) > 0.05


# --- walls -----------------------------------------------------------------------------------


@every_frog
def test_walls_round_the_mortise_on_the_solid(stem):
    """To the shoulder, to the shank, to the flank, beside the dovetail, and below the seat."""
    v, shoulder = numbers(stem)
    d = pattern(stem).derive(FrogDims)
    rear = v["frog.hair_mortise_from_heel"]
    front, top = rear + v["frog.hair_mortise_length"], float(d.mortise_top)
    crown = (float(d.tongue_top) + v["ferrule.height"]) / 2
    ahead = face(stem, (front, 0.3, top - 0.5))
    assert ahead.distance(face(stem, (shoulder, 0.0, crown))) == pytest.approx(
        shoulder - front, abs=CLOSE
    )
    # Horizontally, where the flank is nearest over the mortise's height.
    z = float(np.clip(flank(v)[1], v["slide.thickness"], top)) - 1e-6
    x = front - 0.05
    span = wood(stem, (x, 0.0, z), (x, 40.0, z))[-1]
    level = float(d.flank.half_width(z)) - v["frog.hair_mortise_width"] / 2
    assert span[1] - span[0] == pytest.approx(level, abs=CLOSE)
    # The shortest distance is a little less, as the flank leans.
    assert level - 0.1 < float(d.wall_to_flank) <= level

    def beside(x):
        z = v["slide.thickness"] - 1e-7
        low, high = wood(stem, (x, 0.0, z), (x, 40.0, z))[-1]
        return high - low

    channel = max(float(d.channel_rear), v["heel.leg_length"])
    throat = shoulder - v["frog.throat_depth"]
    at_rear = at_ends(beside, channel + 1e-3, throat - 1.0)[0]
    lost = (channel + 1e-3 - float(d.channel_rear)) * 0.05
    # Square to the tapering side it is a little less than straight across.
    widens = (v["ferrule.outer_width"] - v["frog.width_heel"]) / 2 / shoulder
    beside_it = float(pattern(stem).derive(FrogWalls).beside_dovetail)
    assert -0.01 < beside_it - at_rear / math.hypot(1.0, widens) <= CLOSE + lost

    def above(x):
        return wood(stem, (x, 1e-3, top - 0.5), (x, 1e-3, v["frog.overall_height"]))[0]

    shank = (v["eyelet.from_heel"] - v["eyelet.shank_diameter"] / 2) - 0.05
    ends = at_ends(lambda x: above(x)[1] - above(x)[0], rear + 0.05, min(front, shank))
    expected = [float(d.trench_floor(x)) - top for x in (rear + 0.05, min(front, shank))]
    assert ends == pytest.approx(expected, abs=CLOSE)


def test_eye_just_above_the_mortise_is_measured_across_the_corner():
    """Between the recess's floor and the mortise's wall on the solid: a thin web."""
    p = pattern("bass-french").with_many({"frog.hair_mortise_width": 11.6, "frog.eye_up": 4.5})
    frog = BUILDERS["frog"].build(BUILDERS["frog"].recipe(p)).solid
    d = p.derive(FrogDims)
    wall = (float(d.mortise_front) - 0.1, 5.8, float(d.mortise_top) - 0.5)
    floor = (float(d.eye[0]), *(float(c) for c in d.eye_floor))
    web = face_of(frog, wall).distance(face_of(frog, floor))
    assert web == pytest.approx(float(p.derive(FrogWalls).eye_to_mortise), abs=0.02)
