"""Check that lines on the sheets are where the stated numbers put them.

For each template, the bounding boxes of some lines, by layer, calculated here from the stated
numbers (``outside.by_hand``; frames as the docs letter them). Where a curve would need more
than simple arithmetic, the tests of its shape cover it.
"""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, radians, sqrt, tan

import pytest
from outside.by_hand import FACET, Bow
from outside.maker import PARAMS

from templates_gen.bow import catalogue
from templates_gen.pipeline import rendering

Box = tuple[float, float, float, float]
Lines = list[tuple[str, Box]]
TEMPLATES = {t.name: t for t in catalogue.templates()}
#: A fitted arc may stand so far (mm) off its curve.
OFF = 0.012


@pytest.fixture(scope="module", params=["violin", "cello", "bass-french"])
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


def level(x0: float, x1: float, y: float) -> Box:
    return (x0, y, x1, y)


def upright(x: float, y0: float, y1: float) -> Box:
    return (x, y0, x, y1)


def about(x: float, y: float, half: float, high: float | None = None) -> Box:
    """A box round a middle."""
    up = half if high is None else high
    return (x - half, y - up, x + half, y + up)


def land(b: Bow, x: float) -> float:
    """Width of the seat's land: the facet with the frog foremost, less the relief."""
    facet = FACET * b.handle(b.foremost - b("eyelet.from_heel") + x)
    return facet - float(b("frog.land_relief"))


def lining(b: Bow) -> float:
    return float(b("underslide.thickness")) if b("underslide.kind") == "lined" else 0.0


def eye(b: Bow) -> tuple[float, float]:
    x = b.throat / 2 + b("frog.eye_forward")
    return float(x), float((b("frog.clear_height") - lining(b)) / 2 + b("frog.eye_up"))


def frog_side(b: Bow) -> Lines:
    length, high, s = b("frog.length_bottom"), b("ferrule.height"), b.shoulder
    floor, at = b("slide.thickness"), b("eyelet.from_heel")
    rear, front = b("frog.hair_mortise_from_heel"), b.front_wall
    return [
        ("OUTLINE", (0.0, 0.0, length - 0.3, b("frog.overall_height"))),
        ("HIDDEN", level(s, length, 0.0)),
        ("HIDDEN", upright(length, 0.0, high)),
        ("HIDDEN", level(s, length, high)),
        ("HIDDEN", level(0.0, b("frog.length_top"), b("frog.clear_height"))),
        ("HIDDEN", level(s - b("slide.length"), s, floor)),
        ("HIDDEN", (rear, floor, front, floor + b("frog.hair_mortise_depth"))),
        ("HIDDEN", about(*eye(b), b("frog.eye_diameter") / 2)),
        ("CENTRE", upright(at, -3.0, b("frog.overall_height") + 4)),
    ]


def frog_top(b: Bow) -> Lines:
    long, half, at = b("frog.length_top"), b("frog.width_top") / 2, b("eyelet.from_heel")
    r = b("eyelet.shank_diameter") / 2
    # Cut is the ebony's floor. Parallel to the stick's facets by the lining, two of its corners of
    # 135° stand each tan 22.5° of that farther out.
    a, z = (land(b, x) / 2 + FACET * lining(b) for x in (0.0, long))
    return [
        ("OUTLINE", (0.0, -half, long, half)),
        ("SCRIBE", (0.0, min(a, z), long, max(a, z))),
        ("SCRIBE", (0.0, -max(a, z), long, -min(a, z))),
        ("SCRIBE", about(at, 0.0, r)),
        ("CENTRE", upright(at, -r - 1, r + 1)),
    ]


def frog_bottom(b: Bow) -> Lines:
    wide = max(b("frog.width_heel"), b("ferrule.outer_width")) / 2
    channel = (b("slide.width_front") + b("slide.channel_fit")) / 2
    return [
        ("OUTLINE", (0.0, -wide, b("frog.length_bottom") - 0.3, wide)),
        ("SCRIBE", (b.leg_zone, -channel, b.shoulder - 0.02, channel)),
        (
            "SCRIBE",
            (
                b("frog.hair_mortise_from_heel"),
                -b("frog.hair_mortise_width") / 2,
                b.front_wall,
                b("frog.hair_mortise_width") / 2,
            ),
        ),
    ]


def frog_front(b: Bow) -> Lines:
    half, top = b("ferrule.outer_width") / 2, b("frog.width_top") / 2
    tip = b("frog.clear_height") - b("frog.thumb_tip_thickness")
    return [
        ("OUTLINE", (-half, 0.0, half, b("ferrule.height"))),
        ("OUTLINE", (-top, tip, top, b("frog.overall_height"))),
    ]


