"""Compare a number on one sheet with another sheet or with a calculation by hand.

Every number is read from the drawn file and calculated again from the stated parameters, with the
formula and its source beside it; the package's own calculations are not used.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from outside.maker import FAMILIES, drawn, on, stated
from outside.test_frog_shapes import cut, polygon
from shapely import LineString, Point, affinity

every_family = pytest.mark.parametrize("family", FAMILIES)


def thickness(p, x):
    """Source: the rule of Fétis 1856 in Saint-George, The Bow, ch. VI, as a logarithm; the handle
    tapers evenly."""
    v = p.values
    end, handle = v["stick.length"] - v["head.face_length"], v["stick.handle_length"]
    thick, thin = v["stick.across_flats_handle_end"], v["stick.diameter_head"]
    if x <= handle:
        return float(np.interp(x, (0.0, handle), (v["stick.across_flats_butt"], thick)))
    s = end / 4
    return thin + (thick - thin) * math.log((s + end - x) / s) / math.log((s + end - handle) / s)


def head(p):
    """The head's side in its own frame, in chords, and its corners: stick's top and end."""
    corners = cut(p, "head-side")
    (mortise,) = on(drawn(p, "head-side"), "HIDDEN")
    shift = mortise.corners[0][0] - p.values["head.mortise_from_rear"]
    return [(z - shift, bulge) for z, bulge in corners]


def stick_end(corners):
    """The two corners of the piece of stick, upper and lower."""
    a, b = sorted((z for z, _ in corners), key=lambda z: z.real)[:2]
    return (a, b) if a.imag > b.imag else (b, a)


@every_family
def test_stick_behind_the_head_matches_its_gauge(family):
    """Source: the published rule, at the place where the piece of stick on the sheet ends."""
    p = stated(family)
    upper, lower = stick_end(head(p))
    middle = (upper + lower) / 2
    # From there along the stick to the face's rear edge; the arc is longer than its chord by 0.1 %.
    top = 1j * p.values["head.height"] - 0.5j * p.values["stick.diameter_head"]
    x = p.values["stick.length"] - p.values["head.face_length"] - abs(middle - top)
    assert abs(upper - lower) == pytest.approx(thickness(p, x), abs=0.01)
    half = polygon(head(p)).intersection(LineString([(-30.0, -50.0), (-30.0, 80.0)])).length
    slope = math.atan2((top - middle).imag, (top - middle).real)
    assert half * math.cos(slope) == pytest.approx(thickness(p, x + abs(middle - top) / 2), abs=0.1)


@every_family
def test_bevel_card_lies_along_the_stick_behind_the_head(family):
    """Foot on the face's line, top on the side template's own top, from 35 behind to the crown."""
    p = stated(family)
    card, side = polygon(cut(p, "head-bevel-card")), polygon(head(p))
    assert card.bounds[0] < -35.0
    assert card.bounds[1] == pytest.approx(0.0, abs=1e-6)
    for x in np.linspace(-35.0, card.bounds[2] - 0.1, 20):
        upright = LineString([(x, -1.0), (x, 80.0)])
        tops = [shape.intersection(upright).bounds[3] for shape in (card, side)]
        # Each is struck through three places of the same top.
        assert tops[0] == pytest.approx(tops[1], abs=0.02)


def straightened(p):
    """The head as it stands on the straight stick: its top line level, at z = 0."""
    v, corners = p.values, head(p)
    top = complex(0.0, v["head.height"])
    at = next(i for i, (z, _) in enumerate(corners) if abs(z - top) < 1e-5)
    ahead = corners[at - 1][0] - top
    tilt = math.degrees(math.atan2(ahead.imag, ahead.real))
    turned = affinity.rotate(polygon(corners), -tilt, origin=(0.0, top.imag))
    whole = turned.intersection(Point(0, 0).buffer(500).envelope)
    return affinity.translate(
        whole, v["stick.length"] - v["head.face_length"], -v["head.height"] - 1.0
    )


@every_family
def test_head_lies_within_the_sawn_block(family):
    """Half a saw's allowance above the stick and at least as much all round the head: common
    practice, no source, 2 mm in all. The camber of the stick's piece comes later, over heat."""
    p = stated(family)
    side = polygon(cut(p, "stick-blank"))
    face = p.values["stick.length"] - p.values["head.face_length"]
    block = straightened(p)
    low = block.bounds[1]
    bent = p.values["head.back_radius"] + 3.0
    ahead = block.intersection(Point(face - bent + 500.0, 0.0).buffer(500.0, cap_style="square"))
    assert side.buffer(-0.6).contains(ahead)
    assert low - side.bounds[1] == pytest.approx(1.0, abs=0.02)


