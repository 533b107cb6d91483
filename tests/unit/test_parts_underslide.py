"""The underslide's outlines, on a handle that does not taper: pressed, laid flat, drilled."""

import math

import pytest
from readers.corpus import FILES, pattern

from templates_gen.parts.underslide import outline
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.parts.underslide.params import UnderslideKind
from templates_gen.shapes import octagon

every_file = pytest.mark.parametrize("stem", [f.stem for f in FILES])


def even(stem, **changes):
    """A shipped pattern, its seat lined, on a handle as thick at the butt as at its front."""
    p = pattern(stem)
    handle = p.values["stick.across_flats_handle_end"]
    changes = {"stick.across_flats_butt": handle, "heel.lean_deg": 0.0, **changes}
    return p.with_many({"underslide.kind": UnderslideKind.LINED, **changes})


@every_file
def test_land_is_a_little_narrower_than_the_facet(stem):
    p = even(stem)
    facet = octagon.facet(p.values["stick.across_flats_handle_end"])
    expected = facet - p.values["frog.land_relief"]
    assert float(p.derive(UnderslideDims).land) == pytest.approx(expected, rel=1e-12)


@every_file
def test_flat_sheet_is_the_finished_size_and_the_filing_allowance(stem):
    p = even(stem)
    v, d = p.values, p.derive(UnderslideDims)
    over = v["underslide.filing_allowance"]
    left, bottom, right, top = outline.flat(p).box
    assert left == pytest.approx(v["heel.top_radius"] - over)
    assert right == pytest.approx(v["frog.length_top"] - v["frog.thumb_tip_thickness"] / 2 + over)
    # Three facets to their sharp inner corners, each bend in place of its two setbacks.
    radius = v["underslide.bend_radius"]
    setbacks = 4 * radius * math.tan(math.radians(22.5))
    facets = float(d.land) + 2 * math.sqrt(2) * float(d.stop)
    assert top - bottom - 2 * over == pytest.approx(facets - setbacks + 2 * float(d.bend))
    assert bottom == pytest.approx(-top)


@every_file
def test_hole_is_at_the_eyelet_within_the_land(stem):
    p = even(stem)
    v, d = p.values, p.derive(UnderslideDims)
    (x, y), radius = outline.shank_hole(p).as_circle()
    assert (x, y) == pytest.approx((v["eyelet.from_heel"], 0.0), abs=1e-9)
    assert 2 * radius == pytest.approx(v["eyelet.shank_diameter"] + 0.3)
    assert 2 * radius < float(d.land)


def test_bare_seat_has_no_lining():
    bare = even("violin", **{"underslide.kind": UnderslideKind.NONE}).derive(UnderslideDims)
    lined = even("violin").derive(UnderslideDims)
    assert (bare.lining, lined.lining) == (0.0, lined.params.thickness)
    assert bare.stop > lined.stop
    assert float(bare.land) == float(lined.land)


@every_file
def test_wings_leave_enough_ebony_at_the_edges(stem):
    """At the lining's end 0.6 of ebony is left, measured level at its outer corner."""
    p = even(stem)
    d, t = p.derive(UnderslideDims), p.values["underslide.thickness"]
    outer = float(d.land) / 2 + float(d.stop) + t * math.sqrt(0.5)
    assert p.values["frog.width_top"] / 2 - outer == pytest.approx(0.6, rel=1e-9)


@pytest.mark.parametrize("wider", [0.6, 1.2])
@every_file
def test_wings_end_no_higher_than_the_edges(stem, wider):
    """Thick edges leave the 0.6 only above their own tops; the lining must end before."""
    p = pattern(stem)
    p = even(stem, **{"frog.width_top": p.values["frog.width_top"] + wider})
    d = p.derive(UnderslideDims)
    assert float(d.stop) <= float(d.trench_height(0.0))
