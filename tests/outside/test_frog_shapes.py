"""Compare the frog's drawn outlines with handbook geometry, by shapely and simple formulas."""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from outside.maker import FAMILIES, drawn, on, stated

#: Any standard handbook, regular octagon 1 across flats: area, one side.
OCTAGON_AREA, OCTAGON_SIDE = 0.8284271, 0.4142136


def cut(p, name, which=0):
    """One cut outline of a template: corners with their bulges, as read from its DXF file."""
    return on(drawn(p, name), "OUTLINE")[which].corners


def polygon(corners):
    """The outline with its arcs in small chords.

    Source: the DXF reference: a bulge is the tangent of a quarter of the arc's angle.
    """
    points = []
    for (a, bulge), (b, _) in zip(corners, corners[1:] + corners[:1], strict=True):
        points.append(a)
        if bulge:
            turn = 4 * math.atan(bulge)
            middle = (a + b) / 2 + 1j * (b - a) / 2 / math.tan(turn / 2)
            steps = np.linspace(0, turn, 400)[1:-1]
            points += [middle + (a - middle) * complex(math.cos(t), math.sin(t)) for t in steps]
    return shapely.Polygon([(q.real, q.imag) for q in points])


def arcs(corners):
    """Start, end, radius and centre of each arc.

    Source: any handbook: R = (c²/4 + s²) / 2s for a chord c and a sagitta s.
    """
    found = []
    for (a, bulge), (b, _) in zip(corners, corners[1:] + corners[:1], strict=True):
        if bulge:
            chord = abs(b - a)
            sagitta = bulge * chord / 2
            radius = (chord**2 / 4 + sagitta**2) / (2 * sagitta)
            middle = (a + b) / 2 + 1j * (b - a) / chord * (radius - sagitta)
            found.append((a, b, radius, middle))
    return found


# --- stick and seat --------------------------------------------------------------------------


@pytest.mark.parametrize("family", FAMILIES)
def test_butt_is_a_regular_octagon_by_area_and_side(family):
    """Source: any standard handbook: area 0.8284271 d², side 0.4142136 d."""
    p = stated(family)
    d = p.values["stick.across_flats_butt"]
    shape = polygon(cut(p, "stick-butt"))
    assert shape.area == pytest.approx(OCTAGON_AREA * d**2, rel=1e-6)
    assert shape.length == pytest.approx(8 * OCTAGON_SIDE * d, rel=1e-6)
    assert (shape.centroid.x, shape.centroid.y) == pytest.approx((0, 0), abs=1e-6)


def test_section_area_of_a_handle_of_8_6():
    """Source: handbook coefficients applied to 8.6 across flats: 61.270470 mm²."""
    p = stated("violin", {"stick.across_flats_butt": 8.6})
    assert polygon(cut(p, "stick-butt")).area == pytest.approx(61.270470, abs=2e-5)


def test_published_land_on_a_published_handle():
    """Source: a published German-language workshop series: land 3.3 on a handle of 8.2."""
    ends = ("stick.across_flats_butt", "stick.across_flats_handle_end")
    corners = [c for c, _ in cut(stated("violin", dict.fromkeys(ends, 8.2)), "frog-section-waist")]
    # The ebony's own land lies under the lining: wider by its mitres, sheet times tan 22.5° each.
    level = [
        abs(a - b)
        for a, b in pairwise(corners)
        if abs(a.imag - b.imag) < 1e-6 and a.real * b.real < 0 and a.imag > 15
    ]
    assert level[0] - 2 * 0.3 * math.tan(math.pi / 8) == pytest.approx(3.3, abs=0.02)


@pytest.mark.parametrize("family", FAMILIES)
def test_seat_gauge_turns_by_an_octagons_45_degrees(family):
    """Source: any handbook: a regular octagon's corners are 135°."""
    points = [c for c, _ in cut(stated(family), "frog-seat-gauge")]
    sides = [b - a for a, b in zip(points, points[1:] + points[:1], strict=True)]
    up = [abs(math.degrees(math.atan2(s.imag, s.real))) for s in sides]
    assert sorted(up)[:2] == pytest.approx([0.0, 45.0], abs=1e-4)
    assert sum(abs(u - 45) < 1e-4 or abs(u - 135) < 1e-4 for u in up) == 2


# --- flank -----------------------------------------------------------------------------------


@pytest.mark.parametrize("family", FAMILIES)
def test_flank_is_one_arc_through_band_waist_and_top(family):
    """Source: any handbook: the circle through three points, R = abc / 4A."""
    p = stated(family)
    v = p.values
    ((_, _, radius, middle),) = arcs(cut(p, "frog-flank-gauge"))
    band = complex(v["frog.width_heel"] / 2, v["frog.flank_band"])
    top = complex(v["frog.width_top"] / 2, v["frog.overall_height"])
    waist = complex(v["frog.width_waist"] / 2, middle.imag)
    a, b, c = abs(band - waist), abs(waist - top), abs(top - band)
    area = abs(((waist - band).conjugate() * (top - band)).imag) / 2
    assert radius == pytest.approx(a * b * c / (4 * area), rel=1e-5)
    # The waist is its nearest place to the middle of the frog.
    assert middle.real - radius == pytest.approx(waist.real, abs=1e-5)
    assert band.imag < middle.imag < top.imag


