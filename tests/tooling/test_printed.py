"""What poppler lays down on the page at 300 dots an inch: true size, and tiles that join."""

import math
from itertools import pairwise

import numpy as np
import pytest
from outside.maker import stated
from readers import pdf_page
from tooling.forms import form, sheet
from tooling.raster import needs_poppler, pages

from templates_gen.drawing.tiling import layout, tiles
from templates_gen.parts.form import dims_curves
from templates_gen.pipeline import rendering
from templates_gen.writers import pdf

pytestmark = needs_poppler

OVERLAP = 15.0


def test_square_on_a_plain_sheet():
    files = rendering.render(
        stated("violin"), (), formats=("pdf",), only=("frog-side",), plane=True
    )
    (data,) = [d for n, d in files.items() if n.endswith(".pdf")]
    (page,) = pages(data)
    assert page.square() == pytest.approx((50.0, 50.0), abs=0.1)


def test_a_shrunk_page_is_seen():
    """The measure can fail: the same page at 97 %, as a printer that fits pages lays it down."""
    (page,) = pages(pdf.write(sheet(form(150, 40))), dpi=291)
    shrunk = type(page)(page.dark, 300)
    assert shrunk.square(19.4) == pytest.approx((48.5, 48.5), abs=0.1)


@pytest.mark.slow
@pytest.mark.parametrize("paper", ["a4", "a3", "letter", "tabloid"])
def test_square_on_every_page_of_a_tiled_form(paper):
    made = sheet(form(), paper=paper)
    printed = tiles(made, paper, OVERLAP)
    assert len(printed) > 2
    for page in pages(pdf.write_pages("form", printed)):
        assert page.square() == pytest.approx((50.0, 50.0), abs=0.1)


@pytest.mark.slow
def test_square_on_every_page_of_a_pattern():
    p = stated("cello")
    files = rendering.render(p, (), formats=("pdf",), plane=True)
    found = pages(files[f"{rendering.stem(p)}.pdf"])
    alone = [d for n, d in files.items() if n.endswith(".pdf") and "--" in n]
    assert len(found) == sum(pdf_page.read(d).pages for d in alone) >= 30
    for page in found:
        assert page.square() == pytest.approx((50.0, 50.0), abs=0.1)


def joined(made, paper):
    """Every page's raster and its way to the first page's frame, from the printed crosses alone."""
    lies = layout(made, paper, OVERLAP)
    laid, named = lies.grid, lies.crosses
    # Poppler sets thin lines on whole dots: at 300 an inch that alone is 0.04 mm a line.
    printed = pages(pdf.write_pages("form", tiles(made, paper, OVERLAP)), dpi=600)[1:]
    seen = []
    for at, raster in zip(laid.places, printed, strict=True):
        dx, dy = laid.shift(at)
        on = {}
        for c in named:
            x, y = c.at[0] + dx, c.at[1] + dy
            left, low, right, top = laid.area
            if left + 4 <= x <= right - 4 and low + 4 <= y <= top - 4:
                on[c.name] = complex(*raster.cross(x, y))
        seen.append(on)
    ways = [(1 + 0j, 0j)]
    for before, after in pairwise(seen):
        a, b = sorted(before.keys() & after.keys())
        turn = (before[b] - before[a]) / (after[b] - after[a])
        assert abs(turn) == pytest.approx(1.0, abs=1e-3)
        turn /= abs(turn)  # paper turns, it does not grow
        shift = (before[a] + before[b]) / 2 - turn * (after[a] + after[b]) / 2
        k, m = ways[-1]
        ways.append((k * turn, k * shift + m))
    return lies, printed, ways


@pytest.mark.slow
def test_pages_put_together_by_their_crosses_measure_what_they_say():
    """From tick to tick over three pages within 0.1 mm of the length that is printed."""
    made = sheet(form())
    lies, printed, ways = joined(made, "a4")
    laid, (check,) = lies.grid, lies.lengths
    ends = []
    for number, (x, y) in ((0, check.start), (len(printed) - 1, check.end)):
        dx, dy = laid.shift(laid.places[number])
        at = printed[number].upright((x + dx - 0.5, x + dx + 0.5), (y + dy - 2.8, y + dy - 1.0))
        k, m = ways[number]
        ends.append(k * complex(at, y + dy) + m)
    assert abs(ends[1] - ends[0]) == pytest.approx(check.length, abs=0.1)
    assert check.length >= 680


@pytest.mark.slow
def test_the_datum_runs_straight_through_all_pages():
    made = sheet(form())
    lies, printed, ways = joined(made, "a4")
    laid, level = lies.grid, lies.level
    heights = []
    for at, raster, (k, m) in zip(laid.places, printed, ways, strict=True):
        dy = laid.shift(at)[1]
        left, _, right, _ = laid.area
        for x in (left + 60, right - 60):
            y = raster.level((x, x + 20), (level[0] + dy - 0.7, level[0] + dy + 0.7))
            heights.append((k * complex(x + 10, y) + m).imag)
    assert max(heights) - min(heights) < 0.1


@pytest.mark.slow
def test_the_outline_goes_on_where_pages_meet():
    """In each overlap the arc stands at the same height on both pages, put together."""
    made = sheet(form())
    lies, printed, ways = joined(made, "a4")
    laid = lies.grid
    ox, oy = made.datum
    rise, half = 17.5, 350.0
    r = (half**2 + rise**2) / (2 * rise)
    for number in (1, 2):
        heights = []
        for page in (number - 1, number):
            dx, dy = laid.shift(laid.places[page])
            x = laid.shown(laid.places[number])[0] + OVERLAP / 2
            y = oy + 40 + rise - r + math.sqrt(r * r - (x - ox - half) ** 2)
            found = printed[page].level((x + dx - 2, x + dx + 2), (y + dy - 1.5, y + dy + 1.5))
            k, m = ways[page]
            heights.append((k * complex(x + dx, found) + m).imag)
        assert heights[0] == pytest.approx(heights[1], abs=0.1)


@pytest.mark.slow
def test_a_bending_form_put_together_is_its_outline_over_its_full_length():
    """Its edge every 5 mm, wherever a page shows it, within 0.1 mm of the outline drawn."""
    p = stated("violin")
    (made,) = rendering.sheets(p, rendering.check(p), only=("form-bending",))
    lies, printed, ways = joined(made, "a4")
    laid, edge = lies.grid, dims_curves.edge(p)
    ox, oy = made.datum
    seen, off = set(), []
    for at, raster, (k, m) in zip(laid.places, printed, ways, strict=True):
        dx, dy = laid.shift(at)
        left, _, right, _ = laid.area
        for x in np.arange(2.5, edge.x[-1] - 2, 5.0):
            # A mark stands on the edge every 50 along it.
            if not left + 1 < ox + x + dx < right - 1 or min(x % 50, 50 - x % 50) < 4:
                continue
            y = oy + edge.height(x) + dy
            found = raster.level((ox + x + dx - 0.4, ox + x + dx + 0.4), (y - 0.6, y + 0.6))
            z = k * complex(ox + x + dx, found) + m
            off.append(abs(z - complex(ox + x, oy + edge.height(x)) - first_shift(laid)))
            seen.add(round(x, 1))
    assert max(off) < 0.1 and len(seen) > 0.75 * edge.x[-1] / 5


def first_shift(laid):
    """From the sheet's frame to the first page's, the frame of all pages."""
    dx, dy = laid.shift(laid.places[0])
    return complex(dx, dy)
