"""Draw the cover page of a tiled template: how to join its pages and what to measure then."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import product

from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.furniture import instruction, measures, words_beside
from templates_gen.drawing.grid import Grid
from templates_gen.drawing.joins import Check, Cross
from templates_gen.drawing.marks import (
    Marks,
    box_of,
    box_round,
    label_corners,
    overlap,
    place,
    stands_on,
)
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.view import line
from templates_gen.geometry import Point, rectangle

_CAP = 2.5
#: The map takes at most this share of the drawing area, at most at this scale.
_SHARE, _LARGEST = 0.85, 0.5
_ARM = 1.5
#: Space round words (mm); grid on which a clear place is searched: step (mm), steps each way.
_AIR, _STEP, _STEPS = 0.4, 1.0, 16
#: Lines of text that fill the space beside the square.
_FULL = 10
#: Tolerance of a joined length: 0.25 mm on a 250 mm bar is one part in a thousand.
_PRINTS = 0.001


def cover(
    sheet: PlacedSheet, grid: Grid, crosses: Sequence[Cross], lengths: Sequence[Check]
) -> Marks:
    """Draw instructions, a map of the pages, the measuring square and the bars."""
    words = words_beside(
        f"{sheet.info.title}: how to join the pages",
        _lines(sheet, grid, lengths),
        grid.size,
        sheet.margin,
    )
    return measures(grid.size, sheet.margin, sheet.info.stamps) + words + _map(sheet, grid, crosses)


def _lines(sheet: PlacedSheet, grid: Grid, lengths: Sequence[Check]) -> list[str]:
    info, rows = sheet.info, "1 row" if grid.rows == 1 else f"{grid.rows} rows"
    what = [
        *instruction(info, grid.size, sheet.margin),
        f"{grid.count} pages, {rows} of {grid.columns}, overlap {grid.overlap:g} mm",
        *([info.note] if info.note else []),
    ]
    how = [
        "Print at 100 %. Measure square and bars on every page.",
        "Overlap two pages until both crosses coincide; glue.",
        "Keep the datum line straight. Do not cut along it.",
        *(
            f"Measure the {_direction(c)} datum line, tick to tick: "
            f"{c.length:g} ± {c.length * _PRINTS:.1f}"
            for c in lengths
        ),
    ]
    which = [
        f"Pattern {info.pattern}, revision {info.revision}, {info.instrument}",
        f"{info.name}   parameters {info.digest}",
        "; ".join((info.verdict, *info.stamps)),
    ]
    # Half an empty line between the three groups, where it fits.
    air = [""] if len(what) + len(how) + len(which) < _FULL else []
    return [*what, *air, *how, *air, *which]


def _direction(check: Check) -> str:
    return "horizontal" if check.start[1] == check.end[1] else "vertical"


def _map(sheet: PlacedSheet, grid: Grid, crosses: Sequence[Cross]) -> Marks:
    """Draw the pages, their numbers and crosses, and the template's lines, all reduced."""
    windows = [grid.shown(at) for at in grid.places]
    box = box_round(windows)
    left, bottom, right, top = grid.area
    scale = min(
        _LARGEST,
        _SHARE * (right - left) / (box[2] - box[0]),
        _SHARE * (top - bottom) / (box[3] - box[1]),
    )

    def small(p: Point) -> Point:
        return (p[0] * scale, p[1] * scale)

    strokes = [
        replace(s, path=s.path.mapped(small), layer=Layer.SCRIBE)
        for s in sheet.content.strokes
        if s.layer is not Layer.DIMENSION
    ]
    for window in windows:
        strokes.append(Stroke(rectangle(*window).mapped(small), Layer.NOTE))
    marks = Marks(tuple(strokes))
    for cross in crosses:
        marks += _small_cross(small(cross.at))
    for cross in crosses:
        marks += _named(cross.name, small(cross.at), marks)
    for number, (x0, _, _, y1) in enumerate(windows, start=1):
        x, y = small((x0 + grid.overlap + 4, y1))
        marks += _named(f"page {number}", (x + 2, y - 1.5 * _CAP), marks)
    a, b, c, d = marks.box
    moved = place(marks, (left + right - a - c) / 2, (bottom + top - b - d) / 2 + _CAP)
    under = (moved.box[0], moved.box[1] - 2 * _CAP)
    return moved + Marks(labels=(Label("arrangement of the pages; not to scale", under, _CAP),))


def _small_cross(at: Point) -> Marks:
    x, y = at
    level, upright = line((x - _ARM, y), (x + _ARM, y)), line((x, y - _ARM), (x, y + _ARM))
    return Marks((Stroke(level, Layer.NOTE), Stroke(upright, Layer.NOTE)))


def _named(words: str, at: Point, taken: Marks) -> Marks:
    """Place words as near to a point as possible without touching other marks."""
    steps = [n * _STEP for n in range(-_STEPS, _STEPS + 1)]
    offsets = sorted(product(steps, steps), key=lambda d: math.hypot(*d))
    tried = (Label(words, (at[0] + dx, at[1] + dy), _CAP) for dx, dy in offsets)
    found = next((n for n in tried if _is_clear(n, taken)), Label(words, at, _CAP))
    return Marks(labels=(found,))


def _is_clear(label: Label, taken: Marks) -> bool:
    left, bottom, right, top = box_of(label_corners(label))
    box = (left - _AIR, bottom - _AIR, right + _AIR, top + _AIR)
    words = (box_of(label_corners(n)) for n in taken.labels)
    return not (
        any(overlap(box, w) for w in words) or any(stands_on(box, s.path) for s in taken.strokes)
    )
