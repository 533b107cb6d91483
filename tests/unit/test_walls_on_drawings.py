"""Compare the walls of checks with distances between drawn lines, measured by shapely.

Source: shapely (GEOS), distance of a point or line from a line; the points and the lines that come
from the stated numbers are worked out in ``outside.by_hand``. Arcs are flattened to 1e-4.
"""

from __future__ import annotations

from functools import cache
from math import radians, tan

import numpy as np
import pytest
from outside.by_hand import Bow
from outside.maker import PARAMS
from shapely.geometry import LineString, Point

from templates_gen.bow import catalogue
from templates_gen.geometry.flatten import flatten
from templates_gen.pipeline import rendering

RULES = {rule.id: rule for rule in catalogue.rules()}
TEMPLATES = {t.name: t for t in catalogue.templates()}
#: An outline's fitted arcs stand at most so far (mm) off their curves.
OFF = 0.012


@pytest.fixture(scope="module", params=["violin", "cello", "bass-french", "bass-german"])
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


def measured(b: Bow, rule: str) -> float:
    found = float(RULES[rule].bound(b.p).measured)
    if not np.isfinite(found):
        pytest.skip("this bow has no such part")
    return found


@cache
def outline(b: Bow, template: str, number: int = 0) -> LineString:
    """An outline of a template as a line."""
    view = TEMPLATES[template].views(b.p)[0]
    paths = [s.path for s in view.strokes if s.layer.value == "OUTLINE"]
    points = flatten(paths[number], 1e-4)
    return LineString([*points, points[0]])


@cache
def throat(b: Bow) -> LineString:
    """The drawn side between the shoulder and the thumb projection's straight line."""
    side = outline(b, "frog-side")
    low, high = float(b("ferrule.height")), float(b("frog.clear_height"))
    high -= float(b("frog.thumb_tip_thickness")) + 0.01
    keep = [(x, z) for x, z in side.coords if low - 1e-6 <= z <= high and x > b.throat - 0.01]
    runs = [p for p in keep if p[0] <= float(b("frog.length_top"))]
    return LineString(sorted(runs, key=lambda p: p[1]))


def eye(b: Bow) -> tuple[float, float, float]:
    view = TEMPLATES["frog-eye-locator"].views(b.p)[0]
    (whole,) = [s.path.as_circle() for s in view.strokes if s.layer.value == "HIDDEN"]
    assert whole is not None
    return (*whole[0], whole[1])


def test_the_mortise_keeps_off_the_throat(bow: Bow) -> None:
    floor = float(bow("slide.thickness"))
    wall = LineString(
        [(bow.front_wall, floor), (bow.front_wall, floor + float(bow("frog.hair_mortise_depth")))]
    )
    meant = wall.distance(throat(bow))
    assert measured(bow, "frog.mortise_to_throat") == pytest.approx(meant, abs=OFF)


def test_the_eye_keeps_off_throat_heel_edge_and_bottom(bow: Bow) -> None:
    """Its recess is drilled square to the flank, which leans: the rim shifts by up to 0.1."""
    got = measured(bow, "frog.eye_to_throat")
    x, z, r = eye(bow)
    assert got == pytest.approx(Point(x, z).distance(throat(bow)) - r, abs=OFF)
    edge = float(bow("frog.overall_height"))
    assert measured(bow, "frog.eye_to_edge") == pytest.approx(edge - z - r, abs=0.1)
    assert measured(bow, "frog.eye_to_bottom") == pytest.approx(z - r, abs=0.1)
    if bow("heel.lean_deg") == 0:
        plated = bow("heel.kind") != "none"
        sheet = float(bow("heel.plate_thickness")) if plated else 0.0
        assert measured(bow, "frog.eye_to_heel") == pytest.approx(x - r - sheet)


