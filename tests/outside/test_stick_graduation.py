"""Compare the diameters of the drawn stick with the published rule.

Source: F.-J. Fétis 1856, quoted in H. Saint-George, The Bow, ch. VI: stations, diameters, and the
logarithm that gives them.
"""

import math

import numpy as np
import pytest
from outside.maker import drawn, on, stated

from templates_gen.parts.stick.dims import StickDims

STATIONS = (
    0.0, 110.0, 206.171, 290.253, 363.764, 428.034, 484.224,
    533.350, 576.300, 613.851, 646.681, 675.384, 700.479,
)  # fmt: skip
DIAMETERS = (8.6, *(8.6 - 0.3 * i for i in range(12)))
THICK, THIN, FACE = 8.6, 5.3, 25.0


def stick(length, handle, law="published"):
    """A violin's stick of a law, so long from the butt to the face's rear edge."""
    return stated(
        "violin",
        {
            "stick.length": length + FACE,
            "head.face_length": FACE,
            "stick.handle_length": handle,
            "stick.across_flats_butt": THICK,
            "stick.across_flats_handle_end": THICK,
            "stick.diameter_head": THIN,
            "stick.graduation": law,
        },
    )


def notches(p, stage):
    """Widths of the gauge's notches, first to last, from the drawing."""
    (card,) = on(drawn(p, f"stick-graduation-{stage}"), "OUTLINE")
    points = [c for c, _ in card.corners]
    depth = sorted({round(q.imag, 6) for q in points})[1]
    ends = sorted(q.real for q in points if abs(q.imag - depth) < 1e-6)
    return [b - a for a, b in zip(ends[::2], ends[1::2], strict=True)]


def test_stick_has_the_published_diameters():
    """Over the length the construction gives, which overshoots its own 700 by 0.48."""
    d = stick(STATIONS[-1], 110.0).derive(StickDims)
    assert float(d.face_rear) == pytest.approx(700.479, abs=1e-9)
    assert d.diameter(np.array(STATIONS)) == pytest.approx(DIAMETERS, abs=0.005)


@pytest.mark.parametrize(("stage", "over"), [("finished", 0.0), ("plus-0.2", 0.2)])
def test_gauge_notches_follow_the_published_logarithm(stage, over):
    """d = −6.2269 + 5.1417 log10(175 + z); the construction's head stands at 700.479."""
    widths = notches(stick(STATIONS[-1], 110.0), stage)
    assert len(widths) == 12
    places = np.linspace(110.0, STATIONS[-1], 12)
    expected = -6.2269 + 5.1417 * np.log10(175.0 + 700.0 - places)
    assert [w - over for w in widths[1:]] == pytest.approx(expected[1:], abs=0.0065)
    # At both ends to the digits: there the diameters are stated. The handle's end is final before
    # the stick ahead of it is (common practice, no source).
    assert (widths[0], widths[-1] - over) == pytest.approx((8.6, 5.3), abs=2e-6)


@pytest.mark.parametrize("length", [600.0, 649.0, 676.5, 740.0])
def test_rule_decreases_by_equal_parts_at_other_lengths(length):
    """Ordinates as 1 : 5 over twelve steps close exactly with AC = 0.15690 AB."""
    handle = 0.15690 * length
    places = [0.0]
    for _ in range(12):
        places.append(places[-1] + handle - 0.8 * handle * places[-1] / length)
    assert places[-1] == pytest.approx(length, abs=0.02)
    found = stick(length, round(handle, 4)).derive(StickDims).diameter(np.array(places[1:]))
    assert found == pytest.approx([8.6 - 0.3 * i for i in range(12)], abs=0.001)


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_handle_tapers_evenly_ahead_of_the_butt(family):
    p = stated(family)
    v, d = p.values, p.derive(StickDims)
    a, b, long = (
        v["stick.across_flats_butt"], v["stick.across_flats_handle_end"], v["stick.handle_length"]
    )  # fmt: skip
    found = d.diameter(np.array([0.0, long / 2, long]))
    assert found == pytest.approx([a, (a + b) / 2, b], abs=1e-9)


def test_linear_taper_gives_the_thinner_stick():
    """Between its ends the published stick is thicker than one with a linear taper."""
    p = stick(705.0, 110.0)
    even = stick(705.0, 110.0, "linear").derive(StickDims)
    inside = np.linspace(150.0, 690.0, 50)
    assert np.all(p.derive(StickDims).diameter(inside) > even.diameter(inside) + 0.01)
    middle = (110.0 + 705.0) / 2
    assert float(even.diameter(middle)) == pytest.approx((8.6 + 5.3) / 2, abs=1e-9)
    # ln of the mean distance from the rule's vanishing point (geometry of the rule).
    ratio = math.log((176.25 + 705 - middle) / 176.25) / math.log((176.25 + 595) / 176.25)
    assert float(p.derive(StickDims).diameter(middle)) == pytest.approx(5.3 + 3.3 * ratio, abs=1e-9)