# --- throat ----------------------------------------------------------------------------------


@pytest.mark.parametrize("family", FAMILIES)
def test_throats_arcs_by_the_handbooks_arc_and_chord(family):
    """Source: any handbook: R = (c²/4 + s²)/2s; for half the chord e and the depth d, the same."""
    p = stated(family)
    v = p.values
    lower, upper = [a for a in arcs(cut(p, "frog-side")) if a[2] < 0]
    depth = v["frog.throat_depth"]
    half = v["frog.throat_centre_height"] - v["frog.throat_straight"] / 2 - v["ferrule.height"]
    assert -lower[2] == pytest.approx((depth**2 + half**2) / (2 * depth), rel=1e-5)
    # Both stand upright at the deepest place: their middles are level with it.
    deepest = v["frog.length_bottom"] - v["ferrule.length"] - depth
    assert lower[1].real == upper[0].real == pytest.approx(deepest, abs=1e-6)
    assert (lower[3].imag, upper[3].imag) == pytest.approx((lower[1].imag, upper[0].imag), abs=1e-5)


@pytest.mark.parametrize("family", FAMILIES)
def test_throat_meets_the_thumbs_line_as_a_tangent(family):
    """Source: any handbook: a tangent is square to the radius at the point it touches."""
    p = stated(family)
    corners = cut(p, "frog-side")
    upper = [a for a in arcs(corners) if a[2] < 0][1]
    after = corners[[c for c, _ in corners].index(upper[1]) + 1][0]
    line, radius = after - upper[1], upper[1] - upper[3]
    assert (line * radius.conjugate()).real == pytest.approx(0.0, abs=1e-4)
    slope = math.degrees(math.atan2(line.imag, line.real))
    assert slope == pytest.approx(p.values["frog.thumb_slope_deg"], abs=1e-4)


# --- areas and middles -----------------------------------------------------------------------


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_slide_is_a_trapezium_by_area_and_centroid(family):
    """Source: any handbook: A = (a + b) h / 2, centroid h (a + 2b) / 3 (a + b) from side a."""
    p = stated(family)
    v = p.values
    a, h = v["slide.width_front"], v["slide.length"]
    b = a - v["slide.width_taper"]
    shape = polygon(cut(p, "slide-outline"))
    assert shape.area == pytest.approx((a + b) * h / 2, rel=1e-7)
    assert shape.centroid.x == pytest.approx(h * (a + 2 * b) / (3 * (a + b)), rel=1e-7)
    assert shape.centroid.y == pytest.approx(0.0, abs=1e-7)


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_dovetail_widens_by_twice_its_depth_times_the_tangent(family):
    """Source: any handbook of machine work: over a dovetail of depth h, 2 h tan β."""
    p = stated(family)
    v = p.values
    for which, narrower in ((0, 0.0), (1, v["slide.width_taper"])):
        left, low, right, high = polygon(cut(p, "slide-dovetail", which)).bounds
        face = v["slide.width_front"] - narrower
        over = 2 * v["slide.thickness"] * math.tan(math.radians(v["slide.dovetail_deg"]))
        assert (right - left, high - low) == pytest.approx(
            (face + over, v["slide.thickness"]), abs=2e-6
        )


@pytest.mark.parametrize("family", FAMILIES)
def test_area_of_the_side_is_the_sum_of_its_pieces(family):
    """The polygon of its corners, and a circle's segment added or taken away at each arc.

    Source: any handbook: a segment of a circle is r² (φ − sin φ) / 2; an upright heel's roundings
    are quarter circles, chord √2 r.
    """
    p = stated(family, {"heel.lean_deg": 0.0})
    corners = cut(p, "frog-side")
    straight = shapely.Polygon([(c.real, c.imag) for c, _ in corners]).area
    lobes = 0.0
    for a, b, radius, _ in arcs(corners):
        phi = 2 * math.asin(abs(b - a) / 2 / abs(radius))
        lobes += math.copysign(radius**2 * (phi - math.sin(phi)) / 2, radius)
    assert polygon(corners).area == pytest.approx(straight + lobes, rel=1e-6)
    square = [abs(r) for a, b, r, _ in arcs(corners) if abs(abs(b - a) - math.sqrt(2) * r) < 1e-5]
    assert {round(r, 3) for r in square} >= {
        round(p.values[k], 3) for k in ("heel.bottom_radius", "heel.top_radius")
    }
