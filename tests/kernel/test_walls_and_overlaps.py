"""Walls measured between a solid's faces, and parts that stand in one another's place."""

import math

import pytest
from kernel.bench import BUILDERS, built, having, pattern

from templates_gen.bow import dims_frames as frames
from templates_gen.geometry import rectangle
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.wall import Wall

pytestmark = pytest.mark.kernel


@pytest.fixture
def solids():
    from templates_gen.kernel import solids

    return solids


@pytest.fixture
def assembly():
    from templates_gen.kernel import assembly

    return assembly


@pytest.mark.parametrize("stem", having("frog"))
@pytest.mark.parametrize("wall", ["mortise_to_throat", "shank_to_throat"])
def test_walls_of_ebony_are_what_the_checks_reckon(stem, wall, solids):
    """The check reckons in the plane; here the solid's own faces are measured."""
    frog = built(stem, "frog")
    measured = solids.wall(frog.solid, next(w for w in frog.walls if w.check == f"frog.{wall}"))
    reckoned = float(getattr(pattern(stem).derive(FrogDims), wall))
    assert measured == pytest.approx(reckoned, abs=1e-6)


def test_a_wall_between_two_bores(solids):
    """Two upright bores of radius 1 and 2, middles 7 apart: 4 of wood between them."""
    block = solids.box((-10, -5, 0), (10, 5, 3))
    bores = [solids.cylinder((x, 0, -1), (0, 0, 1), r, 5) for x, r in ((-3.0, 1.0), (4.0, 2.0))]
    drilled = solids.cut(block, *bores, step="bores")
    left, right, end = (-2.0, 0.0, 1.5), (2.0, 0.0, 1.5), (-10.0, 0.0, 1.5)
    assert solids.wall(drilled, Wall("", left, (right,))) == pytest.approx(4.0, abs=1e-9)
    # To the nearer of two faces: the block's left end is 6 from the left bore.
    behind = (-4.0, 0.0, 1.5)
    assert solids.wall(drilled, Wall("", behind, (end,))) == pytest.approx(6.0, abs=1e-9)
    assert solids.wall(drilled, Wall("", behind, (end, right))) == pytest.approx(4.0, abs=1e-9)


def test_a_wall_whose_face_is_gone_is_broken_through(solids):
    """A bore through the side it should stand clear of leaves nothing of that face's middle."""
    block, side, far = solids.box((0, -1, 0), (4, 1, 1)), (0.0, 0.0, 0.5), (4.0, 0.0, 0.5)
    assert solids.wall(block, Wall("", side, (far,))) == pytest.approx(4.0, abs=1e-9)
    open_ = solids.cut(block, solids.cylinder((0, 0, -1), (0, 0, 1), 0.6, 3), step="bore")
    assert solids.wall(open_, Wall("", side, (far,))) == 0.0
    assert solids.wall(open_, Wall("", far, ((2.0, 1.0, 0.5), side))) == 0.0


def test_a_frog_whose_eye_breaks_into_its_mortise_fails_on_the_solid(solids):
    """An eye sunk right through the web to the hair mortise: nothing of the wall is left."""
    p = pattern("violin").with_("frog.eye_thickness", 3.0)
    frog = BUILDERS["frog"].build(BUILDERS["frog"].recipe(p))
    (wall,) = [w for w in frog.walls if w.check == "frog.eye_to_mortise"]
    assert solids.wall(frog.solid, wall) == pytest.approx(0.0, abs=1e-9)


def test_a_quarter_turn_by_pappus(solids):
    """Source: Pappus: area times the way of its centroid; 2 × 3 at 4 from the axis, a quarter."""
    turned = solids.turned_out(rectangle(5, 0, 7, 3), 1.0, 10.0, "x")
    assert solids.volume(turned) == pytest.approx(6 * 4 * math.pi / 2, rel=1e-9)
    box = turned.BoundingBox(1e-9)
    # It leaves its section along x, on the side the bow's head is.
    assert (box.xmin, box.xmax) == pytest.approx((1.0, 6.0), abs=1e-6)
    assert (box.ymin, box.ymax) == pytest.approx((5.0, 10.0), abs=1e-6)


@pytest.mark.parametrize(
    ("axis", "centre"), [("x", (-2, 3, 4)), ("y", (2, -3, 4)), ("z", (2, 3, -4))]
)
def test_mirrored_on_each_plane(solids, axis, centre):
    turned = solids.mirrored(solids.box((1, 2, 3), (3, 4, 5)), axis)
    assert solids.centroid(turned) == pytest.approx(centre, abs=1e-9)
    assert solids.volume(turned) == pytest.approx(8, rel=1e-9)


def test_overlap_of_two_boxes(solids, assembly):
    here = solids.box((0, 0, 0), (2, 2, 2))
    assert assembly.overlap(here, solids.box((1, 1, 1), (3, 3, 3))) == pytest.approx(1.0)
    assert assembly.overlap(here, solids.box((2, 0, 0), (3, 1, 1))) == pytest.approx(0.0, abs=1e-9)
    assert assembly.overlap(here, solids.box((5, 0, 0), (6, 1, 1))) == 0.0


def test_a_part_is_placed_by_its_frame(solids, assembly):
    """Its own x along y, its own z along x: its own y is then along z."""
    own = solids.box((0, 0, 0), (1, 2, 3))
    box = assembly.placed(own, (10, 20, 30), (0, 1, 0), (1, 0, 0)).BoundingBox(1e-9)
    assert (box.xmin, box.xmax) == pytest.approx((10, 13), abs=1e-6)
    assert (box.ymin, box.ymax) == pytest.approx((20, 21), abs=1e-6)
    assert (box.zmin, box.zmax) == pytest.approx((30, 32), abs=1e-6)


def frog_on_stick(assembly, lifted):
    """What frog and stick share with the frog in play and lifted by so much (mm)."""
    x, z = frames.positions(pattern("violin"))["play"]
    at = (x, 0.0, z + lifted)
    frog = assembly.placed(built("violin", "frog").solid, at, frames.ALONG, frames.UP)
    return assembly.overlap(frog, built("violin", "stick").solid)


def test_a_frog_pressed_into_the_stick_is_noticed(assembly):
    """Its seat, lining left out, clears the stick by the sheet's 0.3; by 0.4 higher it does not."""
    assert frog_on_stick(assembly, 0.0) == pytest.approx(0.0, abs=1e-6)
    assert frog_on_stick(assembly, 0.45) > 1.0
