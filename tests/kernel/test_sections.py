"""Every part is one valid solid, its sections are the outlines; wrong outlines are noticed."""

import dataclasses
import math

import pytest
from kernel.bench import BUILDERS, EVERY, built, built_even, even, having, pattern, recipe

from templates_gen.geometry import rectangle
from templates_gen.tolerances import SECTION

pytestmark = pytest.mark.kernel
every_solid = pytest.mark.parametrize(("stem", "part"), EVERY)


@pytest.fixture
def solids():
    from templates_gen.kernel import solids

    return solids


def test_covers_every_part_with_a_builder():
    assert {part for _, part in EVERY} == set(BUILDERS)
    assert {"violin", "bass-french"} <= {stem for stem, _ in EVERY}


@every_solid
def test_one_valid_solid(stem, part):
    solid = built(stem, part).solid
    assert len(solid.Solids()) == 1
    assert solid.isValid()
    assert solid.Volume() > 0


@every_solid
def test_section_is_the_outline(stem, part, solids):
    made = built(stem, part)
    assert len(made.sections) > 0
    assert solids.section_error(made) <= SECTION


@every_solid
def test_section_has_the_outlines_area(stem, part, solids):
    """Edges alone do not show on which side the wood is."""
    for s in built(stem, part).sections:
        square_to = solids.cq.Vector(*(1.0 if a == s.axis else 0.0 for a in "xyz"))
        plane = solids.cq.Face.makePlane(1e4, 1e4, basePnt=square_to * s.at, dir=square_to)
        cut = built(stem, part).solid.intersect(plane)
        outer, *holes = sorted((abs(o.area) for o in s.outlines), reverse=True)
        assert cut.Area() == pytest.approx(outer - sum(holes), rel=1e-6)


@pytest.mark.parametrize(("stem", "part"), [e for e in EVERY if e[0] in ("violin", "bass-german")])
def test_notices_a_wrong_outline(stem, part, solids):
    """Each section in turn with its outline shifted by ten times the tolerance."""
    made = built(stem, part)
    for i, s in enumerate(made.sections):
        wrong = dataclasses.replace(s, outlines=[o.moved(10 * SECTION, 0.0) for o in s.outlines])
        told = [*made.sections[:i], wrong, *made.sections[i + 1 :]]
        assert solids.section_error(solids.Built(made.solid, told)) > 2 * SECTION


def test_notices_missing_and_extra_outlines(solids):
    made = built("violin", "ferrule")
    (s,) = made.sections
    fewer = dataclasses.replace(s, outlines=s.outlines[:1])
    assert solids.section_error(solids.Built(made.solid, [fewer])) > 0.1
    more = dataclasses.replace(s, outlines=[*s.outlines, rectangle(-1, 1, 1, 2)])
    assert solids.section_error(solids.Built(made.solid, [more])) > 0.1


def test_notices_a_wider_arc_between_the_same_ends(solids):
    """Same vertices, another bulge: only the midpoints of the arcs differ."""
    made = built("violin", "ferrule")
    (s,) = made.sections
    outside = s.outlines[0]
    flatter = tuple((x, y, b * 0.99) for x, y, b in outside.vertices)
    wrong = dataclasses.replace(
        s, outlines=[dataclasses.replace(outside, vertices=flatter), *s.outlines[1:]]
    )
    assert solids.section_error(solids.Built(made.solid, [wrong])) > 10 * SECTION


def test_notices_a_section_outside_the_solid_or_none(solids):
    made = built("violin", "ferrule")
    (s,) = made.sections
    beside = dataclasses.replace(s, at=s.at + 1000.0)
    assert solids.section_error(solids.Built(made.solid, [beside])) == math.inf
    assert solids.section_error(solids.Built(made.solid, [])) == math.inf


def slopes(solid):
    """Every plane face along the bow: its normal, and y and z of its centre."""
    found = []
    for face in solid.Faces():
        normal, centre = face.normalAt(), face.Center()
        # The faces of a tapered seat are ruled and lean along the bow by less than a degree.
        if face.geomType() in ("PLANE", "BSPLINE") and abs(normal.x) < 0.02:
            found.append((normal, centre.y, centre.z))
    return found


def between_seat_faces(solid, clear_height):
    """Angles (degrees) inside the wood between the land and each side."""
    up = [f for f in slopes(solid) if f[0].z > 1e-3 and f[2] > clear_height - 1.0]
    lands = [f for f in up if abs(f[0].y) < 1e-6 and f[2] < clear_height + 0.2]
    diagonals = [f for f in up if abs(f[0].y) > 0.5 and f[0].y * f[1] < 0]
    assert {math.copysign(1, f[1]) for f in diagonals} == {1.0, -1.0}
    assert len(lands) > 0
    return [180 - math.degrees(d[0].getAngle(land[0])) for d in diagonals for land in lands]


@pytest.mark.parametrize("stem", ["violin", "bass-french"])
def test_seat_corners_of_the_solid_are_135_degrees(stem):
    """An octagon's corner, measured between the solid's faces."""
    solid, clear = built_even(stem, "frog").solid, even(stem).values["frog.clear_height"]
    angles = between_seat_faces(solid, clear)
    assert angles == pytest.approx([135.0] * len(angles), abs=1e-6)


@pytest.mark.parametrize("stem", having("frog"))
def test_corners_of_a_tapered_seat_are_nearly_135_degrees(stem):
    """With the taper they deviate by far less than the half degree that would rock."""
    solid, clear = built(stem, "frog").solid, pattern(stem).values["frog.clear_height"]
    angles = between_seat_faces(solid, clear)
    assert angles == pytest.approx([135.0] * len(angles), abs=0.01)


@pytest.mark.parametrize("stem", having("underslide"))
def test_lining_has_the_thickness_of_its_sheet(stem):
    """Measured between its faces: the land, and a wing on the left and on the right."""
    thickness = pattern(stem).values["underslide.thickness"]
    faces = slopes(built_even(stem, "underslide").solid)
    for side in (-1, 0, 1):
        y, z = -side, 1
        length = math.hypot(y, z)
        here = [f for f in faces if round(f[1], 6) * side > 0 or round(f[1], 6) == side]
        along = [
            (n.y * y + n.z * z, (at_y * y + at_z * z) / length)
            for n, at_y, at_z in here
            if abs(n.y * z - n.z * y) < 1e-9
        ]
        up = [at for normal, at in along if normal > 0]
        down = [at for normal, at in along if normal < 0]
        assert len(up) == len(down) == 1
        assert up[0] - down[0] == pytest.approx(thickness, abs=1e-9)


def test_recipes_differ_by_their_values():
    assert repr(recipe("violin", "frog")) != repr(recipe("viola", "frog"))
