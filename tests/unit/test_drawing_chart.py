"""Charts: size, proportions and axes."""

import pytest

from templates_gen.drawing.chart import HIGH, WIDE, Curve, Reach, chart
from templates_gen.drawing.sheet import Layer


def drawn(points):
    view = chart("a toy", [Curve(points)], "mm along", "mm", Reach())
    (curve,) = [s.path for s in view.strokes if s.layer is Layer.SCRIBE]
    return view, curve


@pytest.mark.parametrize("low", [0.0, -0.02, -0.3, -60.0])
def test_chart_keeps_its_size_with_negative_values(low):
    view, curve = drawn([(0.0, 0.0), (300.0, low), (600.0, 0.5)])
    left, bottom, right, top = view.box
    assert right - left < WIDE + 5.0 and top - bottom < HIGH + 5.0
    assert curve.box[1] >= -2.5 and curve.box[3] <= HIGH + 1e-9


def test_heights_are_proportional_to_the_values():
    """Three points at -20, 0 and 40: the middle one stands a third of the way up."""
    _, curve = drawn([(0.0, -20.0), (300.0, 0.0), (600.0, 40.0)])
    low, middle, high = (v[1] for v in curve.vertices)
    assert (middle - low) / (high - low) == pytest.approx(1 / 3, rel=1e-12)


def test_draws_zero_line_where_the_axis_is_below_zero():
    view, curve = drawn([(0.0, -20.0), (300.0, 0.0), (600.0, 40.0)])
    zero = curve.vertices[1][1]
    levels = [s.path for s in view.strokes if s.layer is Layer.NOTE and s.path.length == WIDE]
    assert sorted(p.start[1] for p in levels) == pytest.approx([0.0, zero])
    words = {d.text for d in view.dimensions if hasattr(d, "text")}
    assert {"-20", "0", "40"} <= words
