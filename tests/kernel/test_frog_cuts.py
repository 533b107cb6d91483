"""Sections of the solids through several features, against outlines constructed here.

Each outline is worked out from the stated numbers by the words of the trade, with no line of the
parts' own code; the solid must show it, edge for edge, both ways.
"""

import math

import pytest
from kernel.bench import built, having, pattern
from scipy.optimize import brentq

from templates_gen.geometry import Pen, circle, polygon, rectangle
from templates_gen.tolerances import SECTION

pytestmark = pytest.mark.kernel

FACET = math.sqrt(2) - 1


def shows(stem, part, axis, at, *outlines):
    """Distance (mm) of the solid's section from these outlines."""
    from templates_gen.kernel import solids

    section = solids.Section(axis, at, [o.oriented() for o in outlines])
    return solids.section_error(solids.Built(built(stem, part).solid, [section]))


def flats(v, x):
    """Handle across flats at x from the butt."""
    thins = v["stick.across_flats_handle_end"] - v["stick.across_flats_butt"]
    return v["stick.across_flats_butt"] + thins * x / v["stick.handle_length"]


def octagon(a):
    half, side = a / 2, FACET * a / 2
    corners = [(side, -half), (half, -side), (half, side), (side, half)]
    return corners + [(-y, z) for y, z in corners[::-1]]


def flank(v):
    """Radius and height of the waist: a circle through band, waist and top edge, by bisection.

    R = (u² + p²) / 2p = (w² + q²) / 2q, u and w the heights from the waist to either end.
    """
    p = (v["frog.width_heel"] - v["frog.width_waist"]) / 2
    q = (v["frog.width_top"] - v["frog.width_waist"]) / 2
    low, high = v["frog.flank_band"], v["frog.overall_height"]

    def below(z):
        return ((z - low) ** 2 + p * p) / (2 * p)

    def above(z):
        return ((high - z) ** 2 + q * q) / (2 * q)

    waist = brentq(lambda z: below(z) - above(z), low, high, xtol=1e-13)
    return below(waist), waist


def seat(v, x):
    """Height and width of the land, and thickness and end of the lining, at x from the heel."""
    foremost = v["stick.mortise_from_butt"] + v["stick.mortise_length"] - v["eyelet.length"] / 2
    foremost -= v["eyelet.from_heel"]
    play = v["frog.front_at_play"] - v["frog.length_bottom"]
    tip = v["frog.length_top"]

    def land(at):
        return FACET * flats(v, foremost + at) - v["frog.land_relief"]

    axis = v["frog.clear_height"] + flats(v, play + v["eyelet.from_heel"]) / 2
    drop = (FACET * flats(v, play + tip) - land(tip)) / 2
    lining = v["underslide.thickness"] if v["underslide.kind"] == "lined" else 0.0
    level = axis - flats(v, play + x) / 2 - drop
    stop = (v["frog.width_top"] - land(x)) / 2 - lining * math.sqrt(0.5) - 0.6
    return level, land(x), lining, min(stop, v["frog.overall_height"] - level)


def trench(v, x):
    """From the right edge's top down to the land's right corner, in (y, z)."""
    level, land, lining, stop = seat(v, x)
    top = v["frog.overall_height"]
    rim = (land / 2 + top - level, top)
    if not lining:
        return [rim, (land / 2, level)]
    slope = lining * math.sqrt(0.5)
    edge = (land / 2 + stop, level + stop)
    outer = (edge[0] + slope, edge[1] - slope)
    return [rim, edge, outer, (land / 2 + lining * math.tan(math.pi / 8), level - lining)]


def eye_recess(v, x):
    """Lower rim, floor, upper rim: square to the flank at the eye's centre."""
    r = v["frog.eye_diameter"] / 2
    radius, waist = flank(v)
    throat = v["frog.length_bottom"] - v["ferrule.length"] - v["frog.throat_depth"]
    lining = v["underslide.thickness"] if v["underslide.kind"] == "lined" else 0.0
    at_x = throat / 2 + v["frog.eye_forward"]
    at_z = (v["frog.clear_height"] - lining) / 2 + v["frog.eye_up"]
    middle = v["frog.width_waist"] / 2 + radius
    up = math.asin((waist - at_z) / radius)
    # Distances from the hollow's centre: the floor is R + t away.
    deep = radius + v["frog.eye_thickness"]
    half = math.sqrt(r * r - (x - at_x) ** 2)
    rim = math.sqrt(radius**2 - half**2)

    def place(along, away):
        y = middle - away * math.cos(up) - along * math.sin(up)
        return (y, waist - away * math.sin(up) + along * math.cos(up))

    return [place(-half, rim), place(-half, deep), place(half, deep), place(half, rim)]


