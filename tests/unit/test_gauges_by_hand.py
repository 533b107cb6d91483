"""Check the positions that gauges transfer, measured on the drawn lines.

Each expected length is worked out here from the numbers the maker states: an octagon's facet is
0.41421 of its width over flats and its diagonals are at 45° (any handbook); the rest is addition.
"""

from __future__ import annotations

from math import pi, radians, sqrt, tan

import pytest
from outside.maker import PARAMS

from templates_gen.bow import catalogue
from templates_gen.bow.dims.masses import Masses
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import View
from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering

STARTERS = ("violin", "cello", "bass-french", "bass-german")
TEMPLATES = {t.name: t for t in catalogue.templates()}
FACET = tan(radians(22.5))


@pytest.fixture(scope="module", params=STARTERS)
def p(request: pytest.FixtureRequest) -> Pattern:
    return rendering.read(str(PARAMS / f"{request.param}.toml"))


def lines(view: View, layer: Layer) -> list[Path]:
    return [s.path for s in view.strokes if s.layer is layer]


def handle(p: Pattern, x: float) -> float:
    """Handle across flats at a place from the butt."""
    butt, end = p.values["stick.across_flats_butt"], p.values["stick.across_flats_handle_end"]
    return butt + (end - butt) * x / p.values["stick.handle_length"]


def over_eyelet(p: Pattern) -> float:
    """Where the eyelet stands on the stick in play (mm from the butt)."""
    v = p.values
    return v["frog.front_at_play"] - v["frog.length_bottom"] + v["eyelet.from_heel"]


def test_the_eyelet_gauge_holds_the_thread_on_the_axis_of_the_handle(p: Pattern) -> None:
    """The land is a chord between the diagonals, so its width gives the axis height.

    The foot is 0.2 narrower than the land where the eyelet stands. The land over that place is the
    facet with the frog foremost, less the relief; in play the diagonals touch at the front.
    """
    (view,) = TEMPLATES["frog-eyelet-gauge"].views(p)
    (outline,) = lines(view, Layer.OUTLINE)
    (mark,) = lines(view, Layer.DRILL)
    whole = mark.as_circle()
    assert whole is not None
    (x, axis), _ = whole
    foot = [u for u, v in (q[:2] for q in outline.vertices) if v == 0.0]
    v = p.values
    foremost = v["stick.mortise_from_butt"] + v["stick.mortise_length"] - v["eyelet.length"] / 2
    land = FACET * handle(p, foremost) - v["frog.land_relief"]
    assert x == 0.0
    assert max(foot) - min(foot) == pytest.approx(land - 0.2, abs=1e-9)
    # At the front of the frog the stick lies on both diagonals; its axis is level from there.
    front = v["frog.length_top"]
    in_play = v["frog.front_at_play"] - v["frog.length_bottom"] + front
    narrow = FACET * handle(p, foremost - v["eyelet.from_heel"] + front) - v["frog.land_relief"]
    at_front = (sqrt(2) * handle(p, in_play) - narrow) / 2
    # The seat rises with the handle's taper: half of what it thins from eyelet to front.
    thins = (handle(p, over_eyelet(p)) - handle(p, in_play)) / 2
    assert axis == pytest.approx(at_front + thins, abs=1e-9)


def test_the_seat_gauge_is_the_handle_over_the_eyelet(p: Pattern) -> None:
    (view,) = TEMPLATES["frog-seat-gauge"].views(p)
    (outline,) = lines(view, Layer.OUTLINE)
    (axis,) = lines(view, Layer.SCRIBE)
    left, bottom, right, _ = outline.box
    wide = handle(p, over_eyelet(p))
    flat = [u for u, v in (q[:2] for q in outline.vertices) if v == bottom]
    assert right - left == pytest.approx(wide, abs=1e-9)
    assert max(flat) - min(flat) == pytest.approx(FACET * wide, abs=1e-9)
    assert axis.start[1] - bottom == pytest.approx(wide / 2, abs=1e-9)


