"""The heel plate's outlines: bent from the side, and laid flat."""

import math

import pytest
from geometry_referee import polygon_of
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.parts.heel import outline
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])
leaning = pytest.mark.parametrize("lean", [0.0, 3.0, 8.0, 15.0])


def plate(stem="viola", **changes):
    return pattern(stem).with_many({f"heel.{k}": v for k, v in changes.items()})


@leaning
def test_bent_plate_is_as_thick_as_its_sheet(lean):
    """Its area is that of the line in its middle times the thickness; both legs are flat."""
    p = plate(lean_deg=lean)
    d, s, path = p.derive(HeelDims), p.derive(HeelDims).params, outline.side(p)
    middle = float(d.bottom_straight + d.rear_straight)
    middle += math.radians(90 + lean) * (s.bottom_radius - s.plate_thickness / 2)
    assert path.area == pytest.approx(middle * s.plate_thickness, rel=1e-9)
    assert polygon_of(path, 1e-6).is_valid
    ends = [q for q in path.segments if q.chord == pytest.approx(s.plate_thickness, rel=1e-9)]
    assert len(ends) == 2


@leaning
def test_bend_is_tangent_to_both_legs(lean):
    kinks = outline.side(plate(lean_deg=lean)).kinks()
    sharp = [turn for _, turn in kinks if abs(turn) > 1e-6]
    assert sharp == pytest.approx([90.0] * 4, abs=1e-6)


@leaning
def test_legs_have_the_given_length_to_the_sharp_corner(lean):
    p = plate(lean_deg=lean)
    s, path = p.derive(HeelDims).params, outline.side(p)
    points = {(round(x, 6), round(y, 6)) for x, y, _ in path.vertices}
    a = math.radians(lean)
    corner = s.bottom_radius * (1 - math.tan(math.pi / 4 + a / 2))
    top = (corner + s.rear_leg * math.sin(a), s.rear_leg * math.cos(a))
    assert (round(s.leg_length, 6), 0.0) in points
    assert (round(top[0], 6), round(top[1], 6)) in points
    assert path.box[1] == pytest.approx(0.0, abs=1e-12)


@leaning
def test_plate_touches_the_heel_plane(lean):
    assert outline.side(plate(lean_deg=lean)).box[0] == pytest.approx(0.0, abs=1e-12)


def test_bend_may_be_as_sharp_as_the_sheet():
    """Rounded as much as the sheet is thick, the inside is a sharp corner."""
    p = plate(bottom_radius=0.5, plate_thickness=0.5)
    path = outline.side(p)
    assert polygon_of(path, 1e-6).is_valid
    assert len([q for q in path.segments if not q.is_line]) == 1


@every_file
def test_flat_plate_is_the_finished_size_and_the_filing_allowance(stem):
    p = plate(stem, kind=HeelKind.ONE_PIECE)
    d, over = p.derive(HeelDims), p.values["heel.filing_allowance"]
    (sheet,) = outline.flat(p)
    left, bottom, right, top = sheet.box
    assert (left, right) == pytest.approx((-over, float(d.flat_length) + over))
    # Widest in front, where the frog is; as wide as the heel beyond the bend.
    assert top - bottom == pytest.approx(float(d.width_front) + 2 * over)
    rear = [y for x, y, _ in sheet.vertices if x > float(d.bend_line) - 1e-9]
    assert max(rear) == pytest.approx(p.values["frog.width_heel"] / 2 + over)
    assert sheet.centroid[1] == pytest.approx(0.0, abs=1e-9)


def test_sheet_in_the_bend_is_less_than_its_outside():
    d = plate().derive(HeelDims)
    assert d.bend < d.params.bottom_radius * math.radians(90)
    assert d.bend > float(d.bend_inner_radius) * math.radians(90)
    assert 0 < d.bend_line < d.flat_length


def test_two_pieces_are_the_two_legs():
    p = plate(kind=HeelKind.TWO_PIECE)
    s, over = p.derive(HeelDims).params, p.values["heel.filing_allowance"]
    bottom, rear = outline.flat(p)
    lengths = [q.box[2] - q.box[0] - 2 * over for q in (bottom, rear)]
    assert lengths == pytest.approx([s.leg_length, s.rear_leg])
    assert polygon_of(bottom).distance(polygon_of(rear)) > 1.0


@pytest.mark.parametrize(("kind", "faults"), [("one-piece", 1), ("two-piece", 0), ("none", 0)])
def test_reports_a_bend_sharper_than_the_sheet(kind, faults):
    p = plate(kind=HeelKind(kind), bottom_radius=0.4, plate_thickness=0.5)
    assert len([f for f in registry.faults(p) if f.key == "heel.bottom_radius"]) == faults