def frog_across(v, x):
    """Cross-section of the frog at x, behind the throat, between heel leg and mortise front."""
    floor, beta = v["slide.thickness"], math.radians(v["slide.dovetail_deg"])
    shoulder = v["frog.length_bottom"] - v["ferrule.length"]
    wall = v["frog.hair_mortise_width"] / 2
    narrows = v["slide.width_taper"] * (shoulder - x) / v["slide.length"]
    face = (v["slide.width_front"] + v["slide.channel_fit"] - narrows) / 2
    block = v["frog.width_heel"] / 2
    block += (v["ferrule.outer_width"] / 2 - block) * x / shoulder
    radius, waist = flank(v)
    centre = (v["frog.width_waist"] / 2 + radius, waist)
    foot = waist - math.sqrt(radius**2 - (centre[0] - block) ** 2)
    top = floor + v["frog.hair_mortise_depth"]
    bottom = [(wall, top), (wall, floor), (face + floor * math.tan(beta), floor), (face, 0.0)]
    bottom += [(block, 0.0), (block, foot)]
    rim = (v["frog.width_top"] / 2, v["frog.overall_height"])
    eye = eye_recess(v, x) if v["frog.eye_kind"] != "none" else []
    seat_ = trench(v, x)

    pen = Pen((-wall, top))
    for q in bottom:
        pen.line_to(*q)
    if eye:
        pen.arc_to(eye[0], centre, left=False)
        for q in eye[1:]:
            pen.line_to(*q)
    pen.arc_to(rim, centre, left=False)
    for y, z in [*seat_, *((-y, z) for y, z in seat_[::-1])]:
        pen.line_to(y, z)
    pen.line_to(-rim[0], rim[1])
    other = (-centre[0], centre[1])
    if eye:
        back = [(-y, z) for y, z in eye[::-1]]
        pen.arc_to(back[0], other, left=False)
        for q in back[1:]:
            pen.line_to(*q)
    pen.arc_to((-block, foot), other, left=False)
    for y, z in bottom[-2:0:-1]:
        pen.line_to(-y, z)
    return pen.close()


def through_all(v):
    """Two positions that cut mortise, channel, eye and seat: mid-eye, and beside it."""
    front = v["frog.hair_mortise_from_heel"] + v["frog.hair_mortise_length"]
    shank = v["eyelet.from_heel"] - v["eyelet.shank_diameter"] / 2
    throat = v["frog.length_bottom"] - v["ferrule.length"] - v["frog.throat_depth"]
    last = min(front, shank) - 0.2
    middle = min(throat / 2 + v["frog.eye_forward"], last)
    return (middle, middle - 0.4 * v["frog.eye_diameter"])


@pytest.mark.parametrize("stem", having("frog"))
def test_frog_through_mortise_channel_eye_and_seat(stem):
    v = pattern(stem).values
    rear = max(v["frog.hair_mortise_from_heel"], v["heel.leg_length"])
    for x in through_all(v):
        at = max(x, rear + 0.3)
        drawn = frog_across(v, at)
        assert len(drawn.vertices) >= 16 + (8 if v["frog.eye_kind"] != "none" else 0)
        assert shows(stem, "frog", "x", at, drawn) <= SECTION


def test_section_check_notices_wrong_dimensions():
    """The same outline with the eye deeper or the mortise wider by 0.02 mm."""
    v = dict(pattern("violin").values)
    x = through_all(v)[0]
    for key in ("frog.eye_thickness", "frog.hair_mortise_width", "frog.land_relief"):
        wrong = frog_across({**v, key: v[key] + 0.02}, x)
        assert shows("violin", "frog", "x", x, wrong) > 0.005


@pytest.mark.parametrize("stem", having("stick"))
def test_stick_through_its_slot_and_its_facets(stem):
    """If the mouth is wider than the facet, the cheeks end on the diagonal facets."""
    v = pattern(stem).values
    x = v["stick.mortise_from_butt"] + 0.3 * v["stick.mortise_length"]
    a, half = flats(v, x), v["stick.mortise_width"] / 2
    # The roof is at the same depth below the facet at both ends; both are straight between.
    roof, mouth = -a / 2 + v["stick.mortise_depth"], -a / 2 + max(0.0, half - FACET * a / 2)
    body = [q for q in octagon(a) if q[1] > -a / 2 + 1e-9 or FACET * a / 2 > half]
    ring = [*body, (-half, mouth), (-half, roof), (half, roof), (half, mouth)]
    assert half < a / 2
    assert shows(stem, "stick", "x", x, polygon(ring)) <= SECTION


@pytest.mark.parametrize("stem", having("underslide"))
def test_lining_through_the_shanks_hole(stem):
    v = pattern(stem).values
    x = v["eyelet.from_heel"] + 0.2
    level, land, t, stop = seat(v, x)
    hole = math.sqrt(((v["eyelet.shank_diameter"] + 0.3) / 2) ** 2 - 0.2**2)
    _, edge, outer, bend = trench(v, x)
    right = [(hole, level - t), bend, outer, edge, (land / 2, level), (hole, level)]
    assert hole < land / 2 and stop > 0
    left = polygon([(-y, z) for y, z in right])
    assert shows(stem, "underslide", "x", x, polygon(right), left) <= SECTION


