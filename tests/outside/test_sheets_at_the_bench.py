"""Check from the drawn files that each template can be used as its sheet says.

How each is used (laid on, pushed along, looked through) is common practice, no source; the
numbers are those stated in the file.
"""

import math
from itertools import permutations, product

import numpy as np
import pytest
import shapely
from geometry_referee import polygon_of
from outside.maker import FAMILIES, drawn, on, stated
from outside.test_frog_shapes import cut, polygon
from shapely.affinity import rotate, translate

from templates_gen.drawing.sheet import Layer
from templates_gen.pipeline import rendering, selection

every_family = pytest.mark.parametrize("family", FAMILIES)
SAME = 2e-5


def outlines(p, name):
    return [polygon(e.corners) for e in on(drawn(p, name), "OUTLINE")]


def holes(p, name):
    return [
        (complex(e.number(10), e.number(20)), 2 * e.number(40)) for e in on(drawn(p, name), "DRILL")
    ]


def sheet(p, name):
    (made,) = rendering.sheets(rendering.check(p), only=(name,))
    return made


# --- cards to scribe by ----------------------------------------------------------------------


@every_family
def test_stick_mortise_card_starts_at_the_stick_end_before_turning_the_nipple(family):
    """The stick's end is the nipple's; positions in the handle count from the shoulder."""
    p = stated(family)
    v = p.values
    drawing = drawn(p, "stick-mortise-card")
    left = outlines(p, "stick-mortise-card")[0].bounds[0]
    (mortise,) = [e for e in on(drawing, "SCRIBE") if e.closed]
    rear = min(z.real for z, _ in mortise.corners)
    reach = v["stick.nipple_length"] + v["stick.mortise_from_butt"]
    assert rear - left == pytest.approx(reach, abs=SAME)
    across = [e.corners for e in on(drawing, "SCRIBE") if not e.closed]
    (shoulder,) = [a.real for (a, _), (b, _) in across if abs(a.real - b.real) < SAME]
    assert rear - shoulder == pytest.approx(v["stick.mortise_from_butt"], abs=SAME)


#: Cards, and what they mark: its length and both widths.
CARDS = {
    "stick-mortise-card": ("stick.mortise_length", *["stick.mortise_width"] * 2),
    "frog-mortise-card": ("frog.hair_mortise_length", *["frog.hair_mortise_width"] * 2),
    "head-mortise-card": ("head.mortise_length", "head.mortise_width", "head.mortise_width_front"),
}


@every_family
@pytest.mark.parametrize("name", CARDS)
def test_mortise_card_keeps_its_drill_centres(family, name):
    """No window: a window would take the centres within it. Corners and centres are pricked."""
    p = stated(family)
    long, rear, front = (p.values[key] for key in CARDS[name])
    assert not on(drawn(p, name), "POCKET")
    (card,), pricks = outlines(p, name), holes(p, name)
    corners = sorted((z for z, _ in pricks if abs(z.imag) > 0.1), key=lambda z: (z.real, z.imag))
    centres = sorted(z.real for z, _ in pricks if abs(z.imag) < 0.1)
    a, b, c, d = corners
    assert [(b - a).imag, (d - c).imag] == pytest.approx([rear, front], abs=SAME)
    assert [(c - a).real, (d - b).real] == pytest.approx([long, long], abs=SAME)
    assert len(centres) == 2 and all(a.real < x < c.real for x in centres)
    for z, size in pricks:
        assert card.contains(shapely.Point(z.real, z.imag).buffer(size / 2 + 0.3))
    mortise = shapely.Polygon([(z.real, z.imag) for z in (a, b, d, c)])
    bits = [e for e in on(drawn(p, name), "HIDDEN") if e.kind == "CIRCLE"]
    shapes = [shapely.Point(e.number(10), e.number(20)).buffer(e.number(40)) for e in bits]
    assert len(shapes) == 2 and shapes[0].disjoint(shapes[1])
    assert all(mortise.contains(shape) for shape in shapes)
    assert all((4 * e.number(40)) % 1 == pytest.approx(0.0) for e in bits)  # bits of half mm


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_windows_contain_no_hole_or_window(family):
    """Anything inside a window falls out when the window is cut."""
    p = stated(family)
    for t in selection.templates(p):
        for view in rendering.views(p, t):
            windows = [polygon_of(s.path) for s in view.strokes if s.layer is Layer.POCKET]
            drills = [s.path.as_circle() for s in view.strokes if s.layer is Layer.DRILL]
            for (centre, _), window in product(drills, windows):
                assert not window.contains(shapely.Point(centre)), t.name
            for one, other in permutations(windows, 2):
                assert not other.contains(one), t.name


