"""Compare the sections that confirm a part's solid with its outline less the stated pockets.

Referee: shapely takes the pockets, boxes from the stated numbers, from the drawn outside. An
octagon's facet is 0.41421 of its width over flats and its diagonals stand at 45° (any handbook).
"""

from __future__ import annotations

from math import hypot, radians, tan

import pytest
from geometry_referee import polygon_of
from outside.by_hand import FACET, Bow
from outside.maker import PARAMS
from shapely import Polygon, box

from templates_gen.parts.frog import outline as frog_outline
from templates_gen.parts.frog import solid as frog_solid
from templates_gen.parts.head import outline as head_outline
from templates_gen.parts.head import solid as head_solid
from templates_gen.parts.head.dims_neck import neck
from templates_gen.parts.heel.params import HeelKind
from templates_gen.parts.stick import outline as stick_outline
from templates_gen.pipeline import rendering


@pytest.fixture(scope="module", params=["violin", "cello", "bass-french", "bass-german"])
def bow(request: pytest.FixtureRequest) -> Bow:
    return Bow(rendering.read(str(PARAMS / f"{request.param}.toml")))


@pytest.mark.parametrize("beyond", [-0.6, 0.5])
def test_the_slotted_handle_is_the_octagon_less_the_slot(bow: Bow, beyond: float) -> None:
    """With a slot narrower than the facet, and with one whose mouth is on the diagonals."""
    x = (float(bow("stick.mortise_from_butt")) + bow.slot_end) / 2
    wide = bow.handle(x)
    p = bow.p.with_("stick.mortise_width", FACET * wide + beyond)
    half, side = wide / 2, FACET * wide / 2
    ring = [(side, -half), (half, -side), (half, side), (side, half)]
    octagon = Polygon([*ring, *((-u, v) for u, v in ring[::-1])])
    cheek = side + beyond / 2
    left = octagon.difference(box(-cheek, -99.0, cheek, float(bow("stick.mortise_depth")) - half))
    drawn = polygon_of(stick_outline.slotted(p, x), 1e-6)
    assert drawn.symmetric_difference(left).area < 1e-6


@pytest.mark.parametrize("share", [1.0, 0.45])
def test_centre_of_the_head_is_that_of_its_side_less_the_mortise(bow: Bow, share: float) -> None:
    """The front wall leans forward by its undercut; it meets the face where the face is.

    That is where the face has begun to rise; of a shorter mortise, where it is still flat.
    """
    bow = Bow(bow.p.with_("head.mortise_length", share * bow("head.mortise_length")))
    rear, front, deep = (
        float(bow("head.mortise_from_rear")),
        bow.head_mortise_front,
        float(bow("head.mortise_depth")),
    )
    lean = tan(radians(bow("head.mortise_undercut_deg")))
    walls = [(rear, -1.0), (front - lean, -1.0), (front + deep * lean, deep), (rear, deep)]
    side = polygon_of(head_outline.side(bow.p), 1e-6)
    drawn = polygon_of(head_solid.recipe(bow.p).middle, 1e-6)
    assert drawn.symmetric_difference(side.difference(Polygon(walls))).area < 1e-4


def test_stick_behind_the_head_matches_the_drawn_side(bow: Bow) -> None:
    """From a place on the drawn underside, square to it, to the drawn top."""
    n, start = neck(bow.p), (0.0, float(bow("head.height")))
    (top,) = (s for s in head_outline.side(bow.p).segments if s.start == start and s.end[0] < -9.0)
    for turn, across in head_outline.stick(bow.p):
        low, high = across.box[1], across.box[3]
        assert high - low == pytest.approx(across.box[2] - across.box[0], abs=1e-9)
        ux, uz = -tan(turn), -1.0
        scale = (n.under - (high - low)) / hypot(ux, uz)
        at = (n.centre[0] + scale * ux, n.centre[1] + scale * uz)
        assert hypot(at[0] - top.centre[0], at[1] - top.centre[1]) == pytest.approx(top.radius)


def test_a_bare_heel_meets_the_channels_end_at_the_bottom(bow: Bow) -> None:
    """Without a plate the bottom runs level from the heel's rounding to the slide, then up."""
    p = bow.p.with_("heel.kind", HeelKind.NONE)
    middle = frog_outline.middle(p)
    corners = {(round(x, 6), round(z, 6)) for x, z, _ in middle.vertices}
    foot, end = round(float(bow("heel.bottom_radius")), 6), round(bow.leg_zone, 6)
    assert {(foot, 0.0), (end, 0.0), (end, round(float(bow("slide.thickness")), 6))} <= corners
    assert middle.box[1] == 0.0


def test_frog_has_one_section_in_each_zone(bow: Bow) -> None:
    """Behind the mortise, through it, and ahead of it: each section shows other walls."""
    rear, front = float(bow("frog.hair_mortise_from_heel")), bow.front_wall
    places = frog_solid.stations(bow.p)
    assert any(rear < x < front for x in places)
    assert any(front < x < bow.throat for x in places)
    behind = max(float(bow("heel.leg_length")), bow.leg_zone)
    assert sum(behind < x < rear for x in places) == 1
