"""Compare mass and centre of each piece of the bow with handbook volumes.

Sources: volumes of prisms, tubes, octagons, trapezia (any handbook); areas of drawn outlines by
shapely; densities as ``mechanics/materials.csv`` has them with their sources, written again here.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from math import atan, pi, sqrt, tan

import numpy as np
import pytest
from outside.by_hand import FACET, Bow
from outside.maker import PARAMS
from shapely.geometry import LineString, Polygon, box

from templates_gen.bow import catalogue
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.head.assembly import without_stick
from templates_gen.parts.underslide import outline as underslide
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.pipeline import rendering
from templates_gen.shapes.graduation import GraduationKind
from templates_gen.shapes.stick_section import SectionKind

TEMPLATES = {t.name: t for t in catalogue.templates()}
#: g/mm³.
SILVER, BRASS, STEEL, PEARL = 10.36e-3, 8.5e-3, 7.85e-3, 2.7e-3
EBONY, BONE, LEATHER, HAIR, SOFT = 1.035e-3, 1.925e-3, 0.925e-3, 1.3e-3, 0.6e-3
FAMILIES = ("violin", "bass-french", "bass-german")


@cache
def _bow(family: str) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{family}.toml")))


@pytest.fixture(params=FAMILIES)
def bow(request: pytest.FixtureRequest) -> Bow:
    return _bow(request.param)


def piece(b: Bow, name: str) -> tuple[float, float]:
    """Mass (g) and place of the middle (mm)."""
    found = [q for q in b.p.derive(Masses).pieces if q.name == name]
    if not found:
        pytest.skip(f"this bow has no {name}")
    return float(found[0].mass), float(found[0].x)


def heel(b: Bow) -> float:
    """Where the frog's heel is on the stick in play."""
    return float(b("frog.front_at_play") - b("frog.length_bottom"))


def area_of(path: Path) -> Polygon:
    return Polygon(flatten(path, 1e-4))


def drawn(b: Bow, template: str, layer: str, number: int = 0) -> Polygon:
    """One closed line of a template as a polygon."""
    view = TEMPLATES[template].views(b.p)[0]
    return [area_of(s.path) for s in view.strokes if s.layer.value == layer][number]


def disc(diameter: float) -> float:
    return pi / 4 * diameter**2


def octagon(flats: float) -> float:
    """Area across flats: 2 tan 22.5° a²."""
    return 2 * FACET * flats**2


# --- frog -----------------------------------------------------------------------------------------


def test_the_ferrule_is_its_bent_strip_and_its_plate(bow: Bow) -> None:
    """A bent sheet keeps its middle layer: the strip laid flat is as long as that."""
    strip = drawn(bow, "ferrule-arch-strip", "OUTLINE")
    more, long = bow("ferrule.filing_allowance"), bow("ferrule.length")
    flat = strip.bounds[2] - strip.bounds[0] - 2 * more
    volume = long * (
        flat * bow("ferrule.arch_thickness")
        + bow("ferrule.outer_width") * bow("ferrule.plate_thickness")
    )
    mass, x = piece(bow, "ferrule")
    assert mass == pytest.approx(SILVER * volume, rel=1e-6)
    assert x == pytest.approx(bow("frog.front_at_play") - long / 2)


def test_slide_and_facing_are_the_drawn_section_along_its_length(bow: Bow) -> None:
    front = area_of(TEMPLATES["slide-dovetail"].views(bow.p)[0].strokes[0].path).area
    rear = area_of(TEMPLATES["slide-dovetail"].views(bow.p)[1].strokes[0].path).area
    volume = (front + rear) / 2 * bow("slide.length")
    share = bow("material.pearl_thickness") / bow("slide.thickness")
    # A prism whose section falls evenly from front to rear.
    behind = bow("slide.length") / 3 * (front + 2 * rear) / (front + rear)
    middle = heel(bow) + bow.shoulder - behind
    for name, density, part in (
        ("slide's facing", PEARL, share),
        ("slide", EBONY, 1 - share),
    ):
        mass, x = piece(bow, name)
        assert mass == pytest.approx(density * volume * part, rel=1e-3)
        assert x == pytest.approx(middle)