def test_the_eye_locator_lies_heel_to_heel_and_bottom_to_bottom(p: Pattern) -> None:
    """The eye's centre: half way from heel to throat, half way up to the ebony under the stick."""
    t = TEMPLATES["frog-eye-locator"]
    if not t.wanted(p):
        pytest.skip("this bow has no eye")
    (view,) = t.views(p)
    (card,) = lines(view, Layer.OUTLINE)
    (eye,) = lines(view, Layer.HIDDEN)
    whole, v = eye.as_circle(), p.values
    assert whole is not None
    (x, z), radius = whole
    throat = v["frog.length_bottom"] - v["ferrule.length"] - v["frog.throat_depth"]
    lining = v["underslide.thickness"] if v["underslide.kind"] == "lined" else 0.0
    assert x - card.box[0] == pytest.approx(throat / 2 + v["frog.eye_forward"], abs=1e-9)
    assert z - card.box[1] == pytest.approx(
        (v["frog.clear_height"] - lining) / 2 + v["frog.eye_up"], abs=1e-9
    )
    assert 2 * radius == pytest.approx(v["frog.eye_diameter"])
    assert "left edge at the heel" in view.title
    assert "lower edge at the bottom" in view.title


def test_the_eye_locator_and_the_side_outline_show_the_eye_in_one_place(p: Pattern) -> None:
    """Both lie heel left, stick side up: a mirrored card would prick the other end."""
    t = TEMPLATES["frog-eye-locator"]
    if not t.wanted(p):
        pytest.skip("this bow has no eye")
    (card,), (side, *_) = t.views(p), TEMPLATES["frog-side"].views(p)
    (eye,) = (q.as_circle() for q in lines(card, Layer.HIDDEN))
    drawn = [q for s in side.strokes if (q := s.path.as_circle()) is not None]
    assert eye is not None
    assert any(
        q[0] == pytest.approx(eye[0], abs=1e-9) and q[1] == pytest.approx(eye[1]) for q in drawn
    )
    assert t.up == TEMPLATES["frog-side"].up == "stick side up"


#: Templates drawn in a plane of the bow, and which way the hair or the plate lies on the sheet.
#: In the frog's frame the stick is above; in the stick's and the head's, the hair is below.
DOWN = {
    "ferrule-mandrel": "plate side down",
    "ferrule-counter-form": "plate side down",
    "frog-side": "stick side up",
    "frog-dummy": "stick side up",
    "frog-flank-gauge": "stick side up",
    "frog-eyelet-gauge": "stick side up",
    "frog-eye-locator": "stick side up",
    "frog-front": "stick side up",
    "frog-rear": "stick side up",
    "frog-seat-gauge": "hair side down",
    "head-side": "hair side down",
    "stick-handle": "hair side down",
    "stick-butt": "hair side down",
    "slide-dovetail": "hair side down",
    "frog-bottom": "hair side up",
    "frog-channel-card": "hair side up",
    "frog-mortise-card": "hair side up",
    "stick-mortise-card": "hair side up",
    "head-face": "hair side up",
    "head-mortise-card": "hair side up",
    "frog-top": "stick side up",
    "frog-section-waist": "stick side up",
    "frog-section-mortise": "stick side up",
    "frog-section-eyelet": "stick side up",
    "frog-eyelet-card": "stick side up",
    "frog-plug": "hair side down",
    "head-rear": "hair side down",
    "head-plug": "hair side down",
    "head-caul": "face up",
    "head-bevel-card": "hair side down",
    "head-plate": "outside face up",
    "stick-blank": "top of the stick up",
    "slide-outline": "visible face up",
    "underslide": "stick side up",
    "underslide-press": "stick side up",
    "heel-plate": "outside face down",
    "ferrule-arch-strip": "outside face up",
    "form-camber-card": "hair side down",
    "bow-frog-on-stick": "hair side down",
    "bow-hair-line": "hair side down",
    "bow-thumb-leather": "grain side up",
    "bow-sighting-gauge": "hair side down",
}


