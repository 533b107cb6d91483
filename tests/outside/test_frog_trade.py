"""Compare the drawn files and verdicts of frogs with rules of the trade."""

import math

import pytest
import shapely
from outside.maker import FAMILIES, drawn, on, stated, verdicts
from outside.test_frog_shapes import arcs, cut, polygon

from templates_gen.pipeline import rendering


def check(p, name):
    """One check as `check --json` prints it."""
    (found,) = [c for c in map(rendering.check_json, rendering.check(p)) if c["id"] == name]
    return found


def box(p, name):
    return polygon(cut(p, name)).bounds


# --- published -------------------------------------------------------------------------------

#: H. Saint-George, The Bow, 3rd ed. 1922, fig. 37: a gauge measured, violin : viola : cello; the
#: figure was measured to ± 4 %, and makers differ by as much again.
LENGTHS, HEIGHTS, WIDTHS, OFF = (1.07, 1.19), (1.15, 1.20), (1.04, 1.20), 0.06


def test_frog_height_ratios_match_the_published_gauge():
    """Source: Saint-George fig. 37, heights 1 : 1.15 : 1.20; measured on the side templates."""
    violin, viola, cello = (box(stated(f), "frog-side")[3] for f in FAMILIES[:3])
    assert (viola / violin, cello / violin) == pytest.approx(HEIGHTS, rel=OFF)


def test_frog_length_and_width_ratios_match_the_published_gauge():
    """Source: Saint-George fig. 37, lengths 1 : 1.07 : 1.19, widths 1 : 1.04 : 1.20.

    Measured on the dummy frog, which is as long as the frog at the bottom, and on the ferrule's
    plate, which is as wide.
    """
    long = [box(stated(f), "frog-dummy")[2] for f in FAMILIES[:3]]
    assert (long[1] / long[0], long[2] / long[0]) == pytest.approx(LENGTHS, rel=OFF)
    wide = [stated(f).values["ferrule.outer_width"] for f in FAMILIES[:3]]
    assert (wide[1] / wide[0], wide[2] / wide[0]) == pytest.approx(WIDTHS, rel=OFF)


def test_published_frog_keeps_its_edges_with_the_published_lining():
    """Source: a published German-language workshop series: lining 0.3, land 3.3 on 8.2."""
    ends = ("stick.across_flats_butt", "stick.across_flats_handle_end")
    p = stated("violin", {**dict.fromkeys(ends, 8.2), "underslide.thickness": 0.3})
    told = verdicts(p)
    assert told["frog.does_not_rock"] != "fail"
    assert told["underslide.wings"] != "fail"


# --- hair ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("family", "count", "width"), [("violin", 150, 10.0), ("cello", 200, 13.0)]
)
def test_hair_thickness_follows_from_packed_hairs(family, count, width):
    """Common practice, no source: hairs 0.2 mm thick, packed to three quarters of their room."""
    p = stated(
        family,
        {
            "hair.count": count,
            "hair.ribbon_width_frog": {"value": width, "tol": 0.0},
        },
    )
    expected = count * math.pi / 4 * 0.2**2 / 0.75 / width
    assert check(p, "hair.thickness")["measured"] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("count", [150, 200])
def test_mortise_holds_the_knot(count):
    """Common practice, no source: the knot is 0.2 √(n/0.75) + 0.5 thick; depth 2.5 more."""
    p = stated("violin", {"hair.count": count})
    knot = 0.2 * math.sqrt(count / 0.75) + 0.5
    assert check(p, "frog.hair_mortise_depth")["limit"] == pytest.approx(knot + 2.5, rel=1e-9)
    assert check(p, "frog.hair_mortise_width")["limit"] == pytest.approx(knot + 1.0, rel=1e-9)
    assert check(p, "frog.hair_mortise_length")["limit"] == pytest.approx(knot + 4.0, rel=1e-9)


# --- frog and stick --------------------------------------------------------------------------