def test_the_eyes_are_discs_and_their_rings(bow: Bow) -> None:
    wide, thick = bow("frog.eye_diameter"), bow("frog.eye_thickness")
    ringed = bow("frog.eye_kind") == "ringed"
    mass, x = piece(bow, "eyes")
    inner = wide - 1.2 if ringed else wide
    assert mass == pytest.approx(PEARL * 2 * disc(inner) * thick)
    if ringed:
        ring, _ = piece(bow, "eyes' rings")
        assert ring == pytest.approx(SILVER * 2 * (disc(wide) - disc(inner)) * thick)
    assert x == pytest.approx(heel(bow) + bow.throat / 2 + bow("frog.eye_forward"))


def test_the_screw_is_a_rod_with_a_thinner_tip(bow: Bow) -> None:
    thread, long = bow("screw.thread_end"), bow("screw.length")
    rod, tip = disc(bow("screw.diameter")), disc(bow("stick.front_bore") - 0.1)
    volume = rod * thread + tip * (long - thread)
    moment = rod * thread**2 / 2 + tip * (long**2 - thread**2) / 2
    mass, x = piece(bow, "screw")
    assert mass == pytest.approx(STEEL * volume)
    assert x == pytest.approx(moment / volume)


def test_the_eyelet_is_a_block_with_a_bore_on_a_shank(bow: Bow) -> None:
    """Its foot clears the land; a little more or less there is nothing beside the whole.

    The thread is drawn as a bore 0.2 mm wider than the screw.
    """
    mass, x = piece(bow, "eyelet")
    wide, long, at = bow("eyelet.width"), bow("eyelet.length"), bow.in_play
    below = bow.handle(at) / 2
    body = (below + bow("eyelet.height_above_axis")) * wide * long
    volume = body - disc(bow("screw.diameter") + 0.2) * long
    volume += disc(bow("eyelet.shank_diameter")) * bow("eyelet.shank_length")
    assert mass == pytest.approx(BRASS * volume, rel=0.05)
    assert x == pytest.approx(at)


def test_the_underslide_is_its_drawn_section_less_the_shanks_hole(bow: Bow) -> None:
    """Simpson's rule over the drawn sections, sharp in their bends (any handbook).

    The sheet laid flat, rounded in its bends, is lighter by no more than 3 per cent.
    """
    mass, x = piece(bow, "underslide")
    d = bow.p.derive(UnderslideDims)
    ends = np.linspace(float(d.start), float(d.end), 3)
    areas = [area_of(underslide.section(bow.p, at)).area for at in ends]
    hole = disc(bow("eyelet.shank_diameter") + 0.3) * bow("underslide.thickness")
    whole = np.dot(areas, (1, 4, 1)) / 6 * (ends[2] - ends[0])
    moment = np.dot(areas * ends, (1, 4, 1)) / 6 * (ends[2] - ends[0])
    assert mass == pytest.approx(SILVER * (whole - hole), rel=1e-6)
    middle = (moment - hole * bow("eyelet.from_heel")) / (whole - hole)
    assert x == pytest.approx(heel(bow) + middle, abs=1e-6)
    sheet, more = drawn(bow, "underslide", "OUTLINE"), bow("underslide.filing_allowance")
    left, _, right, _ = sheet.bounds
    flat = (sheet.area / (right - left) - 2 * more) * (right - left - 2 * more)
    flat_mass = SILVER * (flat * bow("underslide.thickness") - hole)
    assert 0.97 * mass < flat_mass < mass


def test_the_heel_plate_is_the_drawn_section_as_wide_as_the_heel(bow: Bow) -> None:
    bent = area_of(TEMPLATES["heel-plate"].views(bow.p)[1].strokes[0].path)
    mass, x = piece(bow, "heel plate")
    assert mass == pytest.approx(SILVER * bent.area * bow("frog.width_heel"), rel=1e-4)
    assert x == pytest.approx(heel(bow) + bent.centroid.x, abs=1e-3)


def test_the_ebony_of_the_frog_is_its_sections_along_its_length(bow: Bow) -> None:
    """Slices across, each held to the drawn side's height there; the eyes' recesses come off."""
    side = area_of(outline.side(bow.p))
    end = float(bow("frog.length_top"))
    edges = np.linspace(0.0, max(end, side.bounds[2]), 121)
    volume = moment = 0.0
    for a, z in pairwise(edges):
        x = (a + z) / 2
        heights = side.intersection(LineString([(x, -1.0), (x, 99.0)]))
        section = slice_at(bow, x, min(x, end - 0.01))
        for part in getattr(heights, "geoms", [heights]):
            if part.is_empty or part.geom_type != "LineString":
                continue
            (_, low), (_, high) = sorted(part.coords, key=lambda c: c[1])
            size = section.intersection(box(-99, low, 99, high)).area * (z - a)
            volume, moment = volume + size, moment + size * x
    found = bow.p.derive(Volumes).parts["frog"]
    assert float(found.volume) == pytest.approx(volume, rel=0.05)
    assert float(found.x) - heel(bow) == pytest.approx(moment / volume, abs=1.5)
    mass, _ = piece(bow, "frog")
    assert mass == pytest.approx(EBONY * float(found.volume))


