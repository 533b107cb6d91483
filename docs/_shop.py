"""Draw the pictures for the shop: routing templates, kerf, printer test page, tiled cover."""

from __future__ import annotations

from templates_gen.bench.calibrate import page as calibrate_page
from templates_gen.bench.routing import templates
from templates_gen.drawing.compose import SheetInfo
from templates_gen.drawing.kerf import kerfed
from templates_gen.drawing.sheet import Sheet
from templates_gen.drawing.tiling import Page
from templates_gen.drawing.view import HorizontalDim, View, all_strokes, cut, hidden, pocket
from templates_gen.geometry import circle, rectangle
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.pipeline.output import USUAL_OPTIONS, pages
from templates_gen.shop.read import example, usual

#: Kerf in the picture, wide enough to be seen (mm).
_WIDE = 2.0
#: A template longer than the paper of a small printer.
_LONG = "form-bending"


def drawings(p: Pattern) -> dict[str, tuple[str, list[View]]]:
    """Return every drawing by name: its title and its views."""
    made = {t.name: (t.title, list(t.views(p))) for t in templates.templates(example())}
    return made | {"kerf": ("Kerf", [_kerf()])}


def sheets(p: Pattern) -> dict[str, Sheet]:
    """Return whole pages by name."""
    (form,) = rendering.sheets(p, rendering.check(p), only=(_LONG,))
    cover, *tiles = pages(form, USUAL_OPTIONS)
    assert len(tiles) > 1
    return {
        "calibrate": _sheet(calibrate_page.page("a4", usual().printer)),
        "tiled-cover": _sheet(cover),
    }


def _sheet(page: Page) -> Sheet:
    """Return a page without a drawing window as a sheet."""
    m, description = page.furniture, SheetInfo("picture", "Page", "Picture", "", "", "", "", "", "")
    return Sheet(
        description.name,
        description.title,
        description.pattern,
        "",
        page.size,
        (0.0, 0.0),
        page.size,
        m.strokes,
        m.fills,
        m.labels,
        (),
    )


def _kerf() -> View:
    """Draw a plate with a hole, finished and as drawn for a kerf ten times that of a laser."""
    finished = [rectangle(0, 0, 60, 30), circle((20, 15), 8)]
    plain = View("", all_strokes(cut(finished[0]), pocket(finished[1])))
    (moved,) = kerfed([plain], _WIDE)
    dims = (
        HorizontalDim((0, 0), (60, 0), -1, suffix=" finished"),
        HorizontalDim((-_WIDE / 2, 30), (60 + _WIDE / 2, 30), 1, suffix=" drawn"),
    )
    title = "finished dashed; the kerf is shown ten times too wide"
    return View(title, (*moved.strokes, *(hidden(path) for path in finished)), dims)
