"""Every solid is one valid solid, its sections are the outlines, and a wrong outline is noticed."""

import dataclasses
import math

import pytest
from kernel.bench import BUILDERS, EVERY, FILES, built, pattern, recipe

from templates_gen.geometry import rectangle
from templates_gen.tolerances import SECTION

pytestmark = pytest.mark.kernel
every_solid = pytest.mark.parametrize(("stem", "part"), EVERY)


@pytest.fixture
def solids():
    from templates_gen.kernel import solids

    return solids


def test_every_part_with_a_builder_is_looked_at():
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
def test_a_section_has_the_outlines_area(stem, part, solids):
    """Edges alone would not tell on which side of them the wood is."""
    for s in built(stem, part).sections:
        square_to = solids.cq.Vector(*(1.0 if a == s.axis else 0.0 for a in "xyz"))
        plane = solids.cq.Face.makePlane(1e4, 1e4, basePnt=square_to * s.at, dir=square_to)
        cut = built(stem, part).solid.intersect(plane)
        outer, *holes = sorted((abs(o.area) for o in s.outlines), reverse=True)
        assert cut.Area() == pytest.approx(outer - sum(holes), rel=1e-6)


@every_solid
def test_a_wrong_outline_is_noticed(stem, part, solids):
    """Each section in turn told with an outline moved aside by ten times the tolerance."""
    made = built(stem, part)
    for i, s in enumerate(made.sections):
        wrong = dataclasses.replace(s, outlines=[o.moved(10 * SECTION, 0.0) for o in s.outlines])
        told = [*made.sections[:i], wrong, *made.sections[i + 1 :]]
        assert solids.section_error(solids.Built(made.solid, told)) > 2 * SECTION


def test_a_missing_and_an_extra_outline_are_noticed(solids):
    made = built("violin", "ferrule")
    (s,) = made.sections
    fewer = dataclasses.replace(s, outlines=s.outlines[:1])
    assert solids.section_error(solids.Built(made.solid, [fewer])) > 0.1
    more = dataclasses.replace(s, outlines=[*s.outlines, rectangle(-1, 1, 1, 2)])
    assert solids.section_error(solids.Built(made.solid, [more])) > 0.1


def test_a_wider_arc_between_the_same_ends_is_noticed(solids):
    """Same corners, another bulge: only the middles of the arcs tell."""
    made = built("violin", "ferrule")
    (s,) = made.sections
    outside = s.outlines[0]
    flatter = tuple((x, y, b * 0.99) for x, y, b in outside.vertices)
    wrong = dataclasses.replace(
        s, outlines=[dataclasses.replace(outside, vertices=flatter), *s.outlines[1:]]
    )
    assert solids.section_error(solids.Built(made.solid, [wrong])) > 10 * SECTION


def test_a_section_beside_the_solid_or_none_at_all_is_noticed(solids):
    made = built("violin", "ferrule")
    (s,) = made.sections
    beside = dataclasses.replace(s, at=s.at + 1000.0)
    assert solids.section_error(solids.Built(made.solid, [beside])) == math.inf
    assert solids.section_error(solids.Built(made.solid, [])) == math.inf


def slopes(solid):
    """Of every plane face square to the bow: the direction out of it in (y, z), and where."""
    found = []
    for face in solid.Faces():
        normal, centre = face.normalAt(), face.Center()
        if face.geomType() == "PLANE" and abs(normal.x) < 1e-9:
            found.append((normal.y, normal.z, centre.y, centre.z))
    return found


@pytest.mark.parametrize("stem", FILES)
def test_seat_facets_stand_at_135_degrees(stem):
    """Angles between the seat's faces as the solid has them: an octagon's corner is 135°."""
    p = pattern(stem)
    clear = p.values["frog.clear_height"]
    faces = [f for f in slopes(built(stem, "frog").solid) if f[3] > clear - 1.0 and f[1] > 1e-6]
    diagonals = [f for f in faces if abs(abs(f[0]) - abs(f[1])) < 1e-9 and f[0] * f[2] < 0]
    lands = [f for f in faces if abs(f[0]) < 1e-9 and f[3] < clear]
    assert {math.copysign(1, f[2]) for f in diagonals} == {1.0, -1.0}
    assert len(lands) > 0
    for diagonal in diagonals:
        for land in lands:
            between = math.degrees(math.acos(diagonal[0] * land[0] + diagonal[1] * land[1]))
            assert 180 - between == pytest.approx(135, abs=1e-6)


@pytest.mark.parametrize("stem", FILES)
def test_lining_is_as_thick_as_its_sheet_on_every_facet(stem):
    """Measured between its faces: the land in the middle, a wing to the left and to the right."""
    thickness = pattern(stem).values["underslide.thickness"]
    faces = slopes(built(stem, "underslide").solid)
    for side in (-1, 0, 1):
        y, z = -side, 1
        length = math.hypot(y, z)
        here = [f for f in faces if round(f[2], 6) * side > 0 or round(f[2], 6) == side]
        along = [
            (f[0] * y + f[1] * z, (f[2] * y + f[3] * z) / length)
            for f in here
            if abs(f[0] * z - f[1] * y) < 1e-9
        ]
        up = [at for normal, at in along if normal > 0]
        down = [at for normal, at in along if normal < 0]
        assert len(up) == len(down) == 1
        assert up[0] - down[0] == pytest.approx(thickness, abs=1e-9)


def test_a_recipe_is_told_apart_by_its_numbers():
    assert repr(recipe("violin", "frog")) != repr(recipe("viola", "frog"))
