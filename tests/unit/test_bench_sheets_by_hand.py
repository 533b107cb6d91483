"""Check that sheets fit the work they are laid on, and that stock lists leave an allowance.

Positions and sizes are worked out here from the stated numbers (``outside.by_hand``); where one
sheet must fit another the drawn outlines are laid on each other by shapely.
"""

from __future__ import annotations

from math import atan, ceil, pi, radians, sin, tan

import numpy as np
import pytest
from outside.by_hand import FACET, Bow
from outside.maker import PARAMS
from shapely.geometry import LineString, Point, Polygon

from templates_gen.bow import catalogue
from templates_gen.drawing.compose import free_space
from templates_gen.drawing.view import HorizontalDim, View
from templates_gen.geometry import Path
from templates_gen.geometry.flatten import flatten
from templates_gen.pipeline import rendering

TEMPLATES = {t.name: t for t in catalogue.templates()}
FAMILIES = ("violin", "viola", "cello", "bass-french", "bass-german")


@pytest.fixture(scope="module", params=["violin", "bass-french"])
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


def views(b: Bow, name: str) -> list[View]:
    return list(TEMPLATES[name].views(b.p))


def paths(view: View, layer: str) -> list[Path]:
    return [s.path for s in view.strokes if s.layer.value == layer]


def area(path: Path) -> Polygon:
    return Polygon(flatten(path, 1e-4))


def has(view: View, layer: str, box: tuple[float, ...]) -> bool:
    return any(
        max(abs(a - z) for a, z in zip(box, p.box, strict=True)) < 0.012 for p in paths(view, layer)
    )


# --- sheets that fit each other ---------------------------------------------------------------


def test_the_caul_is_the_drawn_face_turned_over(bow: Bow) -> None:
    """The caul touches the head from the face's rear edge to the nose."""
    side = area(paths(views(bow, "head-side")[0], "OUTLINE")[0])
    caul = area(paths(views(bow, "head-caul")[0], "OUTLINE")[0])
    assert side.intersection(caul).area < 0.05
    for x in np.linspace(0.5, float(bow("head.face_length")) - 0.5, 12):
        line = LineString([(x, -99.0), (x, 99.0)])
        under, over = side.intersection(line).bounds[1], caul.intersection(line).bounds[3]
        assert over == pytest.approx(under, abs=0.012)


def test_the_counter_form_is_the_outside_of_the_ferrule(bow: Bow) -> None:
    (mandrel,), (form,) = views(bow, "ferrule-mandrel"), views(bow, "ferrule-counter-form")
    outside = area(paths(mandrel, "HIDDEN")[0])
    hollow = area(paths(form, "OUTLINE")[0])
    above = outside.intersection(Polygon([(-99, 0.01), (99, 0.01), (99, 99), (-99, 99)]))
    assert above.intersection(hollow).area < 0.05
    top = Point(0.0, float(bow("ferrule.height") - bow("ferrule.plate_thickness")))
    assert hollow.distance(top) < 0.012


def test_mandrel_and_ferrule_are_one_sheet_apart(bow: Bow) -> None:
    (view,) = views(bow, "ferrule-mandrel")
    inner, outer = area(paths(view, "OUTLINE")[0]), area(paths(view, "HIDDEN")[0])
    assert outer.contains(inner)
    for x in np.linspace(0.0, 0.8 * inner.bounds[2], 9):
        top = inner.intersection(LineString([(x, 0.1), (x, 99.0)])).bounds[3]
        wall = outer.exterior.distance(Point(x, top))
        assert wall == pytest.approx(float(bow("ferrule.arch_thickness")), abs=0.012)


