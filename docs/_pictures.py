"""Generate the pictures of templates from the package's own sheets with its own SVG writer."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import _glossary
import _lettered
import _shop
import _small

from templates_gen import registry
from templates_gen.drawing.compose import SheetInfo, compose
from templates_gen.drawing.furniture import drawing_area
from templates_gen.drawing.marks import Marks, box_of, label_corners, place
from templates_gen.drawing.sheet import Sheet
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import View
from templates_gen.geometry.segment import Box
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering
from templates_gen.writers import svg

#: The first pattern is in most pictures; the others show templates it does not have.
PATTERNS = ("bass-french", "violin", "viola", "cello", "bass-german")
WHOLE = "frog-side"
_AROUND = 4.0


@cache
def patterns(root: Path) -> tuple[Pattern, ...]:
    """Read the patterns that the pictures show."""
    return tuple(rendering.read(str(root / "params" / f"{name}.toml")) for name in PATTERNS)


def pictured(template: Template, root: Path) -> Pattern | None:
    """Return the first pattern that has the template, or None."""
    return next((p for p in patterns(root) if template.wanted(p)), None)


def pictures(root: Path) -> dict[str, bytes]:
    """Return every picture by name: whole sheets, templates, shop templates, lettered drawings."""
    p = patterns(root)[0]
    (whole,) = rendering.sheets(p, rendering.check(p), only=(WHOLE,), stamps=[])
    made = {"sheet": _on_white(whole)}
    for t in registry.templates():
        of = pictured(t, root)
        if of is not None:
            made[t.name] = _cropped(list(t.views(of)), t.title)
    for name, (title, views) in _lettered.drawings(p).items():
        made[f"letters-{name}"] = _cropped(views, title)
    for name, (title, views) in _glossary.drawings(p).items():
        made[f"glossary-{name}"] = _cropped(views, title)
    for name, (title, views) in _shop.drawings(p).items():
        made[name] = _cropped(views, title)
    for name, sheet in _shop.sheets(p).items():
        made[name] = _on_white(sheet)
    return made


def _cropped(views: list[View], title: str) -> bytes:
    """Return an SVG of views without frame and title block, on a page of their own size."""
    sheet = compose(
        _small.readable(views), SheetInfo("picture", title, "Picture", "", "", "", "", "", "")
    )
    area = drawing_area(sheet.size)
    marks = Marks(
        tuple(s for s in sheet.strokes if _within(s.path.box, area)),
        tuple(f for f in sheet.fills if _within(f.path.box, area)),
        tuple(n for n in sheet.labels if _within(box_of(label_corners(n)), area)),
    )
    left, bottom, right, top = marks.box
    dx, dy = _AROUND - math.floor(left), _AROUND - math.floor(bottom)
    moved = place(marks, dx, dy)
    size = (math.ceil(right + dx + _AROUND), math.ceil(top + dy + _AROUND))
    page = replace(sheet, size=size, strokes=moved.strokes, fills=moved.fills, labels=moved.labels)
    return _on_white(page)


def _within(box: Box, area: Box) -> bool:
    return (
        area[0] <= box[0] and area[1] <= box[1] and box[2] <= area[2] + 1 and box[3] <= area[3] + 1
    )


def _on_white(sheet: Sheet) -> bytes:
    """Return the sheet's SVG on a white background, to be visible on a dark screen."""
    white = b'<defs /><rect width="100%" height="100%" fill="white" />'
    return svg.write(sheet).replace(b"<defs />", white, 1)