def test_drawn_throat_has_the_depth_and_radius_that_is_checked(bow: Bow) -> None:
    line = throat(bow)
    assert line.bounds[0] == pytest.approx(bow.throat, abs=1e-6)
    arcs = [
        s.radius
        for q in TEMPLATES["frog-side"].views(bow.p)[0].strokes[:1]
        for s in q.path.segments
        if not s.is_line and bow.throat - 1e-6 <= min(s.box[0], s.box[2]) <= bow.throat + 1e-6
    ]
    assert measured(bow, "frog.throat_arcs") == pytest.approx(min(arcs), abs=0.05)


def test_the_slide_spans_cover_and_leave_the_wall_beside_it(bow: Bow) -> None:
    """The heel's leg, 2 more, and 1 more where the slide runs under the plate."""
    limit = float(RULES["frog.slide_covers_mortise"].bound(bow.p).limit)
    plated = bow("heel.kind") != "none"
    leg = float(bow("heel.leg_length")) if plated else bow.leg_zone
    assert limit == pytest.approx(leg + 2 + (1 if leg - bow.leg_zone > 0.3 else 0))
    under = bow.p.with_("heel.leg_length", bow.leg_zone + 0.4)
    bound = RULES["frog.slide_covers_mortise"].bound(under)
    if plated:
        assert float(bound.limit) == pytest.approx(bow.leg_zone + 0.4 + 3)
    assert float(bound.measured) == bow("frog.hair_mortise_from_heel")


def test_flank_keeps_off_the_mortise_as_the_section_shows(bow: Bow) -> None:
    """Least distance between the mortise's side and the drawn flank, all the way up."""
    section = outline(bow, "frog-section-waist")
    half, floor = float(bow("frog.hair_mortise_width")) / 2, float(bow("slide.thickness"))
    band, top = float(bow("frog.flank_band")), float(bow("frog.overall_height")) - 0.5
    flank = [(y, z) for y, z in section.coords if band + 0.01 < z < top and y > half]
    flank = sorted(flank, key=lambda p: p[1])
    outer = LineString([p for p in flank if p[0] >= float(bow("frog.width_waist")) / 2 - 1e-3])
    side = LineString([(half, floor), (half, floor + float(bow("frog.hair_mortise_depth")))])
    assert measured(bow, "frog.mortise_to_flank") == pytest.approx(side.distance(outer), abs=0.05)


# --- head -----------------------------------------------------------------------------------------


def foot(b: Bow) -> tuple[float, float]:
    """The mortise's front corner at its full depth: it is undercut."""
    deep = float(b("head.mortise_depth"))
    return b.head_mortise_front + deep * tan(radians(b("head.mortise_undercut_deg"))), deep


@cache
def ridge(b: Bow) -> LineString:
    """The drawn head from the crown to the nose."""
    side = outline(b, "head-side")
    nose = float(b("head.nose_rise") + b("head.nose_thickness"))
    crown = float(b("head.crown_fraction") * b("head.face_length"))
    points = [(x, z) for x, z in side.coords if x >= crown - 1e-6 and z >= nose - 1e-6]
    return LineString(sorted(set(points)))


def test_the_mortise_keeps_off_the_ridge(bow: Bow) -> None:
    meant = Point(*foot(bow)).distance(ridge(bow))
    assert measured(bow, "head.mortise_to_ridge") == pytest.approx(meant, abs=OFF)


def test_the_mortise_keeps_off_the_back(bow: Bow) -> None:
    """The back is straight from the face's rear edge at its angle to the face."""
    side = outline(bow, "head-side")
    back = LineString(
        [(x, z) for x, z in side.coords if x < 0.01 and z <= bow("head.mortise_depth")]
    )
    rear, deep = float(bow("head.mortise_from_rear")), float(bow("head.mortise_depth"))
    wall = LineString([(rear, 0.0), (rear, deep)])
    way = radians(float(bow("head.back_deg")))
    straight = LineString([(0.0, 0.0), (deep * 2 / tan(way), deep * 2)])
    meant = min(wall.distance(straight), 99.0)
    # Where the back leans away the check measures square to it, a little less.
    assert meant - 0.03 < measured(bow, "head.mortise_to_back") < meant + 1e-6
    assert back.distance(Point(0.0, 0.0)) < 0.05