def even(family, changes=()):
    """On a handle that does not taper, its seat bare: what is drawn of it is the ebony's."""
    flats = stated(family).values["stick.across_flats_butt"]
    ends = dict.fromkeys(("stick.across_flats_butt", "stick.across_flats_handle_end"), flats)
    return stated(family, {**ends, "underslide.kind": "none", **dict(changes)})


@pytest.mark.parametrize("family", FAMILIES)
def test_sound_frog_bears_on_the_diagonal_facets(family):
    """Common practice, no source: it bears on the two diagonal facets, and its land is clear.

    The drawn section and an octagon of our own, its facet at the stated height, laid on each other.
    """
    p = even(family)
    v = p.values
    a, facet_at, relief = (
        v[k] for k in ("stick.across_flats_butt", "frog.clear_height", "frog.land_relief")
    )
    turns = [math.pi / 8 + k * math.pi / 4 for k in range(8)]
    corner = a / 2 / math.cos(math.pi / 8)
    stick = shapely.Polygon(
        [(corner * math.cos(t), facet_at + a / 2 + corner * math.sin(t)) for t in turns]
    )
    frog = polygon(cut(p, "frog-section-waist"))
    assert frog.distance(stick) == pytest.approx(0.0, abs=2e-6)
    assert frog.intersection(stick).area < 1e-4
    # Between 45° flanks a land narrower by the relief lies half of it below the facet.
    below = frog.intersection(shapely.box(-0.5, 0.0, 0.5, facet_at))
    assert below.bounds[3] == pytest.approx(facet_at - relief / 2, abs=2e-6)
    # A hair higher and the two would share wood along both diagonals.
    lifted = shapely.affinity.translate(frog, 0.0, 0.01).intersection(stick)
    assert len(lifted.geoms) == 2 and lifted.area > 0.005


@pytest.mark.parametrize("family", FAMILIES)
def test_land_as_wide_as_the_facet_fails(family):
    """Common practice, no source: a frog that lies on its land rocks from side to side."""
    assert verdicts(even(family))["frog.does_not_rock"] != "fail"
    told = verdicts(even(family, {"frog.land_relief": 0.0}))
    assert told["frog.does_not_rock"] == "fail"


@pytest.mark.parametrize("family", FAMILIES)
def test_seat_gauge_is_centred_on_the_handle_axis(family):
    """Source: any handbook: every side of a regular octagon is half its flats from the middle."""
    p = even(family)
    drawing = drawn(p, "frog-seat-gauge")
    points = [c for c, _ in on(drawing, "OUTLINE")[0].corners]
    (axis,) = {round(c.imag, 6) for e in on(drawing, "SCRIBE") for c, _ in e.corners}
    flats = p.values["stick.across_flats_butt"]
    for one, other in zip(points, points[1:] + points[:1], strict=True):
        way = other - one
        if abs(abs(way.real) - abs(way.imag)) < 1e-5:
            away = ((complex(0.0, axis) - one) * (way / abs(way)).conjugate()).imag
            assert abs(away) == pytest.approx(flats / 2, abs=1e-5)


@pytest.mark.parametrize("family", FAMILIES)
def test_handle_is_octagonal_beyond_the_players_hand(family):
    """Common practice, no source: at least as far as the frog and the thumb ahead of it reach."""
    p = stated(family)
    v = p.values
    tip = v["frog.front_at_play"] - v["frog.length_bottom"] + v["frog.length_top"]
    assert v["stick.handle_length"] > tip + 20
    short = stated(family, {"stick.handle_length": round(max(60.0, tip), 1)})
    assert check(short, "bow.handle")["verdict"] == "fail"
    assert check(short, "bow.handle")["severity"] == "warning"


