"""Compare bend allowances with DIN 6935."""

import math

import pytest
from outside.maker import drawn, on, stated

from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.underslide.dims import UnderslideDims
from templates_gen.shapes.bend import bend_length, neutral_factor

#: DIN 6935's table beside its formula, r/s and k (from memory): rounded to one decimal.
DIN_6935 = {0.5: 0.5, 0.8: 0.6, 1.2: 0.7, 2.0: 0.8, 3.0: 0.9, 5.0: 1.0}


@pytest.mark.parametrize(("slenderness", "k"), DIN_6935.items())
def test_neutral_factor_agrees_with_the_standard(slenderness, k):
    assert float(neutral_factor(slenderness * 0.5, 0.5)) == pytest.approx(k, abs=0.012)


def test_neutral_factor_follows_the_standards_formula():
    # DIN 6935 (from memory): k = 0.65 + 0.5 log10(r/s), and 1 for r/s beyond 5.
    assert float(neutral_factor(1.0, 1.0)) == pytest.approx(0.65, abs=1e-12)
    assert float(neutral_factor(0.65, 1.0)) == pytest.approx(0.5565, abs=1e-4)
    assert float(neutral_factor(5.1, 1.0)) == 1.0
    assert float(neutral_factor(50.0, 1.0)) == 1.0


def allowance(turn_deg, radius, sheet):
    """Return the allowance for two legs measured to the outer corner.

    Source: DIN 6935 (from memory), β the angle the legs include after bending, from 90° up:
    v = π (180° − β)/180° (r + s k/2) − 2 (r + s) tan((180° − β)/2).
    """
    k = min(1.0, 0.65 + 0.5 * math.log10(radius / sheet))
    v = math.pi * turn_deg / 180 * (radius + sheet * k / 2)
    return v - 2 * (radius + sheet) * math.tan(math.radians(turn_deg) / 2)


@pytest.mark.parametrize("family", ["violin", "viola", "cello", "bass-french"])
def test_flat_length_of_heel_plate(family):
    """Both legs as a maker measures them, and the standard's allowance for the right angle."""
    p = stated(family)
    v = p.values
    sheet, outer = v["heel.plate_thickness"], v["heel.bottom_radius"]
    legs = v["heel.leg_length"] + v["heel.rear_leg"]
    expected = legs + allowance(90, outer - sheet, sheet)
    assert float(p.derive(HeelDims).flat_length) == pytest.approx(expected, rel=1e-9)
    sheet_cut = next(i for i in drawn(p, "heel-plate").items if i.layer == "OUTLINE")
    trimmed = sheet_cut.box[2] - sheet_cut.box[0] - 2 * v["heel.filing_allowance"]
    assert trimmed == pytest.approx(expected, abs=3e-6)


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_flat_width_of_underslide(family):
    """Three facets measured to their sharp inner corners, two bends of 45° (β = 135°)."""
    across = stated(family).values["stick.across_flats_handle_end"]
    p = stated(family, {"stick.across_flats_butt": across})  # so that the seat does not taper
    d = p.derive(UnderslideDims)
    sheet, radius = p.values["underslide.thickness"], p.values["underslide.bend_radius"]
    facets = float(d.land) + 2 * math.sqrt(2) * float(d.stop)
    # The standard measures to the outer corner, which stands tan 22.5° of the sheet farther out.
    facets += 4 * sheet * math.tan(math.radians(22.5))
    expected = facets + 2 * allowance(45, radius, sheet)
    sheets = [i for i in drawn(p, "underslide").items if i.layer == "OUTLINE"]
    widest = max(sheets, key=lambda i: i.area)
    trimmed = widest.box[3] - widest.box[1] - 2 * p.values["underslide.filing_allowance"]
    assert trimmed == pytest.approx(expected, abs=3e-6)


def test_bend_allowance_of_a_thick_ring():
    """Source: Machinery's Handbook, bend allowance θ (R + K t); K = ½ once R is many times t."""
    assert float(bend_length(90.0, 20.0, 1.0)) == pytest.approx(math.pi / 2 * 20.5, rel=1e-12)
    assert float(bend_length(180.0, 6.0, 1.0)) == pytest.approx(math.pi * 6.5, rel=1e-12)


@pytest.mark.parametrize(("family", "named"), [("violin", False), ("bass-french", True)])
def test_scribes_plate_ends_and_bend_ends(family, named):
    """Where the bend is long enough to show it, its middle is a centre line."""
    p = stated(family)
    v = p.values
    sheet, outer = v["heel.plate_thickness"], v["heel.bottom_radius"]
    drawing = drawn(p, "heel-plate")
    across = [
        a[0].real
        for layer in ("SCRIBE", "CENTRE")
        for a, b in (e.corners for e in on(drawing, layer))
        if abs(a[0].real - b[0].real) < 1e-9 and abs(a[0].imag - b[0].imag) > 5.0
    ]
    # From the formula: an inner radius r beyond five sheets thick has its line in the middle.
    inner = outer - sheet
    k = min(0.65 + 0.5 * math.log10(inner / sheet), 1.0)
    bend = math.pi / 2 * (inner + k * sheet / 2)
    straight = v["heel.leg_length"] - outer
    finished = straight + bend + v["heel.rear_leg"] - outer
    middle = [straight + bend / 2] if named else []
    expected = [0.0, straight, *middle, straight + bend, finished]
    assert sorted(across) == pytest.approx(expected, abs=2e-6)
