"""Draw dimensions as lines, arrowheads and text. Source: ISO 129-1 (from memory)."""

from __future__ import annotations

import math
from dataclasses import replace

from templates_gen.drawing.marks import Marks
from templates_gen.drawing.sheet import Fill, Label, Layer, Stroke
from templates_gen.drawing.text import figure, text_width
from templates_gen.drawing.view import (
    Angle,
    Dimension,
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    line,
)
from templates_gen.geometry import Box, Path, Point, Segment, polygon
from templates_gen.tolerances import SAME_POINT

CAP = 2.5
_ARROW, _ARROW_HALF = 2.6, 0.43
_GAP, _BEYOND = 0.8, 1.6
_FIRST_ROW, _NEXT_ROW = 8.0, 6.5
_ABOVE = 0.9


def draw(item: Dimension, box: Box) -> Marks:
    """Draw one dimension of a view whose lines fill ``box``; nothing where it measures 0."""
    match item:
        case HorizontalDim() if _differ(item.p[0], item.q[0]):
            return _horizontal(item, box)
        case VerticalDim() if _differ(item.p[1], item.q[1]):
            return _vertical(item, box)
        case Angle() if _differ(item.start, item.end):
            return _angle(item)
        case Radius():
            return _radius(item)
        case Leader():
            return _leader(item)
        case Text():
            return Marks(labels=(_label(item.text, item.at, item.anchor, item.angle),))
    return Marks()


def _differ(a: float, b: float) -> bool:
    return abs(a - b) > SAME_POINT


def _out(row: int) -> float:
    """Return the distance (mm) of a row of dimensions from the view."""
    return _FIRST_ROW + (abs(row) - 1) * _NEXT_ROW


def _label(text: str, at: Point, anchor: str = "middle", angle: float = 0.0) -> Label:
    return Label(text, at, CAP, anchor, angle, Layer.DIMENSION)  # type: ignore[arg-type]


def _stroke(a: Point, b: Point) -> Stroke:
    return Stroke(line(a, b), Layer.DIMENSION)


def _arrow(tip: Point, toward: float) -> Fill:
    """Draw a filled arrowhead at ``tip`` that points in the direction ``toward`` (radians)."""
    c, s = math.cos(toward), math.sin(toward)

    def at(back: float, aside: float) -> Point:
        return (tip[0] - back * c - aside * s, tip[1] - back * s + aside * c)

    head = polygon([tip, at(_ARROW, _ARROW_HALF), at(_ARROW, -_ARROW_HALF)])
    return Fill(head, Layer.DIMENSION)


def _horizontal(item: HorizontalDim, box: Box) -> Marks:
    y = box[3] + _out(item.row) if item.row > 0 else box[1] - _out(item.row)
    (x0, y0), (x1, y1) = sorted((item.p, item.q))
    text = item.text or figure(x1 - x0) + item.suffix
    marks = _between(x0, x1, y, text, item.before)
    return marks + Marks((_extension(y0, y, x0), _extension(y1, y, x1)))


def _extension(start: float, level: float, x: float) -> Stroke:
    up = math.copysign(1.0, level - start)
    return _stroke((x, start + up * _GAP), (x, level + up * _BEYOND))


def _between(x0: float, x1: float, y: float, text: str, before: bool) -> Marks:
    """Draw a horizontal dimension line, its text between the arrows or, without room, beside."""
    room, wide = x1 - x0, text_width(text, CAP)
    if room >= wide + 1.0 and room >= 2 * _ARROW + 1.5:
        fills = (_arrow((x0, y), math.pi), _arrow((x1, y), 0.0))
        label = _label(text, ((x0 + x1) / 2, y + _ABOVE))
        return Marks((_stroke((x0, y), (x1, y)),), fills, (label,))
    fills = (_arrow((x0, y), 0.0), _arrow((x1, y), math.pi))
    tail = 2 * _ARROW
    if room >= wide + 1.0:
        ends, label = (x0 - tail, x1 + tail), _label(text, ((x0 + x1) / 2, y + _ABOVE))
    elif before:
        ends = (x0 - tail - wide, x1 + tail)
        label = _label(text, (x0 - tail, y + _ABOVE), "end")
    else:
        # The text follows the right arrow, clear of its extension line.
        ends = (x0 - tail, x1 + tail + wide)
        label = _label(text, (x1 + tail, y + _ABOVE), "start")
    return Marks((_stroke((ends[0], y), (ends[1], y)),), fills, (label,))


