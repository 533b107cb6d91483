"""The ferrule's outlines: width, height, length, and arches that cannot be drawn."""

import numpy as np
import pytest
from geometry_referee import path_intersections, polygon_of, sample
from readers.corpus import FILES, pattern

from templates_gen import registry
from templates_gen.geometry import Path, Segment
from templates_gen.parts.ferrule import outline
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.shapes.arch import ArchKind

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])
#: A violin's ferrule with each kind of arch, and what it needs.
KINDS = {
    ArchKind.HALF_ELLIPSE: {},
    ArchKind.HALF_CIRCLE: {"ferrule.height": 8.5},
    ArchKind.SEGMENT: {"ferrule.height": 5.0},
    ArchKind.FLAT_TOP: {},
}
each_kind = pytest.mark.parametrize("kind", KINDS, ids=str)


def with_arch(kind):
    return pattern("violin").with_many({"ferrule.arch_kind": kind, **KINDS[kind]})


@every_file
def test_outside_has_the_given_width_and_height(stem):
    p = pattern(stem)
    v = p.values
    half = v["ferrule.outer_width"] / 2
    plate, height = v["ferrule.plate_thickness"], v["ferrule.height"]
    assert outline.outside(p).box == pytest.approx((-half, -plate, half, height - plate), abs=1e-6)


@each_kind
def test_every_arch_has_the_given_width(kind):
    p = with_arch(kind)
    left, _, right, top = outline.outside(p).box
    assert right - left == pytest.approx(p.values["ferrule.outer_width"], abs=1e-6)
    assert top == pytest.approx(float(p.derive(FerruleDims).arch_height), abs=1e-6)


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_ribbon_room_is_the_width_of_the_drawn_opening(kind):
    p = with_arch(kind)
    d = p.derive(FerruleDims)
    level = float(d.hair.thickness)
    line = Path.from_segments([Segment((-50.0, level), (50.0, level))], closed=False)
    across = [x for x, _ in path_intersections(outline.opening(p), line)]
    # For a half ellipse the clear width comes from an ellipse inside the true inner face.
    slack = 0.005 if kind is ArchKind.HALF_ELLIPSE else 1e-6
    assert max(across) - min(across) == pytest.approx(float(d.ribbon_room), abs=slack)


@each_kind
def test_wall_is_as_thick_as_the_sheet(kind):
    """Measure from every point of the opening's arch to the outside. Referee: shapely."""
    p = with_arch(kind)
    outside, opening = outline.outside(p), outline.opening(p)
    wall, edge = p.values["ferrule.arch_thickness"], polygon_of(outside, 1e-6).exterior
    points = [q for q in sample(opening, 200) if q[1] > 1.0]
    off = [edge.distance(_point(q)) - wall for q in points]
    assert max(abs(x) for x in off) < 1e-5


def _point(q):
    from shapely import Point

    return Point(q)


@every_file
def test_sheets_are_the_finished_size_and_the_filing_allowance(stem):
    p = pattern(stem)
    v, d = p.values, p.derive(FerruleDims)
    over, length = v["ferrule.filing_allowance"], v["ferrule.length"]
    strip, plate = outline.arch_strip(p), outline.plate(p)
    assert strip.box[2] - strip.box[0] == pytest.approx(float(d.arch_length) + 2 * over)
    assert plate.box[2] - plate.box[0] == pytest.approx(v["ferrule.outer_width"] + 2 * over)
    for sheet in (strip, plate):
        assert sheet.box[1::2] == pytest.approx((-over, length + over))


@every_file
def test_wedge_is_a_little_narrower_than_the_ribbon_and_shorter_than_the_ferrule(stem):
    p = pattern(stem)
    left, bottom, right, top = outline.wedge(p).box
    assert top - bottom == pytest.approx(p.values["hair.ribbon_width_frog"] - 0.3)
    assert right - left == pytest.approx(p.values["ferrule.length"] - 1.0)


@each_kind
def test_counter_form_is_hollowed_to_the_archs_outside(kind):
    """Block and arch make a whole rectangle. Referee: shapely."""
    p = with_arch(kind)
    form = polygon_of(outline.counter_form(p), 1e-5)
    arch = polygon_of(outline.outside(p), 1e-5)
    assert form.is_valid
    assert form.intersection(arch).area < 1e-3
    left, bottom, right, top = form.bounds
    above = arch.area - p.values["ferrule.outer_width"] * p.values["ferrule.plate_thickness"]
    # A segment's feet are filed flush with the plate: some thousandths less metal than hollow.
    assert form.area + above == pytest.approx((right - left) * (top - bottom), abs=5e-3)
    assert bottom == pytest.approx(0.0, abs=1e-9)


IMPOSSIBLE = {
    "half circle too low": {"ferrule.arch_kind": "half-circle", "ferrule.height": 6.0},
    "segment too high": {"ferrule.arch_kind": "segment", "ferrule.height": 9.0},
    "corner sharper than the wall": {
        "ferrule.arch_kind": "flat-top",
        "ferrule.arch_corner_radius": 0.7,
    },
    # Once passed and could not be drawn: the inside radius came out as zero, to the last digit.
    "corner only as round as the wall is thick": {
        "ferrule.arch_kind": "flat-top",
        "ferrule.arch_corner_radius": 0.7 + 1e-13,
    },
    "corner rounder than the arch is high": {
        "ferrule.arch_kind": "flat-top",
        "ferrule.height": 5.0,
        "ferrule.arch_corner_radius": 4.5,
    },
    "corner rounder than half the width": {
        "ferrule.arch_kind": "flat-top",
        "ferrule.height": 9.0,
        "ferrule.arch_corner_radius": 6.5,
    },
}


def arch_faults(changes):
    p = pattern("violin").with_many({k: _word(v) for k, v in changes.items()})
    return [f for f in registry.faults(p) if f.key == "ferrule.arch_kind"]


def _word(value):
    return ArchKind(value) if isinstance(value, str) else value


@pytest.mark.parametrize("name", IMPOSSIBLE)
def test_reports_an_arch_that_cannot_be_drawn(name):
    (fault,) = arch_faults(IMPOSSIBLE[name])
    assert fault.problem
    assert fault.cure


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_accepts_an_arch_that_can_be_drawn(kind):
    assert arch_faults({"ferrule.arch_kind": str(kind), **KINDS[kind]}) == []


def test_accepts_each_kind_exactly_at_its_bounds():
    """Each kind can be drawn exactly at its bound and is rejected just beyond it."""
    half = pattern("violin").values["ferrule.outer_width"] / 2
    plate = pattern("violin").values["ferrule.plate_thickness"]
    for kind, beyond in ((ArchKind.HALF_CIRCLE, -1e-4), (ArchKind.SEGMENT, 1e-4)):
        at = {"ferrule.arch_kind": str(kind), "ferrule.height": half + plate}
        assert arch_faults(at) == []
        assert outline.opening(pattern("violin").with_many({**at, "ferrule.arch_kind": kind})).area
        assert arch_faults({**at, "ferrule.height": half + plate + beyond}) != []


def test_tongue_and_step_share_the_opening():
    """Step, tongue and clearance fill the height under the arch."""
    d = pattern("violin").derive(FerruleDims)
    filled = d.rebate_step + d.tongue_height + 0.1 + d.params.arch_thickness
    assert float(filled) == pytest.approx(d.params.height, rel=1e-12)
    taller = pattern("violin").with_("ferrule.height", np.array([6.0, 7.0]))
    assert np.allclose(np.diff(taller.derive(FerruleDims).tongue_height), 1.0)