@every_family
def test_sawn_blank_has_bending_allowance_and_nipple(family):
    """Common practice, no source: 1.5 to 2 over when sawn, on a bass 2 when bent."""
    p = stated(family)
    views = [polygon(cut(p, "stick-blank", i)) for i in (0, 1)]
    face = p.values["stick.length"] - p.values["head.face_length"]
    for view in views:
        for x in np.linspace(0.0, face - 25.0, 80):
            there = view.intersection(LineString([(x, -500.0), (x, 500.0)])).length
            assert there >= thickness(p, x) + max(2.0, p.values["stick.bent_oversize"]) - 0.01
        assert view.bounds[0] <= -p.values["stick.nipple_length"] - 1.0
        assert view.bounds[2] >= p.values["stick.length"] + 1.0


@every_family
def test_channel_card_has_the_slides_taper(family):
    """Sides of channel and slide: the same taper to the millimetre, fit apart."""
    p = stated(family)
    (channel,) = on(drawn(p, "frog-channel-card"), "POCKET")
    slide = cut(p, "slide-outline")

    def taper(corners):
        ends = sorted({round(z.real, 6) for z, _ in corners})
        wide = [max(z.imag for z, _ in corners if abs(z.real - x) < 1e-5) for x in ends]
        return abs(wide[1] - wide[0]) / (ends[1] - ends[0])

    assert taper(channel.corners) == pytest.approx(taper(slide), rel=1e-3)


@every_family
def test_notch_gauge_has_the_height_of_the_lined_seat(family):
    """The prong lies on the land; on the rear view the ebony's own land, plus its lining."""
    p = stated(family)
    notch = [z for z, _ in cut(p, "frog-notch-gauge")]
    found = notch[4].real - notch[1].real
    rear = [z for z, _ in cut(p, "frog-rear")]
    (ebony,) = [
        a.imag
        for a, b in pairwise(rear)
        if abs(a.imag - b.imag) < 1e-6 and a.real * b.real < 0 and a.imag > 10
    ]
    assert found == pytest.approx(ebony + p.values["underslide.thickness"], abs=1e-5)
    # The facet, wider than the land, stands on the diagonals: by half the difference above it.
    assert 0.0 < p.values["frog.clear_height"] - found < 0.1


@every_family
def test_head_plug_leaves_room_for_the_hair(family):
    """Hairs 0.2 thick, packed to three quarters, as wide as the mortise: common practice."""
    p = stated(family)
    v = p.values
    left, _, right, _ = polygon(cut(p, "head-plug")).bounds
    layer = v["hair.count"] * math.pi / 4 * 0.2**2 / 0.75 / v["head.mortise_width"]
    assert right - left == pytest.approx(v["head.mortise_length"] - layer, abs=1e-5)
    # Set against the front wall it lies within the mortise's mouth.
    (mouth,) = on(drawn(p, "head-face"), "POCKET")
    room = polygon(mouth.corners)
    placed = affinity.translate(
        polygon(cut(p, "head-plug")), room.bounds[2] - right, room.centroid.y
    )
    assert placed.difference(room).area < 1e-4


@pytest.mark.parametrize("kind", ["round", "octagon", "d-section"])
def test_head_seen_from_the_frog_shows_the_top_of_the_stick(kind):
    """Upper half across, for a handbook's figures: circle π/8, octagon half 0.8284271, of a²."""
    p = stated("bass-french", {"stick.section": kind})
    wide, high = p.values["stick.diameter_head"], p.values["head.height"]
    shape = polygon(cut(p, "head-rear"))
    above = shape.intersection(Point(0.0, high).buffer(wide / 2, cap_style="square"))
    expected = 0.8284271 / 2 if kind == "octagon" else math.pi / 8
    assert above.area == pytest.approx(expected * wide**2, rel=1e-3)