def test_bevel_card_fits_face_and_stick(bow: Bow) -> None:
    """Its top is the top of the drawn head, its foot the drawn face."""
    side = area(paths(views(bow, "head-side")[0], "OUTLINE")[0])
    card = area(paths(views(bow, "head-bevel-card")[0], "OUTLINE")[0])
    for x in np.linspace(0.95 * card.bounds[0], -1.0, 9):
        line = LineString([(x, -99.0), (x, 99.0)])
        top, over = side.intersection(line).bounds[3], card.intersection(line).bounds[3]
        assert over == pytest.approx(top, abs=0.02)  # each is an arc through other places
    assert card.bounds[1] == 0.0


def test_the_seat_gauge_stands_in_the_seat(bow: Bow) -> None:
    """The handle's section, set at its height over the frog's, meets both diagonals and no more.

    In play the diagonals touch; the land stays clear by what the octagon is wider at its foot.
    """
    (gauge,), (section, *_) = views(bow, "frog-seat-gauge"), views(bow, "frog-section-eyelet")
    outline = area(paths(section, "OUTLINE")[0])
    facet = paths(section, "HIDDEN")
    if not facet:
        pytest.skip("this seat has no lining")
    half = FACET * bow.handle(bow.in_play) / 2
    foot = [x for x, y, _ in paths(gauge, "OUTLINE")[0].vertices if y == 0.0]
    assert max(foot) == pytest.approx(half, abs=1e-9)
    land = facet[0].box
    assert land[2] - land[0] < 2 * half  # the land is narrower than the facet
    beside = 0.9 * land[2]  # of the shank's bore
    floor = outline.intersection(LineString([(beside, land[1] - 5), (beside, land[1] + 0.1)]))
    assert land[1] - floor.bounds[3] == pytest.approx(bow("underslide.thickness"), abs=0.012)


# --- the frog on its stick ------------------------------------------------------------------------


def test_frog_is_drawn_on_the_stick_in_play(bow: Bow) -> None:
    (view,) = views(bow, "bow-frog-on-stick")
    heel = float(bow("frog.front_at_play") - bow("frog.length_bottom"))
    bottom = -float(bow("frog.clear_height")) - bow.handle(bow.in_play) / 2
    butt, far = bow.handle(0.0) / 2, bow.handle(bow.slot_end + 25.0) / 2
    long, high = float(bow("frog.length_bottom")), float(bow("ferrule.height"))
    deep = float(bow("stick.mortise_depth"))
    start = float(bow("stick.mortise_from_butt"))
    low = bow.handle(start) / 2
    assert has(
        view,
        "SCRIBE",
        (heel, bottom, heel + long - 0.3, bottom + float(bow("frog.overall_height"))),
    )
    assert has(view, "SCRIBE", (0.0, min(butt, far), bow.slot_end + 25.0, max(butt, far)))
    assert has(view, "SCRIBE", (0.0, -butt, 0.0, butt))
    assert has(view, "HIDDEN", (heel + bow.shoulder + 0.01, bottom, heel + long, bottom + high))
    slot = [p.box for p in paths(view, "HIDDEN") if abs(p.box[0] - start) < 1e-6]
    assert slot[0][1] == pytest.approx(-low, abs=1e-6)
    assert slot[0][2] == pytest.approx(bow.slot_end, abs=1e-9)
    assert slot[0][3] == pytest.approx(deep - bow.handle(bow.slot_end) / 2, abs=1e-6)
    back = bow.rearmost - float(bow("eyelet.from_heel"))
    on = bow.foremost - float(bow("eyelet.from_heel"))
    for x in (back, on):
        assert any(
            p.box[0] == p.box[2] == pytest.approx(x, abs=1e-9) for p in paths(view, "HIDDEN")
        )


# --- cards ----------------------------------------------------------------------------------------


def test_sighting_slits_are_half_a_millimetre_wide_in_the_middle(bow: Bow) -> None:
    """Common practice, no source: half a millimetre lets an offset of 0.3 be seen."""
    for view in views(bow, "bow-sighting-gauge"):
        (slit,), (card,) = paths(view, "POCKET"), paths(view, "OUTLINE")
        left, low, right, high = slit.box
        assert (left, right) == (-0.25, 0.25)
        assert card.box[0] == -card.box[2]
        assert card.box[1] + 5 < low < high < card.box[3] - 5
        assert area(card).contains(area(slit))