def slice_at(b: Bow, x: float, inside: float) -> Polygon:
    """The frog across at a place, with its pockets; ahead of the shoulder below it the tongue."""
    section = area_of(outline.across(b.p, inside))
    if x > b.shoulder:
        return section.union(area_of(outline.tongue(b.p)))
    return section


# --- head -----------------------------------------------------------------------------------------


def test_plate_and_liner_are_the_drawn_face_less_its_mouth(bow: Bow) -> None:
    """Laid flat, the plan grows along the bow as the face's curve is longer than its plan.

    The end, cut square, leans once it is bent by 2 atan(rise / run); filed upright it loses half
    the lean of its thickness.
    """
    run = 0.64 * float(bow("head.face_length"))
    lean = tan(2 * atan(float(bow("head.nose_rise")) / run))
    face, mouth = drawn(bow, "head-face", "OUTLINE"), drawn(bow, "head-face", "POCKET")
    rear = float(bow("stick.length") - bow("head.face_length"))
    more = float(bow("head.filing_allowance"))
    middle = (face.area * face.centroid.x - mouth.area * mouth.centroid.x) / (
        face.area - mouth.area
    )
    for name, template, density, thick in (
        ("tip plate", "head-plate", BONE, bow("head.plate_thickness")),
        ("liner", "head-liner", EBONY, bow("head.liner_thickness")),
    ):
        flat = drawn(bow, template, "OUTLINE")
        long = flat.bounds[2] - flat.bounds[0] - 2 * more - float(thick) / 2 * lean
        mass, x = piece(bow, name)
        volume = (face.area * long / bow("head.face_length") - mouth.area) * thick
        assert mass == pytest.approx(density * volume, rel=3e-3)
        assert x == pytest.approx(rear + middle, abs=0.06)  # the bows sit not quite midway


def test_the_head_is_between_its_drawn_side_a_stick_wide_and_a_face_wide(bow: Bow) -> None:
    """It is no narrower than the stick above and no wider than the face below."""
    (view,) = TEMPLATES["head-side"].views(bow.p)
    side = area_of(view.strokes[0].path).intersection(box(0.0, -9.0, 99.0, 99.0))
    head = without_stick(bow.p)
    thin, wide = float(bow("stick.diameter_head")), float(bow("head.width"))
    assert 0.9 * side.area * thin < float(head.volume) < side.area * (thin + wide) / 2
    rear = float(bow("stick.length") - bow("head.face_length"))
    assert float(head.x) - rear == pytest.approx(side.centroid.x, rel=0.35)


# --- button, and what is soft ---------------------------------------------------------------------


def test_the_button_is_an_octagon_less_counterbore_and_hole(bow: Bow) -> None:
    """Source: volume and centroid of a frustum of a pyramid, from both ends' widths."""
    long, a, b = (bow(f"button.{k}") for k in ("length", "across_flats", "across_flats_end"))
    mean, squares = (a + b) / 2, a * a + a * b + b * b
    deep, reach = bow("button.counterbore_depth"), 0.6 * long
    grip, wide = octagon(1.0) * long * squares / 3, disc(bow("button.counterbore_diameter")) * deep
    middle = long / 4 * (a * a + 2 * a * b + 3 * b * b) / squares
    hole = disc(bow("screw.diameter")) * (reach - deep)
    whole = bow.p.derive(Volumes).parts["button"]
    assert float(whole.volume) == pytest.approx(grip - wide - hole, rel=1e-9)
    moment = -(grip * middle - wide * deep / 2 - hole * (reach + deep) / 2)
    assert float(whole.x) == pytest.approx(moment / (grip - wide - hole), rel=1e-9)
    steel, x = piece(bow, "screw in the button")
    assert steel == pytest.approx(STEEL * disc(bow("screw.diameter")) * reach)
    assert x == pytest.approx(-reach / 2)
    metal, place = piece(bow, "button's metal")
    core, _ = piece(bow, "button")
    sheet = octagon(mean) - octagon(mean - 2 * bow("button.ring_sheet"))
    if bow("button.kind") == "three-piece":
        volume = sheet * 2 * bow("button.ring_width")
        assert place == pytest.approx(-long / 2)
        assert metal == pytest.approx(SILVER * volume)
        assert core == pytest.approx(EBONY * (grip - wide - hole - volume))