def frog_rear(b: Bow) -> Lines:
    lean = cos(radians(b("heel.lean_deg")))
    low = b("heel.rear_leg") * lean
    r = b("heel.pin_diameter") / 2
    lines = [
        (
            "OUTLINE",
            (-b("frog.width_heel") / 2, 0.0, b("frog.width_heel") / 2, b("frog.overall_height")),
        ),
        ("CENTRE", upright(0.0, -3.0, b("frog.overall_height") + 3)),
    ]
    if b("heel.kind") == "one-piece":
        lines.append(("DRILL", about(0.0, low - b("heel.pin_from_edge") * lean, r)))
    return lines


def section_at_eyelet(b: Bow) -> Lines:
    x = b("eyelet.from_heel")
    heel, shoulder = b("frog.width_heel") / 2, b("ferrule.outer_width") / 2
    half = heel + (shoulder - heel) * x / b.shoulder
    return [("OUTLINE", (-half, 0.0, half, b("frog.overall_height")))]


def notch_gauge(b: Bow) -> Lines:
    long, wide = b("frog.length_bottom"), b("ferrule.outer_width")
    return [("OUTLINE", (0.0, 0.0, long + 16.0, 28.0))] if long > wide else []


def frog_dummy(b: Bow) -> Lines:
    floor = b("ferrule.plate_thickness")
    return [("OUTLINE", (0.0, floor, b("frog.length_bottom"), b("frog.clear_height")))]


def head_side(b: Bow) -> Lines:
    foot = b.head_mortise_front + b("head.mortise_depth") * tan(
        radians(b("head.mortise_undercut_deg"))
    )
    return [("HIDDEN", (b("head.mortise_from_rear"), 0.0, foot, b("head.mortise_depth")))]


def head_face(b: Bow) -> Lines:
    half, wide = b("head.width") / 2, b("head.mortise_width") / 2
    return [
        ("OUTLINE", (0.0, -half, b("head.face_length"), half)),
        ("POCKET", (b("head.mortise_from_rear"), -wide, b.head_mortise_front, wide)),
    ]


def head_rear(b: Bow) -> Lines:
    half, up = b("head.width") / 2, b("head.mortise_depth") + 2.0
    foot = half - b("head.chamfer_width")
    top = foot - up * tan(radians(b("head.cheek_lean_deg")))
    return [
        ("OUTLINE", (-half, 0.0, half, b("head.height"))),
        ("SCRIBE", (top, 0.0, foot, up)),
        ("SCRIBE", (-foot, 0.0, -top, up)),
    ]


def stick_handle(b: Bow) -> Lines:
    rear, end = b("stick.mortise_from_butt"), b.slot_end
    r, f = b("stick.rear_bore") / 2, b("stick.front_bore") / 2
    behind, ahead = -b("stick.nipple_length"), end + b("screw.bearing_depth")
    mouth, far = b.handle(rear) / 2, b.handle(end) / 2
    deep = b("stick.mortise_depth")
    half = max(b.handle(0.0), b.handle(ahead + 8.0)) / 2
    return [
        ("OUTLINE", (behind, -half, ahead + 8.0, half)),
        ("HIDDEN", level(behind, rear, r)),
        ("HIDDEN", level(behind, rear, -r)),
        ("HIDDEN", level(end, ahead, f)),
        ("HIDDEN", level(end, ahead, -f)),
        ("HIDDEN", upright(ahead, -f, f)),
        ("HIDDEN", upright(rear, -mouth, deep - mouth)),
        ("HIDDEN", upright(end, -far, deep - far)),
    ]


def stick_butt(b: Bow) -> Lines:
    half = b("stick.across_flats_butt") / 2
    return [
        ("OUTLINE", about(0.0, 0.0, half)),
        ("SCRIBE", about(0.0, 0.0, b("stick.nipple_diameter") / 2)),
        ("DRILL", about(0.0, 0.0, b("stick.rear_bore") / 2)),
    ]


def mandrel(b: Bow) -> Lines:
    half, t, plate = (
        b("ferrule.outer_width") / 2,
        b("ferrule.arch_thickness"),
        b("ferrule.plate_thickness"),
    )
    high = b("ferrule.height") - plate
    return [
        ("OUTLINE", (-half + t, 0.0, half - t, high - t)),
        ("HIDDEN", (-half, -plate, half, high)),
    ]


def ferrule_plate(b: Bow) -> Lines:
    half, more, long = (
        b("ferrule.outer_width") / 2,
        b("ferrule.filing_allowance"),
        b("ferrule.length"),
    )
    return [
        ("OUTLINE", (-half - more, -more, half + more, long + more)),
        ("SCRIBE", upright(-half, -more, long + more)),
        ("SCRIBE", upright(half, -more, long + more)),
    ]


def slide_outline(b: Bow) -> Lines:
    half = b("slide.width_front") / 2
    floor = half + b("slide.thickness") * tan(radians(b("slide.dovetail_deg")))
    return [
        ("OUTLINE", (0.0, -half, b("slide.length"), half)),
        ("HIDDEN", (0.0, -floor, b("slide.length"), floor)),
    ]