def test_the_notches_of_the_sighting_cards_are_the_handle_and_the_face(bow: Bow) -> None:
    handle, head = (area(paths(v, "OUTLINE")[0]) for v in views(bow, "bow-sighting-gauge"))
    for card, wide in ((handle, bow.handle(bow.in_play)), (head, float(bow("head.width")))):
        top = card.bounds[3]
        gap = LineString([(-99.0, top - 1.0), (99.0, top - 1.0)]).intersection(card)
        inner = sorted(x for part in gap.geoms for x, _ in part.coords)[1:3]
        assert inner == pytest.approx([-wide / 2, wide / 2], abs=1e-6)


def test_the_slot_holds_all_the_hair(bow: Bow) -> None:
    """Hairs of 0.2 mm packed to three quarters; common practice, no source."""
    (view,) = views(bow, "bow-hair-slot")
    (slot,), (card,) = paths(view, "POCKET"), paths(view, "OUTLINE")
    assert slot.area * 0.75 == pytest.approx(bow("hair.count") * pi / 4 * 0.2**2)
    assert slot.box[2] - slot.box[0] == pytest.approx(bow("hair.ribbon_width_frog"))
    assert area(card).buffer(-5.0).contains(area(slot))


def test_the_thumb_leather_goes_once_round_and_laps(bow: Bow) -> None:
    (view,) = views(bow, "bow-thumb-leather")
    (hide,) = paths(view, "OUTLINE")
    at, long, thick = bow("leather.from_butt"), bow("leather.length"), bow("leather.thickness")
    once = 8 * FACET * bow.handle(float(at)) + pi * thick
    corners = {(round(x, 6), round(y, 6)) for x, y, _ in hide.vertices}
    assert (0.0, round(float(once) + 3.0, 6)) in corners
    assert hide.box[:3] == (0.0, 0.0, long)
    skived = [p for p in paths(view, "SCRIBE") if p.box[0] == p.box[2]]
    assert sorted(p.box[0] for p in skived) == [4.0, long - 4.0]
    (seam,) = [p for p in paths(view, "SCRIBE") if p.box[0] != p.box[2]]
    assert seam.start == pytest.approx((0.0, float(once)))


def test_the_rear_foot_touches_the_stick_a_millimetre_ahead_of_its_drawn_end(bow: Bow) -> None:
    """The stick's underside begins where the hair line draws it. Common practice, no source."""
    hair, strip = views(bow, "bow-hair-line")[0], views(bow, "bow-height-stick")[0]
    sides = [p.box for p in paths(hair, "SCRIBE") if p.box[2] - p.box[0] > 300]
    begins = max(0.0, min(box[0] for box in sides if box[1] == min(b[1] for b in sides)))
    corners = paths(strip, "OUTLINE")[0].vertices
    assert min(x for x, y, _ in corners if y > 1.0) == pytest.approx(begins + 1.0, abs=1e-6)


def test_the_sawn_blank_is_seen_from_the_side_and_from_above(bow: Bow) -> None:
    """It lies with the stick's top up, so the second view is from above."""
    assert TEMPLATES["stick-blank"].up == "top of the stick up"
    side, plan = views(bow, "stick-blank")
    assert side.title.startswith("from the side; top of the stick up")
    assert plan.title.startswith("from above;")


# --- lists ----------------------------------------------------------------------------------------


def up(number: float) -> float:
    """Rounded up to a tenth, as sizes to buy are."""
    return ceil(round(float(number) * 10, 6)) / 10


def numbers(text: str) -> list[float]:
    return [float(word.strip("Ø")) for word in text.split(" × ")]