def test_leather_goes_once_round_the_stick(bow: Bow) -> None:
    mass, x = piece(bow, "leather")
    at, long, thick = bow("leather.from_butt"), bow("leather.length"), bow("leather.thickness")
    assert x == pytest.approx(at + long / 2)
    wide = bow.handle(x)
    round_ = 8 * FACET * wide if x < bow("stick.handle_length") else pi * wide
    assert mass == pytest.approx(LEATHER * (round_ + pi * thick) * thick * long, rel=1e-3)


def test_the_hair_runs_from_knot_to_knot(bow: Bow) -> None:
    mass, x = piece(bow, "hair")
    frog = heel(bow) + bow("frog.hair_mortise_from_heel") + bow("frog.hair_mortise_length") / 2
    head = bow("stick.length") - bow("head.face_length") + bow("head.mortise_from_rear")
    head += bow("head.mortise_length") / 2
    long = head - frog + bow("frog.hair_mortise_depth") + bow("head.mortise_depth")
    assert mass == pytest.approx(HAIR * bow("hair.count") * disc(0.2) * long)
    assert x == pytest.approx((frog + head) / 2)
    assert piece(bow, "plug in the frog")[1] == pytest.approx(frog)
    assert piece(bow, "plug in the head")[1] == pytest.approx(head)


def test_frog_plug_leaves_room_for_the_hair(bow: Bow) -> None:
    wide = bow("frog.hair_mortise_width")
    long = bow("frog.hair_mortise_length") - bow.ribbon * bow("hair.ribbon_width_frog") / wide
    high = bow("frog.hair_mortise_depth") - bow.knot
    assert piece(bow, "plug in the frog")[0] == pytest.approx(SOFT * long * high * wide)


# --- the stick and the whole ----------------------------------------------------------------------


def test_the_handle_weighs_as_an_octagon_with_a_slot_and_two_bores(bow: Bow) -> None:
    """Two sticks that differ by a slot of 1 mm more in depth differ by that slab of wood."""
    deeper = Bow(bow.p.with_("stick.mortise_depth", bow("stick.mortise_depth") + 1.0))
    (m0, x0), (m1, x1) = piece(bow, "stick"), piece(deeper, "stick")
    slab = bow("stick.mortise_length") * bow("stick.mortise_width")
    assert m0 - m1 == pytest.approx(1.05e-3 * slab, rel=1e-6)
    middle = (bow("stick.mortise_from_butt") + bow.slot_end) / 2
    assert (m0 * x0 - m1 * x1) / (m0 - m1) == pytest.approx(middle, abs=1e-3)


def test_wider_front_bore_removes_a_ring_of_wood_ahead_of_the_slot(bow: Bow) -> None:
    wider = Bow(bow.p.with_("stick.front_bore", bow("stick.front_bore") + 0.5))
    (m0, x0), (m1, x1) = piece(bow, "stick"), piece(wider, "stick")
    ring = disc(wider("stick.front_bore")) - disc(bow("stick.front_bore"))
    assert m0 - m1 == pytest.approx(1.05e-3 * ring * bow("screw.bearing_depth"), rel=1e-6)
    middle = bow.slot_end + bow("screw.bearing_depth") / 2
    assert (m0 * x0 - m1 * x1) / (m0 - m1) == pytest.approx(middle, abs=1e-3)


def test_total_and_balance_are_those_of_all_pieces(bow: Bow) -> None:
    """Source: the centre of mass is Σ m x / Σ m."""
    m = bow.p.derive(Masses)
    masses = np.array([float(q.mass) for q in m.pieces])
    places = np.array([float(q.x) for q in m.pieces])
    assert float(m.total) == pytest.approx(masses.sum())
    assert float(m.balance) == pytest.approx((masses @ places) / masses.sum())