@every_family
def test_slide_fits_the_scribed_channel(family):
    """The slide as drawn, its ferrule end at the shoulder, lies within the card's window."""
    p = stated(family)
    v = p.values
    (window,) = [polygon(e.corners) for e in on(drawn(p, "frog-channel-card"), "POCKET")]
    (card,) = outlines(p, "frog-channel-card")
    shoulder = v["frog.length_bottom"] - v["ferrule.length"]
    turned = rotate(polygon(cut(p, "slide-outline")), 180.0, origin=(0, 0))
    slide = translate(turned, shoulder + card.bounds[0] - turned.bounds[2], 0.0)
    assert window.buffer(SAME).contains(slide)
    left = card.difference(window)
    assert left.geom_type == "Polygon" and left.buffer(-1.0).geom_type == "Polygon"
    marks = [z.real for e in on(drawn(p, "frog-channel-card"), "SCRIBE") for z, _ in e.corners]
    assert marks == pytest.approx([shoulder + card.bounds[0]] * 4, abs=SAME)


@every_family
def test_hair_mortise_card_fits_the_channel_floor(family):
    """It has the width of the dovetail's floor, less the clearance of a 0.5 mm card."""
    p = stated(family)
    v = p.values
    (card,) = outlines(p, "frog-mortise-card")
    lean = math.tan(math.radians(v["slide.dovetail_deg"]))
    floor = v["slide.width_front"] + v["slide.channel_fit"] + 2 * v["slide.thickness"] * lean
    wide = card.bounds[3] - card.bounds[1]
    assert floor - 0.35 < wide <= floor - 2 * 0.5 * math.tan(math.radians(15.0))


# --- gauges ----------------------------------------------------------------------------------


@every_family
@pytest.mark.parametrize("section", ["frog-rear", "frog-section-mortise", "frog-section-waist"])
def test_flank_gauge_fits_at_every_place(family, section):
    """Gauge and section both stand on the bottom plane; they touch along the hollow."""
    p = stated(family)
    (gauge,), frog = outlines(p, "frog-flank-gauge"), outlines(p, section)[0]
    middle = (frog.bounds[0] + frog.bounds[2]) / 2
    frog = translate(frog, -middle, -frog.bounds[1])
    gauge = translate(gauge, 0.0, -gauge.bounds[1])
    assert gauge.intersection(frog).area < 1e-3
    assert gauge.distance(frog) < 1e-3
    heights = np.linspace(p.values["frog.flank_band"] + 0.1, p.values["frog.overall_height"], 9)
    levels = [shapely.LineString([(0, z - 0.01), (99, z - 0.01)]) for z in heights]
    apart = [gauge.intersection(n).bounds[0] - frog.intersection(n).bounds[2] for n in levels]
    assert sum(abs(gap) < 0.002 for gap in apart) >= 5  # an eye's recess may lie between


@every_family
def test_button_gauge_has_a_tongue_for_the_counterbore(family):
    """As wide as the counterbore and as long as it is deep; the octagon is the only hole."""
    p = stated(family)
    v = p.values
    (card,), (octagon,) = (
        outlines(p, "button-facets"), on(drawn(p, "button-facets"), "POCKET")
    )  # fmt: skip
    assert len(octagon.corners) == 8 and not holes(p, "button-facets")
    right, deep = card.bounds[2], v["button.counterbore_depth"]
    tongue = card.intersection(shapely.box(right - deep + SAME, -99, right, 99))
    wide = tongue.bounds[3] - tongue.bounds[1]
    assert wide == pytest.approx(v["button.counterbore_diameter"], abs=SAME)
    behind = card.intersection(shapely.box(right - deep - 0.1, -99, right - deep - SAME, 99))
    assert behind.bounds[3] - behind.bounds[1] > wide + 5.0


@every_family
def test_screw_goes_through_the_eyelet_gauge(family):
    """Its hole is the screw's size, at the axis, with metal all round."""
    p = stated(family)
    ((centre, size),) = holes(p, "frog-eyelet-gauge")
    (card,) = outlines(p, "frog-eyelet-gauge")
    assert size == pytest.approx(p.values["screw.diameter"], abs=SAME)
    assert card.contains(shapely.Point(centre.real, centre.imag).buffer(size / 2 + 0.5))


