"""Compare paper, line widths and units of the files with the standards."""

import math

import pytest
from outside.maker import drawn, printed, stated

#: ISO 216: the A sizes (mm).
ISO_216 = {"a4": (210.0, 297.0), "a3": (297.0, 420.0), "a2": (420.0, 594.0)}
#: ISO 128-2 (from memory): widths of lines, each √2 times the one before, rounded.
ISO_128 = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)


@pytest.mark.parametrize("paper", ISO_216)
def test_page_has_the_paper_size(paper):
    page = printed(stated("violin"), "ferrule-mandrel", paper)
    assert page.pages == 1
    assert sorted(page.size) == pytest.approx(ISO_216[paper], abs=1e-3)


def test_wide_lines_are_twice_as_wide_as_narrow_ones():
    """Two steps of the series: 2 : 1, which rounding makes 1.94 to 2.08."""
    pens = {round(p.width, 6) for p in printed(stated("violin"), "frog-side").pens if not p.filled}
    narrow, wide = sorted(pens)
    assert {narrow, wide} <= set(ISO_128)
    assert ISO_128.index(wide) - ISO_128.index(narrow) == 2
    assert wide / narrow == pytest.approx(2.0, abs=0.1)


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_dxf_states_millimetres(family):
    """Source: the DXF reference: $INSUNITS 4 is millimetres, $MEASUREMENT 1 metric."""
    header = drawn(stated(family), "frog-side").header
    assert header["$INSUNITS"][70].strip() == "4"
    assert header["$MEASUREMENT"][70].strip() == "1"


def test_bulge_of_a_quarter_turn():
    """Source: the DXF reference: the bulge is the tangent of a quarter of the angle."""
    p = stated("violin", {"ferrule.arch_kind": "half-circle", "ferrule.height": 8.5})
    (opening,) = [e for e in drawn(p, "ferrule-mandrel").lines if e.layer == "OUTLINE"]
    bulges = [abs(b) for _, b in opening.corners if b]
    assert bulges == pytest.approx([math.tan(math.radians(90 / 4))] * 2, abs=1e-9)
    assert bulges == pytest.approx([0.41421356] * 2, abs=5e-9)