@pytest.mark.parametrize("name", DOWN)
def test_the_sheet_says_which_side_is_up(name: str) -> None:
    assert TEMPLATES[name].up == DOWN[name]


def test_the_mandrel_is_drawn_plate_side_down(p: Pattern) -> None:
    """Its only straight side is the one on the plate, and it is the lowest."""
    (view,) = TEMPLATES["ferrule-mandrel"].views(p)
    (section,) = lines(view, Layer.OUTLINE)
    bottom = section.box[1]
    level = [s for s in section.segments if s.is_line and s.start[1] == s.end[1] == bottom]
    assert sum(s.length for s in level) == pytest.approx(section.box[2] - section.box[0])
    assert TEMPLATES["ferrule-mandrel"].up == "plate side down"


def test_the_counter_form_is_drawn_plate_side_down(p: Pattern) -> None:
    """The hollow opens below, where the plate will be."""
    (view,) = TEMPLATES["ferrule-counter-form"].views(p)
    (form,) = lines(view, Layer.OUTLINE)
    left, bottom, right, _ = form.box
    level = [s for s in form.segments if s.is_line and s.start[1] == s.end[1] == bottom]
    assert sum(s.length for s in level) < right - left - p.values["ferrule.outer_width"] + 1e-6


# --- what is weighed ------------------------------------------------------------------------------


def piece(p: Pattern, name: str) -> tuple[float, float]:
    """Mass (g) and place (mm) of a piece of the bow."""
    (found,) = [q for q in p.derive(Masses).pieces if q.name == name]
    return float(found.mass), float(found.x)


def test_the_nipple_lies_behind_the_butt(p: Pattern) -> None:
    """A longer nipple adds a tube behind x = 0: its moment is negative.

    Source: a tube's volume π/4 (D² − d²) l with its middle half way along, any handbook.
    """
    v, longer = p.values, 5.0
    short, long = p.with_("stick.nipple_length", 1.0), p.with_("stick.nipple_length", longer)
    (m0, x0), (m1, x1) = piece(short, "stick"), piece(long, "stick")
    tube = pi / 4 * (v["stick.nipple_diameter"] ** 2 - v["stick.rear_bore"] ** 2)
    density = m1 - m0
    assert density > 0
    grams = density / (tube * (longer - 1.0))
    assert grams == pytest.approx(stick_density(p) * 1e-6, rel=1e-9)
    assert m1 * x1 - m0 * x0 == pytest.approx(-grams * tube * (longer**2 - 1) / 2, rel=1e-6)


def stick_density(p: Pattern) -> float:
    """kg/m³ of pernambuco, 1050. Source: The Wood Database, Paubrasilia echinata."""
    assert p.values["material.stick_wood"] in ("pernambuco", "bow-grade pernambuco")
    return 1050.0


def test_the_plug_in_the_head_is_as_wide_as_its_mortise_at_both_ends(p: Pattern) -> None:
    """A prism with a trapezoid for its plan: half the sum of both widths (any handbook)."""
    v = p.values
    knot = 0.2 * sqrt(v["hair.count"] / 0.75) + 0.5
    deep = v["head.mortise_depth"] - v["head.plate_thickness"] - v["head.liner_thickness"] - knot
    wide = (v["head.mortise_width"] + v["head.mortise_width_front"]) / 2
    mass, _ = piece(p, "plug in the head")
    assert mass == pytest.approx(600e-6 * v["head.mortise_length"] * wide * deep, rel=1e-9)
    narrower = p.with_("head.mortise_width_front", v["head.mortise_width_front"] - 1.0)
    less = mass - piece(narrower, "plug in the head")[0]
    assert less == pytest.approx(600e-6 * v["head.mortise_length"] * 0.5 * deep, rel=1e-6)