@pytest.mark.parametrize("stem", having("eyelet"))
def test_eyelet_through_bore_body_and_shank(stem):
    v = pattern(stem).values
    x, (level, land, lining, _) = v["eyelet.from_heel"], seat(v, v["eyelet.from_heel"])
    half, shank = v["eyelet.width"] / 2, v["eyelet.shank_diameter"] / 2
    play = v["frog.front_at_play"] - v["frog.length_bottom"] + x
    axis = v["frog.clear_height"] + flats(v, play) / 2
    # Clear of the seat's sides at the body's ends, where the seat is highest.
    ends = [seat(v, x + way * v["eyelet.length"] / 2) for way in (-1, 1)]
    foot = max(z + max(0.0, half - w / 2) for z, w, *_ in ends)
    low, top = level - lining - v["eyelet.shank_length"], axis + v["eyelet.height_above_axis"]
    corners = [(shank, low), (shank, foot), (half, foot), (half, top)]
    body = polygon([*corners, *((-y, z) for y, z in corners[::-1])])
    bore = circle((0.0, axis), (v["screw.diameter"] + 0.2) / 2)
    assert land > 0
    assert shows(stem, "eyelet", "x", x, body, bore) <= SECTION


@pytest.mark.parametrize("stem", having("screw"))
def test_screw_along_its_axis(stem):
    v = pattern(stem).values
    thick, thin = v["screw.diameter"] / 2, (v["stick.front_bore"] - 0.1) / 2
    end, tip = v["screw.thread_end"], v["screw.length"]
    up = [(0.0, thick), (end, thick), (end, thin), (tip, thin)]
    outline = polygon([*up, *((x, -z) for x, z in up[::-1])])
    assert shows(stem, "screw", "y", 0.0, outline) <= SECTION


@pytest.mark.parametrize("stem", having("ferrule"))
def test_ferrule_on_its_mid_plane_is_arch_and_plate(stem):
    """Along the bow: the crown's wall above, the plate below, of the stated length."""
    v = pattern(stem).values
    plate, long = v["ferrule.plate_thickness"], v["ferrule.length"]
    crown, wall = v["ferrule.height"] - plate, v["ferrule.arch_thickness"]
    below = rectangle(-plate, 0.0, 0.0, long)
    above = rectangle(crown - wall, 0.0, crown, long)
    # Its frame has the bow's length along z.
    assert shows(stem, "ferrule", "x", 0.0, below, above) <= SECTION


@pytest.mark.parametrize("stem", having("heel"))
def test_heel_plate_is_a_bent_sheet(stem):
    """Leg, bend and rear leg: two offset lines at the sheet's thickness about one centre."""
    v = pattern(stem).values
    t, r = v["heel.plate_thickness"], v["heel.bottom_radius"]
    lean = math.radians(v["heel.lean_deg"])
    along, inward = (math.sin(lean), math.cos(lean)), (math.cos(lean), -math.sin(lean))
    back = r * math.tan((math.pi / 2 + lean) / 2)

    # The bend is rearmost, so its centre is r ahead of x = 0.
    def at(u, w):
        return (r - back + u * along[0] + w * inward[0], u * along[1] + w * inward[1])

    leg, up, centre = v["heel.leg_length"], v["heel.rear_leg"], (r, r)
    pen = Pen((r, 0.0)).line_to(leg, 0.0).line_to(leg, t).line_to(r, t)
    if r - t > 1e-6:
        pen.arc_to(at(back, t), centre, left=False)
    pen.line_to(*at(up, t)).line_to(*at(up, 0.0)).line_to(*at(back, 0.0))
    outline = pen.arc_to((r, 0.0), centre, left=True).close()
    assert outline.box[0] == pytest.approx(0.0, abs=1e-9)
    assert shows(stem, "heel", "y", 0.0, outline) <= SECTION


@pytest.mark.parametrize("stem", having("slide"))
def test_slide_across_near_both_ends(stem):
    """Narrower toward the heel by its taper, wider at the floor by twice t tan β."""
    v = pattern(stem).values
    t, long = v["slide.thickness"], v["slide.length"]
    over = t * math.tan(math.radians(v["slide.dovetail_deg"]))
    for x in (0.05, long - 0.05):
        half = (v["slide.width_front"] - v["slide.width_taper"] * x / long) / 2
        outline = polygon([(-half, 0.0), (half, 0.0), (half + over, t), (-half - over, t)])
        assert shows(stem, "slide", "x", x, outline) <= SECTION
