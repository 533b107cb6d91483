"""Pictures of long drawings are legible and show the true dimensions."""

import re

import _pictures
import _small
import make
import pytest

from templates_gen import registry
from templates_gen.drawing.view import (
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    View,
    cut,
    line,
)
from templates_gen.geometry import rectangle

#: On a page about 850 pixels wide, capitals of 2.5 mm are then 8 pixels high, which is just
#: legible (common practice, no source).
MOST = 265.0


@pytest.mark.parametrize("name", [t.name for t in registry.templates()])
def test_picture_is_narrow_enough_to_be_legible(name):
    svg = (make.ROOT / "docs" / "pictures" / f"{name}.svg").read_text("utf-8")
    (wide,) = re.findall(r'width="(\d+)mm"', svg)
    assert int(wide) <= MOST


def test_keeps_a_short_drawing_unchanged():
    views = [View("short", (cut(rectangle(0, 0, _small.WIDEST, 10)),))]
    assert _small.readable(views) == views


def test_scales_a_long_drawing_but_not_its_dimensions():
    """All by hand: 600 mm at a third is 200."""
    dims = (
        HorizontalDim((0, 0), (600, 0), -1, suffix=" long"),
        VerticalDim((0, 0), (0, 30), 1, text="high"),
        Radius((300, 0), 15.0, 0.0, reach=6.0),
        Leader((300, 30), (310, 40), "there"),
        Text((90, 9), "word"),
    )
    long = View("board", (cut(rectangle(0, 0, 600, 30)),), dims)
    beside = View("line", (cut(line((0, 0), (60, 0))),))
    first, second = _small.readable([long, beside])
    assert first.box == pytest.approx((0, 0, 200, 10))
    assert second.box[2] == pytest.approx(20), "all views of a picture alike"
    assert first.title.endswith("1 : 3")
    horizontal, vertical, radius, leader, word = first.dimensions
    assert (horizontal.text, vertical.text, radius.text) == ("600 long", "high", "R15")
    assert (horizontal.q, vertical.q) == ((200, 0), (0, 10))
    assert radius.tip == pytest.approx((105, 0))
    assert (leader.tip, leader.to) == (pytest.approx((100, 10)), pytest.approx((110, 20)))
    assert word.at == (30, 3)


def test_picture_of_the_form_shows_its_true_length():
    (template,) = (t for t in registry.templates() if t.name == "form-bending")
    views = list(template.views(_pictures.patterns(make.ROOT)[0]))
    left, _, right, _ = views[0].box
    svg = (make.ROOT / "docs" / "pictures" / f"{template.name}.svg").read_text("utf-8")
    shown = [float(n) for n in re.findall(r">(\d+\.\d+)</text>", svg)]
    assert any(n == pytest.approx(right - left, abs=0.006) for n in shown)