@every_family
def test_height_stick_gives_height_and_place_of_one_corner(family):
    """At the given height, a foot is at the given distance from the stick's end."""
    from templates_gen.bow.sheets import height_stick
    from templates_gen.drawing.view import HorizontalDim, VerticalDim

    (view,) = height_stick.views(stated(family))
    corners = [v[:2] for s in view.strokes if s.path.closed for v in s.path.vertices]
    levels = [d for d in view.dimensions if isinstance(d, HorizontalDim)]
    uprights = [d for d in view.dimensions if isinstance(d, VerticalDim)]
    assert len(uprights) == 2
    for d in uprights:
        assert min(math.dist(d.q, c) for c in corners) < 1e-9
        assert any(d.q[0] in (n.p[0], n.q[0]) and d.p[0] in (n.p[0], n.q[0]) for n in levels)


@every_family
def test_height_stick_is_numbered_every_50_mm(family):
    made = sheet(stated(family), "bow-height-stick")
    told = [float(n.text) for n in made.labels if n.text.isdigit() and n.layer == "DIMENSION"]
    assert min(told) == 50.0
    assert sorted(told) == [50.0 * i for i in range(1, len(told) + 1)]


# --- shapes to make --------------------------------------------------------------------------


@every_family
def test_spread_wedge_tapers_and_its_front_edge_is_round(family):
    p = stated(family)
    v = p.values
    plan, side = outlines(p, "ferrule-spread-wedge")
    long = v["ferrule.length"] - 1.0
    for view in (plan, side):
        assert view.bounds[2] - view.bounds[0] == pytest.approx(long, abs=SAME)
    left, low, right, _ = side.bounds

    def thick(x):
        return side.intersection(shapely.LineString([(x, low - 9), (x, low + 9)])).length

    t, taper = v["ferrule.wedge_thickness"], v["ferrule.wedge_taper"]
    assert thick(left + 1e-6) == pytest.approx(t - taper, abs=1e-4)
    assert thick((left + right) / 2) == pytest.approx(t - taper / 2, abs=1e-4)
    # Sharp above, where the tongue bears; round below, where the hair leaves.
    upper, lower = shapely.Point(right, low + t), shapely.Point(right, low)
    assert side.distance(upper) < SAME
    assert side.distance(lower) == pytest.approx((math.sqrt(2) - 1) * t / 2, abs=1e-3)


@every_family
def test_plate_and_liner_seams_end_on_the_heads_outline(family):
    """Scribed lines as long as plate and liner: from the back of the head to nose or ridge."""
    p = stated(family)
    head = polygon(cut(p, "head-side")).exterior
    seams = on(drawn(p, "head-side"), "SCRIBE")
    assert len(seams) == 2
    for seam in seams:
        ends = [seam.corners[i][0] for i in (0, -1)]
        assert [head.distance(shapely.Point(z.real, z.imag)) for z in ends] == pytest.approx(
            [0.0, 0.0], abs=0.002
        )


@every_family
def test_form_names_both_ends(family):
    """The ends differ, so each has its name."""
    p = stated(family)
    made = sheet(p, "form-bending")
    at = {n.text: n.at[0] for n in made.labels}
    left, right = at["FERRULE END"], at["HEAD END"]
    assert right - left > p.values["hair.length"] * 0.8
    (face,) = [n for n in made.labels if n.text.endswith("face's rear edge")]
    assert right - face.at[0] < 150.0
    figures = sorted(int(n.text) for n in made.labels if n.text.isdigit() and n.at[1] < face.at[1])
    along = float(face.text.split(":")[0])
    assert next(f for f in figures if f > along - 70.0) % 50 == 0


# --- tables ----------------------------------------------------------------------------------


@every_family
def test_work_card_leaves_no_allowance_on_a_finished_handle(family):
    """The frog is fitted to final facets: the last tenths are planed ahead of the handle only."""
    p = stated(family)
    (rows, _) = sheet(p, "bow-work-card").tables
    head = [*rows[0]]
    columns = [head.index(stage) for stage in ("plus 0.4", "plus 0.2", "finished")]
    handle = p.values["stick.handle_length"]
    stations = [r for r in rows[1:] if r[0].isdigit()]
    on_handle = [r for r in stations if float(r[0]) <= handle]
    ahead = [r for r in stations if float(r[0]) > handle + 1.0]
    assert len(on_handle) == 2 and len(ahead) == 11
    for row in on_handle:
        assert len({row[i] for i in columns}) == 1
    for row in ahead:
        a, b, c = (float(row[i]) for i in columns)
        assert (a - c, b - c) == pytest.approx((0.4, 0.2), abs=0.011)