def test_stock_is_a_little_larger_than_what_is_made_of_it(bow: Bow) -> None:
    """Spare lengths: common practice, no source."""
    (view,) = views(bow, "bow-stock-list")
    rows = {(what, use): size for what, use, size in view.table[1:]}
    b = bow
    arch, plate = b("ferrule.arch_thickness"), b("ferrule.plate_thickness")
    floor = b("slide.width_front") + 2 * b("slide.thickness") * tan(
        radians(b("slide.dovetail_deg"))
    )
    backing = b("slide.thickness") - b("material.pearl_thickness")
    meant = {
        ("ebony", "frog"): (
            b("frog.length_bottom") + 4,
            b("frog.overall_height") + 3,
            b("ferrule.outer_width") + 2,
        ),
        ("ebony", "button"): (
            b("button.length") + 4,
            1.15 * b("button.across_flats"),
            1.15 * b("button.across_flats"),
        ),
        (f"{plate:g} sheet", "ferrule, plate"): (
            b("ferrule.outer_width") + 2,
            b("ferrule.length") + 2,
        ),
        ("pearl", "slide, facing"): (
            b("slide.length") + 1,
            b("slide.width_front") + 1,
            b("material.pearl_thickness"),
        ),
        ("ebony", "slide, backing"): (b("slide.length") + 1, floor + 1),
    }
    for row, sizes in meant.items():
        told = numbers(rows[row])[: len(sizes)]
        assert told == pytest.approx([up(s) for s in sizes], abs=1e-9), row
    thick = numbers(rows["ebony", "slide, backing"])[2]
    assert backing - 1e-9 <= thick < backing + 0.11
    wood = numbers(rows["bow wood", "stick and head"])
    assert wood[0] == up(b("stick.length") + 10)
    assert wood[2] == up(b("head.width") + 4)
    strip = area(paths(views(b, "ferrule-arch-strip")[0], "OUTLINE")[0]).bounds
    bent = strip[2] - strip[0] - 2 * b("ferrule.filing_allowance")
    assert numbers(rows[f"{arch:g} sheet", "ferrule, arch"])[0] == pytest.approx(
        up(bent + 2), abs=0.11
    )
    if ("pearl", "eyes, two") in rows:
        wide, thick = numbers(rows["pearl", "eyes, two"])
        assert wide == pytest.approx(b("frog.eye_diameter") + 0.5, abs=1e-4)
        assert thick == pytest.approx(b("frog.eye_thickness"), abs=1e-4)
    assert rows["hair", "hank"].startswith(f"{b('hair.count'):g} hairs")


def test_every_part_fits_in_the_stock_it_is_cut_from(bow: Bow) -> None:
    """Compare the drawn outlines with the list, whatever the allowance."""
    (view,) = views(bow, "bow-stock-list")
    rows = {use: numbers(size) for _, use, size in view.table[1:] if "hairs" not in size}
    for use, name in (
        ("frog", "frog-side"),
        ("ferrule, arch", "ferrule-arch-strip"),
        ("ferrule, plate", "ferrule-plate"),
        ("heel plate", "heel-plate"),
        ("underslide", "underslide"),
        ("tip plate", "head-plate"),
        ("liner", "head-liner"),
        ("slide, facing", "slide-outline"),
        ("thumb", "bow-thumb-leather"),
    ):
        if use not in rows or not TEMPLATES[name].wanted(bow.p):
            continue
        (outline, *_) = paths(views(bow, name)[0], "OUTLINE")
        left, low, right, high = outline.box
        sizes = sorted((right - left, high - low))
        room = sorted(rows[use][:2])
        assert sizes[0] <= room[0] + 1e-9, use
        assert sizes[1] <= room[1] + 1e-9, use


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("paper", [(210.0, 297.0), (215.9, 279.4)])
def test_the_work_card_is_one_page(family: str, paper: tuple[float, float]) -> None:
    """Its boxes are filled in by hand: one page. Sources: ISO 216; letter from memory.

    Beside the drawing stand margins of 10 and the bar: 20 left, 10 right; 80 under it, 10 over it.
    """
    p = rendering.read(str(PARAMS / f"{family}.toml"))
    tables = TEMPLATES["bow-work-card"].views(p)
    boxes = [[s.path.box for s in view.strokes] for view in tables]
    wide = max(max(b[2] for b in rows) - min(b[0] for b in rows) for rows in boxes)
    high = sum(max(b[3] for b in rows) - min(b[1] for b in rows) for rows in boxes)
    assert wide <= paper[0] - 35.0
    assert high <= paper[1] - 100.0
    assert free_space(tables, "a4" if paper[0] == 210.0 else "letter") >= 0.0


