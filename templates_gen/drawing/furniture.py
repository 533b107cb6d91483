"""Draw the furniture of a sheet: measuring square, measuring bars, title block, stamps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import UNSCALED, Label, Layer, Stroke
from templates_gen.drawing.text import capitalized, fit_text, text_width, wrap_text
from templates_gen.drawing.view import line
from templates_gen.geometry import Box, Pen, rectangle

#: Width of the empty edge (mm), unless the shop file states another.
MARGIN = 10.0
#: Side of the measuring square (mm).
SQUARE = 50.0
#: Distance of the bars' corner from the margin (mm): room for their ticks.
_IN = 4.0
_CAP, _TITLE_CAP, _LEADING = 2.5, 3.5, 4.6
#: Distance from the horizontal bar to the lowest line of the title block (mm).
_CLEAR = 4.3
#: Height of the furniture above the margin (mm); the drawing area begins above it.
_FOOT = 70.0
#: First word of the stamp that must be seen first.
FORCED = "FORCED"
#: Height of its capitals, and of those of other stamps (mm).
LOUD, QUIET = 5.0, 3.0
#: Space round a stamp's text inside its frame, and between frame and drawing (mm).
_PAD, _UNDER = 2.0, 2.0
#: Rounding error allowed in a sum of lengths (mm).
_ROUNDING = 1e-6


@dataclass(frozen=True)
class SheetInfo:
    """The words of a title block.

    Args:
        name: the template's name.
        title: the template's title.
        pattern, revision, instrument: name, revision and instrument of the pattern.
        purpose: what to do with the sheet.
        digest: short hash of the parameters.
        up: which side is up.
        verdict: result of the checks.
        stamps: warnings in large letters.
        note: how the lines differ from the finished size; "" where they do not.
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
    note: str = ""


def drawing_area(
    size: tuple[float, float], margin: float = MARGIN, stamps: Sequence[str] = ()
) -> Box:
    """Return the area of a page that is free for the template (mm)."""
    frame = stamp_frame(size, margin, stamps)
    top = frame[1] - _UNDER if frame else size[1] - margin
    return (margin + _IN + 8, margin + _FOOT, size[0] - margin, top)


def stamp_frame(size: tuple[float, float], margin: float, stamps: Sequence[str]) -> Box | None:
    """Return the frame of the stamps, above the drawing area (mm); None without stamps."""
    if not stamps:
        return None
    top, high = size[1] - margin, max(map(_stamp_cap, stamps)) + 2 * _PAD
    return (margin + _IN + 8, top - high, size[0] - margin, top)


def _stamp_cap(stamp: str) -> float:
    return LOUD if stamp.startswith(FORCED) else QUIET