def dovetail(b: Bow) -> Lines:
    more = b("slide.thickness") * tan(radians(b("slide.dovetail_deg")))
    front = b("slide.width_front") / 2 + more
    return [
        ("OUTLINE", (-front, 0.0, front, b("slide.thickness"))),
        (
            "OUTLINE",
            (
                -front + b("slide.width_taper") / 2,
                0.0,
                front - b("slide.width_taper") / 2,
                b("slide.thickness"),
            ),
        ),
    ]


def button_turning(b: Bow) -> Lines:
    long, corner = b("button.length"), 1 / cos(pi / 8) / 2
    half = b("button.across_flats") * corner
    bore, deep = b("button.counterbore_diameter") / 2, b("button.counterbore_depth")
    return [
        ("OUTLINE", (0.0, -half, long, half)),
        ("HIDDEN", level(0.0, deep, bore)),
        ("HIDDEN", level(0.0, deep, -bore)),
        ("HIDDEN", upright(deep, -bore, bore)),
    ]


def blank(b: Bow) -> Lines:
    return [("SCRIBE", upright(0.0, -b.handle(0.0) - 2.0, 0.0))] if b.bass else []


def underslide(b: Bow) -> Lines:
    if b("underslide.kind") != "lined":
        return []
    at, r = b("eyelet.from_heel"), (b("eyelet.shank_diameter") + 0.3) / 2
    return [("DRILL", about(at, 0.0, r))]


SHEETS: dict[str, Callable[[Bow], Lines]] = {
    "frog-side": frog_side,
    "frog-top": frog_top,
    "frog-bottom": frog_bottom,
    "frog-front": frog_front,
    "frog-rear": frog_rear,
    "frog-section-eyelet": section_at_eyelet,
    "frog-notch-gauge": notch_gauge,
    "frog-dummy": frog_dummy,
    "head-side": head_side,
    "head-face": head_face,
    "head-rear": head_rear,
    "stick-handle": stick_handle,
    "stick-butt": stick_butt,
    "stick-blank": blank,
    "ferrule-mandrel": mandrel,
    "ferrule-plate": ferrule_plate,
    "slide-outline": slide_outline,
    "slide-dovetail": dovetail,
    "button-turning": button_turning,
    "underslide": underslide,
}


@pytest.mark.parametrize("name", SHEETS)
def test_lines_are_where_the_stated_numbers_put_them(bow: Bow, name: str) -> None:
    t = TEMPLATES[name]
    if not t.wanted(bow.p):
        pytest.skip("this bow has no such template")
    drawn = [(s.layer.value, s.path.box) for view in t.views(bow.p) for s in view.strokes]
    for layer, box in SHEETS[name](bow):
        found = [other for own, other in drawn if own == layer]
        off = min(max(abs(a - z) for a, z in zip(box, other, strict=True)) for other in found)
        assert off < OFF, f"{layer} {box}"


def test_the_throat_of_the_dummy_and_the_frog_are_in_one_place(bow: Bow) -> None:
    """The eyelet's axis is marked over the same place of both."""
    at = float(bow("eyelet.from_heel"))
    for name in ("frog-side", "frog-dummy"):
        (view,) = TEMPLATES[name].views(bow.p)
        middles = [s.path.box[0] for s in view.strokes if s.layer.value == "CENTRE"]
        assert any(abs(x - at) < 1e-9 for x in middles)


def test_an_octagon_has_eight_equal_sides(bow: Bow) -> None:
    """Source: side of a regular octagon across flats a is a (√2 − 1), any handbook."""
    (view,) = TEMPLATES["stick-butt"].views(bow.p)
    (outline,) = (s.path for s in view.strokes if s.layer.value == "OUTLINE")
    side = float(bow("stick.across_flats_butt")) * (sqrt(2) - 1)
    assert [s.length for s in outline.segments] == pytest.approx([side] * 8, abs=0.02)


def test_the_octagon_gauge_takes_the_handle_flat_by_flat(bow: Bow) -> None:
    """Each notch is the lower half of an octagon: as wide as the flats, its foot one facet wide.

    Source: a regular octagon's facet is tan 22.5° of its width over flats.
    """
    (view,) = TEMPLATES["stick-octagon-gauge"].views(bow.p)
    (card,) = (s.path for s in view.strokes if s.layer.value == "OUTLINE")
    points = [(round(x, 6), round(y, 6)) for x, y, _ in card.vertices]
    feet = sorted(
        abs(s.end[0] - s.start[0])
        for s in card.segments
        if abs(s.end[1] - s.start[1]) < 1e-9 and 0.0 < s.start[1] < card.box[3] - 1e-6
    )
    meant = sorted(FACET * bow(f"stick.across_flats_{end}") for end in ("butt", "handle_end"))
    for wide in meant:
        assert any(abs(foot - wide) < 0.05 for foot in feet)
    for s in card.segments:
        dx, dy = abs(s.end[0] - s.start[0]), abs(s.end[1] - s.start[1])
        assert min(dx, dy, abs(dx - dy)) < 1e-9, "level, upright or at 45°"
    assert len(points) == len({*points})