def test_the_work_card_gives_the_hair_as_long_as_its_measuring_stick(bow: Bow) -> None:
    """Both are the drawn hair, slack, from the ferrule's front to the face's rear edge.

    The bent stick's underside is as long as the straight one; its chord is shorter by 8 c²/3L, and
    the frog's foot leans back by the slope 4 c/L there. Source: a shallow arc, any handbook.
    """
    b = bow
    (stick,) = views(b, "bow-height-stick")
    (outline,) = paths(stick, "OUTLINE")
    _, rest = views(b, "bow-work-card")
    told = float({row[0]: row[1] for row in rest.table}["hair slack, ferrule to head"])
    assert told == pytest.approx(outline.box[2] - outline.box[0], abs=0.051)
    run = b("stick.length") - b("head.face_length") - b("frog.front_at_play")
    deep = b("stick.camber_depth")
    foot = b("frog.clear_height") - b("ferrule.plate_thickness")
    chord = run - 8 * deep**2 / (3 * run)
    assert told == pytest.approx(chord + foot * sin(atan(4 * deep / chord)), abs=0.2)


def test_dummy_frog_names_its_clamping_place(bow: Bow) -> None:
    (view,) = views(bow, "frog-dummy")
    assert f"front in play {bow('frog.front_at_play'):g} from the butt's shoulder" in view.title


def test_handle_gives_the_length_of_the_nipple(bow: Bow) -> None:
    """The nipple is turned to this sheet, so its length must be drawn as well as its diameter."""
    (view,) = views(bow, "stick-handle")
    lengths = [(d.p[0], d.q[0]) for d in view.dimensions if isinstance(d, HorizontalDim)]
    assert (-bow("stick.nipple_length"), 0) in lengths


def test_work_card_lists_the_stated_numbers(bow: Bow) -> None:
    stages, rest = views(bow, "bow-work-card")
    told = {row[0]: row[1] for row in rest.table[1:]}
    b = bow
    assert told["ferrule, outside width × height"] == (
        f"{b('ferrule.outer_width'):g} × {b('ferrule.height'):g}"
    )
    assert float(told["frog, facet to bottom plane"]) == b("frog.clear_height")
    assert float(told["frog, length at the bottom"]) == b("frog.length_bottom")
    assert float(told["camber, without hair"]) == b("stick.camber_depth")
    assert float(told["head, face to top of the stick"]) == b("head.height")
    # A shallow bow's chord is shorter than its arc by 8 c²/3L. Source: any handbook, segments.
    bend = 8 * b("stick.camber_depth") ** 2 / (3 * b("hair.length"))
    overall = b("stick.length") - bend + b("button.length")
    assert float(told["bow, length with its button"]) == pytest.approx(overall, abs=0.15)
    names = stages.table[0]
    finished = list(names).index("finished")
    for row in stages.table[1:-1]:
        x = float(row[0])
        if x <= b("stick.handle_length"):
            assert float(row[finished]) == pytest.approx(b.handle(x), abs=0.0051 + 0.002)
    for name, over in (("octagon", 1.0), ("plus 0.4", 0.4), ("plus 0.2", 0.2)):
        column = list(names).index(name)
        for row in stages.table[1:-1]:
            # The handle's facets are final before the frog is fitted to them.
            done = name != "octagon" and float(row[0]) <= b("stick.handle_length")
            left = float(row[column]) - float(row[finished])
            assert left == pytest.approx(0.0 if done else over, abs=0.011)
