"""Check a finished sheet: closed cuts, no duplicate lines, no text on lines, square and bars."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from templates_gen.drawing.doubles import place_of
from templates_gen.drawing.furniture import MARGIN, SQUARE, bar_lengths
from templates_gen.drawing.marks import box_of, label_corners, overlap, stands_on
from templates_gen.drawing.sheet import CUTS, Layer, Sheet
from templates_gen.geometry import Path

_EDGE = 5.0


def lint(sheet: Sheet, margin: float = MARGIN) -> list[str]:
    """List all faults of a sheet, each with its place; an empty list if it may be written.

    Args:
        sheet: the sheet.
        margin: width of its empty edge (mm).
    """
    found = [
        *_open_cuts(sheet),
        *_doubled(sheet),
        *_words(sheet),
        *_paper(sheet),
        *_measures(sheet, margin),
    ]
    return [f"{sheet.name}: {what}" for what in found]


def _cuts(sheet: Sheet) -> list[Path]:
    return [s.path for s in sheet.strokes if s.layer in CUTS]


def _open_cuts(sheet: Sheet) -> Iterator[str]:
    for path in _cuts(sheet):
        if not path.closed:
            yield f"a cut is open at {_at(path.start)}"


def _doubled(sheet: Sheet) -> Iterator[str]:
    seen = set()
    for stroke in sheet.strokes:
        for piece in stroke.path.segments:
            place = place_of(piece)
            if place in seen:
                yield f"a line is drawn twice at {_at(piece.point(0.5))}"
            seen.add(place)


def _words(sheet: Sheet) -> Iterator[str]:
    boxes = [(n.text, box_of(label_corners(n))) for n in sheet.labels]
    for text, box in boxes:
        if any(stands_on(box, path) for path in _cuts(sheet)):
            yield f"the text {text!r} is on a cut at {_at(box[:2])}"
    for (one, a), (other, b) in combinations(boxes, 2):
        if overlap(a, b):
            yield f"the texts {one!r} and {other!r} overlap at {_at(a[:2])}"


def _paper(sheet: Sheet) -> Iterator[str]:
    boxes = [s.path.box for s in sheet.strokes] + [f.path.box for f in sheet.fills]
    boxes += [box_of(label_corners(n)) for n in sheet.labels]
    width, height = sheet.size
    for b in boxes:
        if min(b[0], b[1], width - b[2], height - b[3]) < _EDGE:
            yield f"a mark is less than {_EDGE:g} mm from the paper's edge at {_at(b[:2])}"
            return


def _measures(sheet: Sheet, margin: float) -> Iterator[str]:
    notes = [s.path for s in sheet.strokes if s.layer is Layer.NOTE]
    squares = [p for p in notes if p.closed and len(p.segments) == 4]
    if not any(_measures_up(p, SQUARE, SQUARE, p.area, SQUARE**2) for p in squares):
        yield "the 50 mm square is missing or has the wrong size"
    level, upright = bar_lengths(sheet.size, margin)
    corners = [p for p in notes if not p.closed and len(p.segments) == 2]
    if not any(_measures_up(p, level, upright, p.length, level + upright) for p in corners):
        yield "the measuring bars are missing or have the wrong length"


def _measures_up(path: Path, width: float, height: float, found: float, wanted: float) -> bool:
    """Return whether a path of straight sides has this box, and this area or length."""
    left, bottom, right, top = path.box
    off = (right - left - width, top - bottom - height, found - wanted)
    return all(s.is_line for s in path.segments) and all(abs(d) < 1e-9 for d in off)


def _at(p: tuple[float, ...]) -> str:
    return f"({p[0]:.1f}, {p[1]:.1f})"
