"""Check the marks that join printed pages, and the places of text, on the drawn strokes.

Source: geometry; room left round a template is common practice, no source.
"""

from __future__ import annotations

from collections import Counter

import pytest
from tooling.forms import form, sheet

from templates_gen.drawing import dimension, registration
from templates_gen.drawing.marks import Marks, box_of, label_corners
from templates_gen.drawing.placement import _trouble
from templates_gen.drawing.sheet import CUTS, Label, Layer, Stroke
from templates_gen.drawing.tiling import tiles
from templates_gen.drawing.view import HorizontalDim, VerticalDim, line


@pytest.mark.parametrize("size", [(700, 40), (40, 700)])
def test_each_register_cross_is_printed_on_two_pages(size: tuple[float, float]) -> None:
    """One page is laid over the next by what both have: each cross with its name, on both."""
    _, *pages = tiles(sheet(form(*size)), "a4", 15.0)
    found = Counter(
        n.text
        for page in pages
        for n in page.content.labels
        if n.text[:-1].isdigit() and n.text[-1] in "ab"
    )
    assert len(found) >= 2
    assert set(found.values()) == {2}


@pytest.mark.parametrize(
    ("end", "wide", "high"), [((700.0, 0.0), 0.0, 6.0), ((0.0, 700.0), 6.0, 0.0)]
)
def test_tick_is_square_to_its_datum_line(
    end: tuple[float, float], wide: float, high: float
) -> None:
    marks = registration.end_ticks(registration.MeasuredLength((0.0, 0.0), end))
    boxes = [s.path.box for s in marks.strokes]
    assert len(boxes) == 2
    for left, low, right, top in boxes:
        assert (right - left, top - low) == pytest.approx((wide, high))
    middles = sorted(((b[0] + b[2]) / 2, (b[1] + b[3]) / 2) for b in boxes)
    assert middles == [(0.0, 0.0), end]


def test_template_has_two_millimetres_free_away_from_datum_lines() -> None:
    """A datum line takes 5 mm and 6 mm for its words. Common practice, no source."""
    box = (10.0, 20.0, 110.0, 80.0)
    assert registration.box_with_datums(box, level=False, upright=False) == (8.0, 18.0, 112.0, 82.0)
    assert registration.box_with_datums(box, level=True, upright=False) == (8.0, 9.0, 112.0, 82.0)
    assert registration.box_with_datums(box, level=False, upright=True) == (-1.0, 18.0, 112.0, 82.0)
    assert registration.box_with_datums(box, level=True, upright=True) == (-1.0, 9.0, 121.0, 91.0)


@pytest.mark.parametrize("layer", sorted(CUTS))
def test_text_on_a_cut_is_worse_than_text_over_thin_lines(layer: Layer) -> None:
    """A cut line must be followed exactly; text over a thin line is still legible."""
    words = Marks(labels=(Label("across flats", (0.0, 0.0), 2.5, "middle", 0.0, Layer.DIMENSION),))
    on_cut = Marks((Stroke(line((-9.0, 1.0), (9.0, 1.0)), layer),))
    thin = tuple(
        Stroke(line((-9.0, y), (9.0, y)), other)
        for y in (0.5, 1.0, 1.5)
        for other in (Layer.SCRIBE, Layer.HIDDEN, Layer.CENTRE)
    )
    assert _trouble(words, on_cut, ()) > _trouble(words, Marks(thin), ()) > 0
    assert _trouble(words, Marks(), ()) == 0


@pytest.mark.parametrize("apart", [8.0, 30.0, 90.0])
@pytest.mark.parametrize("start", [-7.0, 0.0, 140.0])
def test_text_with_room_is_midway_between_the_arrows(start: float, apart: float) -> None:
    """Source: ISO 129-1 (from memory): over the line, near its middle."""
    for item in (
        HorizontalDim((start, 0.0), (start + apart, 0.0), -1),
        VerticalDim((0.0, start), (0.0, start + apart), -1),
    ):
        axis = 0 if isinstance(item, HorizontalDim) else 1
        (label,) = dimension.draw(item, (-20.0, -20.0, 300.0, 300.0)).labels
        box = box_of(label_corners(label))
        middle = (box[axis] + box[axis + 2]) / 2
        assert middle == pytest.approx(start + apart / 2, abs=0.2)