def test_the_mortise_keeps_off_the_sides(bow: Bow) -> None:
    """At its rear: half the face there, less half the mortise and the lean of the cheek."""
    face = outline(bow, "head-face")
    rear = float(bow("head.mortise_from_rear"))
    across = face.intersection(LineString([(rear, 0.0), (rear, 99.0)]))
    half = max(y for _, y in across.coords)
    lean = tan(radians(bow("head.cheek_lean_deg"))) * float(bow("head.mortise_depth"))
    at_face = half - float(bow("head.mortise_width")) / 2
    assert measured(bow, "head.mortise_side_rear") == pytest.approx(at_face, abs=0.01)
    assert measured(bow, "head.mortise_sides") <= at_face - lean + 0.01


def test_the_least_radius_of_the_ridge_is_that_of_a_drawn_arc(bow: Bow) -> None:
    view = TEMPLATES["head-side"].views(bow.p)[0]
    crown = float(bow("head.crown_fraction") * bow("head.face_length"))
    nose = float(bow("head.nose_rise") + bow("head.nose_thickness"))
    radii = [
        s.radius
        for s in view.strokes[0].path.segments
        if not s.is_line
        and min(s.start[0], s.end[0]) >= crown - 1e-6
        and min(s.start[1], s.end[1]) >= nose - 1e-6
    ]
    assert measured(bow, "head.ridge_radii") == pytest.approx(min(radii), rel=1e-6)


# --- slack hair -----------------------------------------------------------------------------------


def test_the_slack_hair_clears_the_stick_as_drawn(bow: Bow) -> None:
    """The hair line is y = 0, the stick's underside is above it."""
    view = TEMPLATES["bow-hair-line"].views(bow.p)[0]
    under = min(
        (s.path for s in view.strokes if s.layer.value == "SCRIBE" and s.path.length > 200),
        key=lambda q: q.box[1],
    )
    assert measured(bow, "bow.hair_clears") == pytest.approx(under.box[1], abs=0.15)
    assert measured(bow, "bow.hair_near") == pytest.approx(under.box[1], abs=0.15)


# --- shank and sections -----------------------------------------------------------------------


def test_the_shank_keeps_off_the_mortise_above_it_or_ahead_of_it(bow: Bow) -> None:
    """Above, the wall itself counts; ahead or behind, a wall along the bow counts 1 mm less."""
    lining = float(bow("underslide.thickness")) if bow("underslide.kind") == "lined" else 0.0
    for at in (bow.front_wall + 4.0, bow.front_wall - 2.0):
        moved = Bow(bow.p.with_("eyelet.from_heel", at))
        r = float(moved("eyelet.shank_diameter")) / 2
        ahead = at - r - moved.front_wall - 1.0
        behind = float(moved("frog.hair_mortise_from_heel")) - at - r - 1.0
        # The land is a little lower than the facet; the shank counts from the ebony under it.
        foot = float(moved("frog.clear_height")) - lining - float(moved("eyelet.shank_length"))
        top = float(moved("slide.thickness") + moved("frog.hair_mortise_depth"))
        assert measured(moved, "frog.shank_to_mortise") == pytest.approx(
            max(foot - top, ahead, behind), abs=0.12
        )


def test_the_section_at_the_mortise_keeps_off_the_shanks_bore(bow: Bow) -> None:
    """The section is at the mortise's middle, or 0.5 mm clear of the shank if that is there."""
    rear = float(bow("frog.hair_mortise_from_heel"))
    middle = (rear + bow.front_wall) / 2
    for at in (middle, middle + 6.0 + float(bow("eyelet.shank_diameter"))):
        moved = bow.p.with_("eyelet.from_heel", at)
        (view, *_) = TEMPLATES["frog-section-mortise"].views(moved)
        x = float(view.title.split(", ")[1].split(" ")[0])
        r = float(bow("eyelet.shank_diameter")) / 2
        assert x == pytest.approx(middle if at > middle + r else at - r - 0.5, abs=0.051)