@pytest.mark.parametrize("family", FAMILIES)
def test_screw_axis_is_half_the_handle_above_the_land(family):
    """Common practice, no source: a/2 within 0.1 mm; otherwise the screw binds."""
    p = stated(family)
    v = p.values
    drawing = drawn(p, "frog-eyelet-gauge")
    (hole,) = [e for e in drawing.lines if e.layer == "DRILL"]
    foot = min(c.imag for c, _ in on(drawing, "OUTLINE")[0].corners)
    lowest, highest = sorted(v[f"stick.across_flats_{end}"] / 2 for end in ("butt", "handle_end"))
    assert lowest - 0.1 <= hole.number(20) - foot <= highest + 0.1


@pytest.mark.parametrize("family", FAMILIES)
def test_frog_covers_the_slot_and_stays_on_the_stick(family):
    """Common practice, no source: read off the drawing of the frog on its stick."""
    drawing = drawn(stated(family), "bow-frog-on-stick")
    frog = polygon(next(e for e in on(drawing, "SCRIBE") if e.closed).corners).bounds
    slot = next(e for e in on(drawing, "HIDDEN") if len(e.corners) == 4 and not e.closed)
    start, end = (f([c.real for c, _ in slot.corners]) for f in (min, max))
    heels = [e.corners[0][0].real for e in on(drawing, "HIDDEN") if upright(e)]
    rear, fore = min(heels), max(heels)
    assert 0 <= rear < frog[0] < fore
    # Foremost the heel still covers the slot's rear end, rearmost the tip its front end.
    assert fore <= start
    top = polygon(next(e for e in on(drawing, "SCRIBE") if e.closed).corners)
    tip = top.intersection(shapely.box(-99, -5, 199, 5)).bounds[2]
    assert tip - frog[0] + rear >= end - 1e-6


def upright(entity):
    (a, _), *_, (b, _) = entity.corners
    return len(entity.corners) == 2 and abs(a.real - b.real) < 1e-6


# --- the two bass frogs ----------------------------------------------------------------------


def at_the_ferrule(family):
    """The side outline, its shoulder at x = 0."""
    p = stated(family)
    shape = polygon(cut(p, "frog-side"))
    v = p.values
    return shapely.affinity.translate(shape, v["ferrule.length"] - v["frog.length_bottom"], 0.0)


def test_underhand_frog_is_not_a_lengthened_overhand_frog():
    """Common practice, no source: overlaid at one ferrule they differ by more than 15 %."""
    french, german = at_the_ferrule("bass-french"), at_the_ferrule("bass-german")
    apart = french.symmetric_difference(german).area
    assert apart / max(french.area, german.area) > 0.15
    # Nor do they where the one is stretched to the other's length and height.
    a, b = french.bounds, german.bounds
    wide, high = (b[2] - b[0]) / (a[2] - a[0]), b[3] / a[3]
    stretched = shapely.affinity.scale(french, wide, high, origin=(0, 0))
    assert stretched.symmetric_difference(german).area / german.area > 0.05


@pytest.mark.parametrize(("family", "ratio"), [("bass-french", 0.46), ("bass-german", 0.7)])
def test_height_to_length_ratio_of_bass_frogs(family, ratio):
    """Common practice, no source: clear height : bottom length 0.46 overhand, 0.7 underhand.

    Measured on the dummy frog, which is as high as facet over hair: the plate is added.
    """
    p = stated(family)
    left, low, right, high = box(p, "frog-dummy")
    assert low == pytest.approx(p.values["ferrule.plate_thickness"], abs=1e-6)
    assert high / (right - left) == pytest.approx(ratio, rel=0.05)


def test_underhand_throat_is_deep_and_open():
    """Common practice, no source: it opens over 0.55 to 0.7 of the clear height."""
    for family, low, high in (("bass-german", 0.55, 0.7), ("bass-french", 0.3, 0.6)):
        p = stated(family)
        upper = [a for a in arcs(cut(p, "frog-side")) if a[2] < 0][1]
        opening = upper[1].imag - p.values["ferrule.height"]
        assert low <= opening / p.values["frog.clear_height"] <= high, family
    depths = [stated(f).values["frog.throat_depth"] for f in ("bass-german", "bass-french")]
    assert depths[0] > depths[1]
