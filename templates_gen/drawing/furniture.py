"""What every sheet carries besides the template: square, bars, title block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import UNSCALED, Label, Layer, Stroke
from templates_gen.drawing.text import first_up, fit_text, text_width, wrap_text
from templates_gen.drawing.view import line
from templates_gen.geometry import Pen, rectangle
from templates_gen.geometry.segment import Box

#: Kept free all round unless the maker's printer needs another (mm).
MARGIN = 10.0
SQUARE = 50.0
#: The bars meet this far in from the margin, so that their ticks keep clear of it (mm).
_IN = 4.0
_CAP, _TITLE_CAP, _LEADING = 2.5, 3.5, 4.6
#: From the level bar up to the lowest words beside the square (mm): its figure stands between.
_CLEAR = 4.3
#: Foot of the drawing area above the margin: over the square and the title block.
_FOOT = 70.0
#: What the stamp begins with that no one may overlook, and its height; others are quieter (mm).
FORCED = "FORCED"
LOUD, QUIET = 5.0, 3.0
#: Round a stamp's words within its frame, and between frame and drawing (mm).
_PAD, _UNDER = 2.0, 2.0
#: What sums of lengths may be off by (mm).
_ROUNDING = 1e-6


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
        note: in what the lines differ from the finished size; "" where they do not.
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
    """Where the template may stand on a page, everything kept ``margin`` off its edge (mm)."""
    frame = stamp_frame(size, margin, stamps)
    top = frame[1] - _UNDER if frame else size[1] - margin
    return (margin + _IN + 8, margin + _FOOT, size[0] - margin, top)


def stamp_frame(size: tuple[float, float], margin: float, stamps: Sequence[str]) -> Box | None:
    """The frame of the warnings, across the top over the drawing area; none without any (mm)."""
    if not stamps:
        return None
    top, high = size[1] - margin, max(map(_stamp_cap, stamps)) + 2 * _PAD
    return (margin + _IN + 8, top - high, size[0] - margin, top)


def _stamp_cap(stamp: str) -> float:
    return LOUD if stamp.startswith(FORCED) else QUIET


def bar_lengths(size: tuple[float, float], margin: float = MARGIN) -> tuple[float, float]:
    """Length of the level and the upright bar (mm): whole tens, as long as the sheet allows."""
    level, upright = ((side - 2 * margin - _IN) // 10 * 10 for side in size)
    return (level, upright)


@lru_cache(maxsize=64)
def measures(
    size: tuple[float, float], margin: float = MARGIN, stamps: Sequence[str] = ()
) -> Marks:
    """What a page is measured by, two bars at right angles and the square; and its warnings."""
    measured = bars(size, margin) + square(margin + _IN + 6, margin + _IN + 6)
    return measured + _stamped(size, margin, stamps)


def _stamped(size: tuple[float, float], margin: float, stamps: Sequence[str]) -> Marks:
    """The warnings in a frame, the loudest first, side by side so that they take one row.

    Where the page is too narrow for them, they are set smaller, all alike.
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


def words_beside(
    title: str, lines: Sequence[str], size: tuple[float, float], margin: float = MARGIN
) -> Marks:
    """A heading and lines of words beside the square; an empty line is half a line's space.

    A line too long goes on in a second one. Many lines stand closer, so that the last keeps clear
    of the level bar and its figure.
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
    """A line of words, in two where it is too long for one."""
    if text_width(text, _CAP) <= room:
        return [fit_text(text, room, _CAP)]
    return wrap_text(text, room, _CAP, 2)


def footnote(text: str, margin: float = MARGIN) -> Label:
    """A few words between the level bar and the square: what holds for this copy alone."""
    left = margin + _IN + 6
    return _note(fit_text(text, SQUARE + 5, _CAP), left, margin + _IN + 1.9)


def _note(text: str, x: float, y: float, cap: float = _CAP, angle: float = 0.0) -> Label:
    return Label(text, (x, y), cap, "start", angle, Layer.NOTE)


def bars(size: tuple[float, float], margin: float = MARGIN) -> Marks:
    """Two bars at right angles, with ticks and their lengths."""
    at, (level, upright) = margin + _IN, bar_lengths(size, margin)
    corner = Pen((at + level, at)).line_to(at, at)
    strokes = [Stroke(corner.line_to(at, at + upright).open(), Layer.NOTE)]
    labels = []
    for along in range(10, int(level) + 1, 10):
        x, tall = at + along, 2.5 if along % 50 == 0 else 1.5
        strokes.append(Stroke(line((x, at), (x, at - tall)), Layer.NOTE))
    for along in range(10, int(upright) + 1, 10):
        y, tall = at + along, 2.5 if along % 50 == 0 else 1.5
        strokes.append(Stroke(line((at, y), (at - tall, y)), Layer.NOTE))
    for text, x, y, angle in (
        (f"{level:g}", at + level - 7, at + 0.9, 0.0),
        (f"{upright:g}", at + 3.4, at + upright - 7, 90.0),
    ):
        labels.append(_note(text, x, y, angle=angle))
    return Marks(tuple(strokes), (), tuple(labels))


#: Of a sheet to cut by.
_MEASURE = (
    "Measure this square:",
    "50 mm each way.",
    "",
    "If it is not, do not use",
    "this sheet. Print again",
    "at 100 %, 'actual size'.",
)


def square(left: float, bottom: float, words: Sequence[str] = _MEASURE) -> Marks:
    """The 50 mm square and the words that tell what to measure."""
    path = rectangle(left, bottom, left + SQUARE, bottom + SQUARE)
    labels = [
        _note(w, left + 4, bottom + SQUARE - 10 - i * _LEADING) for i, w in enumerate(words) if w
    ]
    return Marks((Stroke(path, Layer.NOTE),), (), tuple(labels))


def title_block(info: SheetInfo, size: tuple[float, float], margin: float) -> Marks:
    """What a sheet is, of which pattern, and what holds of it, beside the square."""
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
    return words_beside(info.title, lines, size, margin)


def instruction(
    info: SheetInfo, size: tuple[float, float], margin: float, most: int = 2
) -> list[str]:
    """What to do with a sheet, in as many lines as it takes beside the square, ``most`` at most."""
    return wrap_text(info.purpose, size[0] - 2 * margin - _IN - SQUARE - 12, _CAP, most)


def scale(up: str) -> str:
    """At what scale a template is, and which side of it is up; charts and lists are at none."""
    return first_up(up) if up in UNSCALED else f"Scale 1:1, {up}"