def test_a_plain_octagonal_rod_weighs_as_a_prism(bow: Bow) -> None:
    """No taper, octagonal all along, hardly any hole: 2 tan 22.5° a² l, its middle half way."""
    wide = float(bow("stick.across_flats_butt"))
    rod = bow.p.with_many(
        {
            "stick.across_flats_handle_end": wide,
            "stick.diameter_head": wide,
            "stick.section": SectionKind.OCTAGON,
            "stick.graduation": GraduationKind.LINEAR,
            "stick.nipple_length": 1e-9,
            "stick.rear_bore": 1e-6,
            "stick.front_bore": 1e-6,
            "stick.mortise_depth": 1e-6,
        }
    )
    mass, x = piece(Bow(rod), "stick")
    long = float(bow("stick.length") - bow("head.face_length"))
    assert mass == pytest.approx(1.05e-3 * octagon(wide) * long, rel=1e-6)
    assert x == pytest.approx(long / 2, rel=1e-6)
    assert sqrt(octagon(1.0)) == pytest.approx(sqrt(0.8284271), rel=1e-7)


def test_the_spread_wedge_is_as_long_wide_and_thick_as_drawn(bow: Bow) -> None:
    """Soft wood, the ferrule's length less 1, as wide as the ribbon's room, half its taper off."""
    wedge = drawn(bow, "ferrule-spread-wedge", "OUTLINE")
    mass, x = piece(bow, "wedge")
    thick = bow("ferrule.wedge_thickness") - bow("ferrule.wedge_taper") / 2
    assert mass == pytest.approx(SOFT * wedge.area * thick, rel=0.02)
    assert x == pytest.approx(bow("frog.front_at_play") - bow("ferrule.length") / 2)


@pytest.mark.parametrize(
    ("key", "more"),
    [
        ("frog.eye_diameter", 1.0),
        ("frog.eye_thickness", 0.3),
        ("frog.hair_mortise_depth", 0.5),
        ("frog.hair_mortise_from_heel", -0.5),
        ("eyelet.shank_length", 1.0),
        ("eyelet.shank_diameter", 0.4),
    ],
)
def test_larger_pocket_removes_only_its_own_wood(bow: Bow, key: str, more: float) -> None:
    """Source: discs, boxes and rods (any handbook); nothing else of the frog changes.

    An eye's recess ends in the flank's hollow, of radius R: over a disc of radius r that
    rises by r²/8R on average: u²/2R at u from the middle, and u² is r²/4 on average.
    """
    larger = Bow(bow.p.with_(key, bow(key) + more))
    if key == "frog.hair_mortise_from_heel":  # longer at its rear: the lip ahead of it stays
        larger = Bow(
            larger.p.with_("frog.hair_mortise_length", bow("frog.hair_mortise_length") - more)
        )

    def pocket(b: Bow) -> tuple[float, float]:
        if key.startswith("frog.eye"):
            sag = (b("frog.eye_diameter") / 2) ** 2 / 8 / float(b.p.derive(FrogDims).flank.radius)
            volume = 2 * disc(b("frog.eye_diameter")) * (b("frog.eye_thickness") + sag)
            return volume, b.throat / 2 + b("frog.eye_forward")
        if key.startswith("frog.hair"):
            long = b("frog.hair_mortise_length")
            volume = long * b("frog.hair_mortise_width") * b("frog.hair_mortise_depth")
            return volume, b("frog.hair_mortise_from_heel") + long / 2
        return disc(b("eyelet.shank_diameter")) * b("eyelet.shank_length"), b("eyelet.from_heel")

    (v0, x0), (v1, x1) = pocket(bow), pocket(larger)
    was, now = (b.p.derive(Volumes).parts["frog"] for b in (bow, larger))
    assert float(was.volume - now.volume) == pytest.approx(v1 - v0, rel=1e-6)
    moments = [float(q.volume * (q.x - heel(bow))) for q in (was, now)]
    assert moments[0] - moments[1] == pytest.approx(v1 * x1 - v0 * x0, rel=1e-6)


def test_leather_on_a_d_section_follows_arc_and_facets(
    bow: Bow,
) -> None:
    """Source: half of eight facets of 0.41421 a, and half of π a."""
    ahead = bow("stick.handle_length") + bow("stick.blend_length") + 5.0
    moved = bow.p.with_many({"stick.section": SectionKind.D_SECTION, "leather.from_butt": ahead})
    round_ = bow.p.with_("leather.from_butt", ahead)
    (flat, x), (plain, _) = piece(Bow(moved), "leather"), piece(Bow(round_), "leather")
    assert x == pytest.approx(ahead + bow("leather.length") / 2)
    wide = (plain / (LEATHER * bow("leather.thickness") * bow("leather.length"))) / pi
    wide -= bow("leather.thickness")
    once = (8 * FACET * wide + pi * wide) / 2 + pi * bow("leather.thickness")
    assert flat == pytest.approx(
        LEATHER * once * bow("leather.thickness") * bow("leather.length"), rel=1e-6
    )