def _vertical(item: VerticalDim, box: Box) -> Marks:
    """Draw a horizontal dimension turned by 90°, to be read from the right of the sheet."""
    x = box[2] + _out(item.row) if item.row > 0 else box[0] - _out(item.row)
    (y0, x0), (y1, x1) = sorted(((item.p[1], item.p[0]), (item.q[1], item.q[0])))
    text = item.text or figure(y1 - y0) + item.suffix
    marks = _turned(_between(y0, y1, -x, text, item.before))
    extensions = tuple(
        _stroke((a + math.copysign(_GAP, x - a), y), (x + math.copysign(_BEYOND, x - a), y))
        for a, y in ((x0, y0), (x1, y1))
    )
    return marks + Marks(extensions)


def _turned(marks: Marks) -> Marks:
    """Turn marks by 90° counter-clockwise about the origin, without rounding."""

    def turn(p: Point) -> Point:
        return (-p[1], p[0])

    return Marks(
        tuple(replace(s, path=s.path.mapped(turn)) for s in marks.strokes),
        tuple(replace(f, path=f.path.mapped(turn)) for f in marks.fills),
        tuple(replace(n, at=turn(n.at), angle=n.angle + 90.0) for n in marks.labels),
    )


def _radius(item: Radius) -> Marks:
    angle = math.radians(item.toward)
    c, s = math.cos(angle), math.sin(angle)
    (cx, cy), r = item.centre, item.radius
    tip = (cx + r * c, cy + r * s)
    end = (cx + (r + item.reach) * c, cy + (r + item.reach) * s)
    text = f"Ø{figure(2 * r)}" if item.diameter else f"R{figure(r)}"
    toward = angle + math.pi if item.reach > 0 else angle
    return _with_words(tip, end, text, toward)


def _leader(item: Leader) -> Marks:
    toward = math.atan2(item.tip[1] - item.to[1], item.tip[0] - item.to[0])
    return _with_words(item.tip, item.to, item.text, toward)


def _with_words(tip: Point, end: Point, text: str, toward: float) -> Marks:
    """Draw a leader from an arrow's tip to a horizontal shelf with the text on it."""
    wide = text_width(text, CAP) + 1.0
    right = end[0] >= tip[0]
    shelf = (end[0] + wide, end[1]) if right else (end[0] - wide, end[1])
    at = (min(end[0], shelf[0]) + 0.5, end[1] + _ABOVE)
    strokes = (_stroke(tip, end), _stroke(end, shelf))
    return Marks(strokes, (_arrow(tip, toward),), (_label(text, at, "start"),))


def _angle(item: Angle) -> Marks:
    a0, a1 = math.radians(item.start), math.radians(item.end)
    (x, y), r = item.vertex, item.radius

    def at(angle: float, reach: float) -> Point:
        return (x + reach * math.cos(angle), y + reach * math.sin(angle))

    arc = Path.from_segments([Segment(at(a0, r), at(a1, r), math.tan((a1 - a0) / 4))], closed=False)
    text = f"{figure(item.end - item.start, 1)}°"
    strokes = (
        Stroke(arc, Layer.DIMENSION),
        *(_stroke(at(a, _GAP), at(a, r + _BEYOND)) for a in (a0, a1)),
    )
    place = at((a0 + a1) / 2, r + 1.5)
    anchor = "start" if math.cos((a0 + a1) / 2) >= 0 else "end"
    return Marks(strokes, (), (_label(text, place, anchor),))