def bar_lengths(size: tuple[float, float], margin: float = MARGIN) -> tuple[float, float]:
    """Return the lengths (mm) of the horizontal and vertical bar: the largest tens that fit."""
    level, upright = ((side - 2 * margin - _IN) // 10 * 10 for side in size)
    return (level, upright)


@lru_cache(maxsize=64)
def measuring_marks(
    size: tuple[float, float], margin: float = MARGIN, stamps: Sequence[str] = ()
) -> Marks:
    """Draw the two bars, the square and the stamps of a page."""
    measured = bars(size, margin) + square(margin + _IN + 6, margin + _IN + 6)
    return measured + _stamped(size, margin, stamps)


def _stamped(size: tuple[float, float], margin: float, stamps: Sequence[str]) -> Marks:
    """Draw the stamps in a frame, the largest first, side by side in one row.

    On a narrow page all are reduced by the same factor.
    """
    frame = stamp_frame(size, margin, stamps)
    if frame is None:
        return Marks()
    left, bottom, right, _ = frame
    labels, x = [], left + _PAD
    room = right - left - 2 * _PAD - 4 * _PAD * (len(stamps) - 1)
    shrunk = min(1.0, room / sum(text_width(words, _stamp_cap(words)) for words in stamps))
    for words in sorted(stamps, key=_stamp_cap, reverse=True):
        cap = max(_CAP, shrunk * _stamp_cap(words))
        shown = fit_text(words, right - _PAD - x + _ROUNDING, cap)
        labels.append(_note(shown, x, bottom + _PAD, cap))
        x += text_width(shown, cap) + 4 * _PAD
    return Marks((Stroke(rectangle(*frame), Layer.NOTE),), (), tuple(labels))


def text_block(
    title: str, lines: Sequence[str], size: tuple[float, float], margin: float = MARGIN
) -> Marks:
    """Write a heading and lines of text beside the square; an empty line takes half a line.

    A long line is wrapped once. Many lines are set closer, so that the last stays clear of the
    horizontal bar and its label.
    """
    left, top = margin + _IN + SQUARE + 12, margin + _IN + 6 + SQUARE
    room = size[0] - margin - left
    cap = max(_CAP, _TITLE_CAP * min(1.0, room / text_width(title, _TITLE_CAP)))
    labels = [_note(fit_text(title, room, cap), left, top - _TITLE_CAP, cap)]
    y = top - _TITLE_CAP - _LEADING - 1
    shown = [part for text in lines for part in _in_two(text, room)]
    steps = sum(1.0 if text else 0.5 for text in shown[:-1])
    leading = min(_LEADING, (y - margin - _IN - _CLEAR) / max(steps, 1.0))
    for text in shown:
        if text:
            labels.append(_note(text, left, y))
        y -= leading if text else leading / 2
    return Marks((), (), tuple(labels))


def _in_two(text: str, room: float) -> list[str]:
    """Wrap a line of text that is too long for one line into two."""
    if text_width(text, _CAP) <= room:
        return [fit_text(text, room, _CAP)]
    return wrap_text(text, room, _CAP, 2)


def footnote(text: str, margin: float = MARGIN) -> Label:
    """Write a note that is for this copy only, between the horizontal bar and the square."""
    left = margin + _IN + 6
    return _note(fit_text(text, SQUARE + 5, _CAP), left, margin + _IN + 1.9)


def _note(text: str, x: float, y: float, cap: float = _CAP, angle: float = 0.0) -> Label:
    return Label(text, (x, y), cap, "start", angle, Layer.NOTE)


def bars(size: tuple[float, float], margin: float = MARGIN) -> Marks:
    """Draw a horizontal and a vertical bar from one corner, with ticks and their lengths."""
    at, (level, upright) = margin + _IN, bar_lengths(size, margin)
    corner = Pen((at + level, at)).line_to(at, at).line_to(at, at + upright).open()
    ticks = [
        *(line((at + t, at), (at + t, at - _tick(t))) for t in range(10, int(level) + 1, 10)),
        *(line((at, at + t), (at - _tick(t), at + t)) for t in range(10, int(upright) + 1, 10)),
    ]
    labels = (
        _note(f"{level:g}", at + level - 7, at + 0.9),
        _note(f"{upright:g}", at + 3.4, at + upright - 7, angle=90.0),
    )
    return Marks(tuple(Stroke(path, Layer.NOTE) for path in (corner, *ticks)), (), labels)


def _tick(along: int) -> float:
    """Return the length of a bar's tick (mm): every fifth is longer."""
    return 2.5 if along % 50 == 0 else 1.5


#: Words in the square of a template.
_MEASURE = (
    "Measure this square:",
    "50 mm each way.",
    "",
    "If it is not 50 mm,",
    "do not use this sheet.",
    "Print at 100 %.",
)


def square(left: float, bottom: float, words: Sequence[str] = _MEASURE) -> Marks:
    """Draw the 50 mm square, with the instruction to measure it."""
    path = rectangle(left, bottom, left + SQUARE, bottom + SQUARE)
    labels = (
        _note(w, left + 4, bottom + SQUARE - 10 - i * _LEADING) for i, w in enumerate(words) if w
    )
    return Marks((Stroke(path, Layer.NOTE),), (), tuple(labels))


def title_block(info: SheetInfo, size: tuple[float, float], margin: float) -> Marks:
    """Write the title block beside the square."""
    room = size[0] - 2 * margin - _IN - SQUARE - 12
    note = wrap_text(info.note, room, _CAP, 2)
    lines = [
        *note,
        *instruction(info, size, margin, 2 if note else 3),
        "",
        f"Pattern {info.pattern}, revision {info.revision}",
        info.instrument,
        scale(info.up),
        f"{info.name}   parameters {info.digest}",
        info.verdict,
        *info.stamps,
    ]
    return text_block(info.title, lines, size, margin)


def instruction(
    info: SheetInfo, size: tuple[float, float], margin: float, most: int = 2
) -> list[str]:
    """Wrap the purpose of a sheet to the width beside the square, in at most ``most`` lines."""
    return wrap_text(info.purpose, size[0] - 2 * margin - _IN - SQUARE - 12, _CAP, most)


def scale(up: str) -> str:
    """Return the scale and the side that is up; a chart or list has neither."""
    return capitalized(up) if up in UNSCALED else f"Scale 1:1, {up}"
