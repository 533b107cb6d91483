"""Walls measured between a solid's faces, and overlaps of parts."""

import math

import pytest
from kernel.bench import BUILDERS, built, pattern

from templates_gen.bow.dims import frames
from templates_gen.checks.solid import gap
from templates_gen.geometry import rectangle
from templates_gen.mechanics.assembly import Frame
from templates_gen.pipeline import walls as measuring

pytestmark = pytest.mark.kernel


@pytest.fixture
def solids():
    from templates_gen.kernel import solids

    return solids


@pytest.fixture
def assembly():
    from templates_gen.kernel import assembly

    return assembly


def finished(solids, block, **tools):
    """A block with its tools cut out, as a builder gives it."""
    from templates_gen.kernel import walls

    cut = solids.cut(block, *tools.values(), step="tools")
    groups = {name: tool.Faces() for name, tool in tools.items()}
    groups |= {"sides": walls.faces_around(block, "z"), "end": walls.toward(block, "+x")}
    return measuring._Part(solids.Built(cut, (), groups))


def gap_of(part, *names):
    from templates_gen.kernel import walls

    return walls.measure_faces(gap(*names), {name: part.faces(name) for name in names})


def test_wall_between_two_bores(solids):
    """Two vertical bores of radius 1 and 2, axes 7 apart: 4 of wood between them."""
    block = solids.box((-10, -5, 0), (10, 5, 3))
    left, right = (
        solids.cylinder((x, 0, -1), (0, 0, 1), r, 5) for x, r in ((-3.0, 1.0), (4.0, 2.0))
    )
    drilled = finished(solids, block, left=left, right=right)
    assert gap_of(drilled, "left", "right") == pytest.approx(4.0, abs=1e-9)
    # To the block's sides at y = 5 the walls are 4 and 3; the least counts.
    assert gap_of(drilled, "left", "sides") == pytest.approx(4.0, abs=1e-9)
    assert gap_of(drilled, "right", "sides", "left") == pytest.approx(3.0, abs=1e-9)


def test_all_pieces_of_a_split_face_are_measured(solids):
    """A slot splits a bore's wall; the piece beyond the slot is the one nearest to the end."""
    block = solids.box((-10, -5, 0), (10, 5, 3))
    bore = solids.cylinder((0, 0, -1), (0, 0, 1), 2.0, 5)
    slot = solids.box((-0.5, -3, -1), (0.5, 3, 4))
    part = finished(solids, block, bore=bore, slot=slot)
    assert len(part.faces("bore")) > 1
    assert gap_of(part, "bore", "end") == pytest.approx(8.0, abs=1e-9)


def test_broken_wall_measures_zero(solids):
    """A bore through a pocket's side: their faces meet, and nothing of the wall is left."""
    block = solids.box((0, -3, 0), (8, 3, 3))
    pocket = solids.box((2, -1, 1), (5, 1, 4))
    far, through = (solids.cylinder((x, 0, -1), (0, 0, 1), 0.5, 5) for x in (6.5, 5.2))
    sound = finished(solids, block, pocket=pocket, bore=far)
    assert gap_of(sound, "pocket", "bore") == pytest.approx(1.0, abs=1e-9)
    broken = finished(solids, block, pocket=pocket, bore=through)
    assert gap_of(broken, "pocket", "bore") == pytest.approx(0.0, abs=1e-9)


def test_removed_group_measures_zero(solids):
    block, notch = solids.box((0, 0, 0), (4, 4, 4)), solids.box((1, 1, 3), (2, 2, 5))
    part = finished(solids, block, notch=notch, all_of_it=solids.box((0.5, 0.5, 2), (3, 3, 5)))
    assert gap_of(part, "notch", "sides") == 0.0


def test_eye_breaking_into_the_mortise_fails_on_the_solid(solids):
    """An eye bored through the web to the hair mortise: nothing of the wall is left."""
    p = pattern("violin").with_("frog.eye_thickness", 3.0)
    frog = BUILDERS["frog"].build(BUILDERS["frog"].recipe(p))
    assert measuring.alone("frog", frog)["frog.eye_to_mortise"] == pytest.approx(0.0, abs=1e-9)


def test_quarter_revolution_by_pappus(solids):
    """Source: Pappus: area times the path of its centroid; 2 × 3 at 4 from the axis, a quarter."""
    turned = solids.quarter_revolution(rectangle(5, 0, 7, 3), 1.0, 10.0, "x")
    assert solids.volume(turned) == pytest.approx(6 * 4 * math.pi / 2, rel=1e-9)
    box = turned.BoundingBox(1e-9)
    # It starts at its section along x, toward the bow's head.
    assert (box.xmin, box.xmax) == pytest.approx((1.0, 6.0), abs=1e-6)
    assert (box.ymin, box.ymax) == pytest.approx((5.0, 10.0), abs=1e-6)


@pytest.mark.parametrize(
    ("axis", "centre"), [("x", (-2, 3, 4)), ("y", (2, -3, 4)), ("z", (2, 3, -4))]
)
def test_mirrors_in_each_plane(solids, axis, centre):
    turned = solids.mirrored(solids.box((1, 2, 3), (3, 4, 5)), axis)
    assert solids.centroid(turned) == pytest.approx(centre, abs=1e-9)
    assert solids.volume(turned) == pytest.approx(8, rel=1e-9)


def test_overlap_of_two_boxes(solids, assembly):
    here = solids.box((0, 0, 0), (2, 2, 2))
    assert assembly.overlap_volume(here, solids.box((1, 1, 1), (3, 3, 3))) == pytest.approx(1.0)
    assert assembly.overlap_volume(here, solids.box((2, 0, 0), (3, 1, 1))) == pytest.approx(
        0.0, abs=1e-9
    )
    assert assembly.overlap_volume(here, solids.box((5, 0, 0), (6, 1, 1))) == 0.0


def test_places_a_part_by_its_frame(solids, assembly):
    """Its x along y and its z along x, so its y is along z."""
    own = solids.box((0, 0, 0), (1, 2, 3))
    box = assembly.placed(own, Frame((10, 20, 30), (0, 1, 0), (1, 0, 0))).BoundingBox(1e-9)
    assert (box.xmin, box.xmax) == pytest.approx((10, 13), abs=1e-6)
    assert (box.ymin, box.ymax) == pytest.approx((20, 21), abs=1e-6)
    assert (box.zmin, box.zmax) == pytest.approx((30, 32), abs=1e-6)


def frog_on_stick(assembly, lifted):
    """Volume frog and stick share with the frog in play, raised by a distance (mm)."""
    x, z = frames.positions(pattern("violin"))["play"]
    frog = assembly.placed(built("violin", "frog").solid, Frame((x, 0.0, z + lifted)))
    return assembly.overlap_volume(frog, built("violin", "stick").solid)


def test_notices_a_frog_pressed_into_the_stick(assembly):
    """Without lining its seat clears the stick by the sheet's 0.3; raised by 0.4 it does not."""
    assert frog_on_stick(assembly, 0.0) == pytest.approx(0.0, abs=1e-6)
    assert frog_on_stick(assembly, 0.45) > 1.0