@pytest.mark.parametrize("lean", [0.0, 6.0])
@pytest.mark.parametrize("kind", ["one-piece", "two-piece"])
def test_pins_of_heel_plate_and_heel_coincide(kind, lean):
    """From the rear leg's upper edge down: on the sheet as long as on the leaning heel."""
    p = stated("violin", {"heel.kind": kind, "heel.lean_deg": lean})
    sheet, heel = drawn(p, "heel-plate"), drawn(p, "frog-rear")
    edge = max(z.real for e in on(sheet, "OUTLINE") for z, _ in e.corners if z.imag > -20)
    edge -= p.values["heel.filing_allowance"]
    flat = sorted(edge - e.number(10) for e in on(sheet, "DRILL"))
    (line,) = on(heel, "SCRIBE")
    top = line.corners[0][0].imag
    upright = sorted(top - e.number(20) for e in on(heel, "DRILL"))
    assert len(flat) == 2
    assert upright == pytest.approx([v * math.cos(math.radians(lean)) for v in flat], abs=1e-5)
    # And the plate, made, is as high as the line on the heel.
    made = polygon(cut(p, "heel-plate", 1 if kind == "one-piece" else 2)).bounds
    inner = p.values["heel.plate_thickness"] * math.sin(math.radians(lean))
    assert made[3] - made[1] == pytest.approx(top, abs=inner + 1e-5)


@every_family
def test_ordinates_match_the_drawn_form(family):
    """Each row's depth, to its one decimal, on the form as cut; the first lies on its run-on."""
    p = stated(family)
    form = polygon(cut(p, "form-bending"))
    rows = {}
    for text in drawn(p, "form-ordinates").texts:
        rows.setdefault(text.number(20), []).append((text.number(10), text.first(1)))
    cells = [[word for _, word in sorted(row)] for row in rows.values() if len(row) == 4]
    told = [(float(x), float(deep)) for x, deep, _, _ in cells if x != "x"]
    assert len(told) >= 10
    for x, deep in told:
        there = form.intersection(LineString([(x, -500.0), (x, 500.0)])).length
        assert there == pytest.approx(deep, abs=0.06)


#: What the stock list calls a thing, and the template that is cut from it.
CUT_FROM = {
    "stick and head": "stick-blank",
    "frog": "frog-side",
    "button": "button-turning",
    "liner": "head-liner",
    "ferrule, arch": "ferrule-arch-strip",
    "ferrule, plate": "ferrule-plate",
    "heel plate": "heel-plate",
    "underslide": "underslide",
    "tip plate": "head-plate",
    "slide, facing": "slide-outline",
    "thumb": "bow-thumb-leather",
}


def stock(p):
    """Sizes by what they are for."""
    rows = {}
    for text in drawn(p, "bow-stock-list").texts:
        rows.setdefault(text.number(20), []).append((text.number(10), text.first(1)))
    cells = [[word for _, word in sorted(row)] for row in rows.values() if len(row) == 3]
    return {name: size for _, name, size in cells}


@pytest.mark.parametrize("family", ["violin", "bass-french", "bass-german"])
@pytest.mark.parametrize("kind", ["one-piece", "two-piece"])
def test_stock_list_sizes_are_large_enough(family, kind):
    """Each template, cut size, goes into the piece on the list, side by side if it is two."""
    p = stated(family, {"heel.kind": kind})
    told = stock(p)
    for name, template in CUT_FROM.items():
        sides = sorted((float(v) for v in told[name].split(" × ")), reverse=True)
        pieces = [polygon(e.corners).bounds for e in on(drawn(p, template), "OUTLINE")]
        if name == "heel plate":
            pieces = pieces[:-1]  # without the made plate
        if name == "underslide":
            pieces = pieces[:1]  # without its section
        boxes = [sorted((b[2] - b[0], b[3] - b[1]), reverse=True) for b in pieces]
        if name == "heel plate" and kind == "two-piece":
            boxes = [[max(b[0] for b in boxes), sum(b[1] for b in boxes)]]
            boxes[0].sort(reverse=True)
        for box in boxes:
            assert box[0] <= sides[0], (name, box, sides)
            assert box[1] <= sides[1], (name, box, sides)


def test_stock_of_a_full_metal_button_is_a_shell():
    """Round the turned shell and as long as the button."""
    p = stated("violin", {"button.kind": "full-metal"})
    told = stock(p)
    assert "button, rings" not in told
    long, wide = (float(v) for v in told["button, shell"].split(" × "))
    turned = polygon(cut(p, "button-turning")).bounds
    thick = p.values["button.ring_sheet"]
    assert long >= math.pi * (turned[3] - turned[1] - thick)
    assert wide >= p.values["button.length"]
