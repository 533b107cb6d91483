"""What every sheet carries besides the template: square, bars, title block."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import Label, Layer, Stroke
from templates_gen.drawing.text import fit_text, wrap_text
from templates_gen.drawing.view import line
from templates_gen.geometry import Pen, rectangle
from templates_gen.geometry.segment import Box

MARGIN = 10.0
SQUARE = 50.0
_CORNER = 14.0
_CAP, _TITLE_CAP, _LEADING = 2.5, 3.5, 4.6
#: Foot of the drawing area: above the square and the title block.
_FOOT = 80.0


@dataclass(frozen=True)
class SheetInfo:
    """What the title block says.

    Args:
        name: the template's name.
        title: what it is.
        pattern, revision, instrument: of which pattern.
        purpose: what to do with it.
        digest: short hash of the parameters.
        up: which side is up.
        verdict: what the checks found.
        stamps: warnings to print large.
    """

    name: str
    title: str
    pattern: str
    revision: str
    instrument: str
    purpose: str
    digest: str
    up: str
    verdict: str
    stamps: tuple[str, ...] = ()


def drawing_area(size: tuple[float, float]) -> Box:
    """Where the template may stand on a page of this size (mm)."""
    return (_CORNER + 8, _FOOT, size[0] - MARGIN, size[1] - MARGIN)


def bar_lengths(size: tuple[float, float]) -> tuple[float, float]:
    """Length of the level and the upright bar (mm): whole tens, as long as the sheet allows."""
    level, upright = ((side - _CORNER - MARGIN) // 10 * 10 for side in size)
    return (level, upright)


def furniture(info: SheetInfo, size: tuple[float, float]) -> Marks:
    """Bars, square and title block, in page coordinates."""
    return _bars(size) + _square() + _words(info, size)


def _note(text: str, x: float, y: float, cap: float = _CAP, angle: float = 0.0) -> Label:
    return Label(text, (x, y), cap, "start", angle, Layer.NOTE)


def _bars(size: tuple[float, float]) -> Marks:
    level, upright = bar_lengths(size)
    corner = Pen((_CORNER + level, _CORNER)).line_to(_CORNER, _CORNER)
    strokes = [Stroke(corner.line_to(_CORNER, _CORNER + upright).open(), Layer.NOTE)]
    labels = []
    for along in range(10, int(level) + 1, 10):
        x, tall = _CORNER + along, 2.5 if along % 50 == 0 else 1.5
        strokes.append(Stroke(line((x, _CORNER), (x, _CORNER - tall)), Layer.NOTE))
    for along in range(10, int(upright) + 1, 10):
        y, tall = _CORNER + along, 2.5 if along % 50 == 0 else 1.5
        strokes.append(Stroke(line((_CORNER, y), (_CORNER - tall, y)), Layer.NOTE))
    for text, x, y, angle in (
        (f"{level:g}", _CORNER + level - 7, _CORNER + 0.9, 0.0),
        (f"{upright:g}", _CORNER + 3.4, _CORNER + upright - 7, 90.0),
    ):
        labels.append(_note(text, x, y, angle=angle))
    return Marks(tuple(strokes), (), tuple(labels))


def _square() -> Marks:
    left, bottom = _CORNER + 6, _CORNER + 6
    path = rectangle(left, bottom, left + SQUARE, bottom + SQUARE)
    words = (
        "Measure this square:",
        "50 mm each way.",
        "",
        "If it is not, do not use",
        "this sheet. Print again",
        "at 100 %, 'actual size'.",
    )
    labels = [
        _note(w, left + 4, bottom + SQUARE - 10 - i * _LEADING) for i, w in enumerate(words) if w
    ]
    return Marks((Stroke(path, Layer.NOTE),), (), tuple(labels))


def _words(info: SheetInfo, size: tuple[float, float]) -> Marks:
    left, top = _CORNER + 6 + SQUARE + 6, _CORNER + 6 + SQUARE
    room = size[0] - MARGIN - left
    labels = [_note(fit_text(info.title, room, _TITLE_CAP), left, top - _TITLE_CAP, _TITLE_CAP)]
    lines = [
        *wrap_text(info.purpose, room, _CAP, 3),
        "",
        f"Pattern {info.pattern}, revision {info.revision}",
        info.instrument,
        f"Scale 1:1, {info.up}",
        f"{info.name}   parameters {info.digest}",
        info.verdict,
        *info.stamps,
    ]
    y = top - _TITLE_CAP - _LEADING - 1
    for text in lines:
        if text:
            labels.append(_note(fit_text(text, room, _CAP), left, y))
        y -= _LEADING if text else _LEADING / 2
    return Marks((), (), tuple(labels))
