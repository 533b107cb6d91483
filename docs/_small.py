"""Long drawings made small enough to be read on a page: lines shrink, words and figures do not."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from templates_gen.drawing.text import figure
from templates_gen.drawing.view import (
    Angle,
    Dimension,
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    View,
)
from templates_gen.geometry import Point

#: The widest picture (mm) whose words can still be read on a page.
WIDEST = 240.0


def readable(views: Sequence[View]) -> list[View]:
    """Views as they are if they are short enough, else all at the first whole scale that is."""
    by = math.ceil(max(v.box[2] - v.box[0] for v in views) / WIDEST)
    return list(views) if by == 1 else [_small(v, by) for v in views]


def _small(view: View, by: int) -> View:
    """A view at 1 : ``by``; its dimensions tell the true figures."""

    def to(q: Point) -> Point:
        return (q[0] / by, q[1] / by)

    strokes = tuple(replace(s, path=s.path.mapped(to)) for s in view.strokes)
    title = f"{view.title}; shown at 1 : {by}"
    return View(title, strokes, tuple(_moved(d, by) for d in view.dimensions))


def _moved(item: Dimension, by: int) -> Dimension:
    """A dimension where its place is now, saying what it said."""

    def to(q: Point) -> Point:
        return (q[0] / by, q[1] / by)

    if isinstance(item, HorizontalDim | VerticalDim):
        axis = 0 if isinstance(item, HorizontalDim) else 1
        text = item.text or figure(abs(item.q[axis] - item.p[axis])) + item.suffix
        return replace(item, p=to(item.p), q=to(item.q), text=text, suffix="")
    if isinstance(item, Angle):
        return replace(item, vertex=to(item.vertex))
    if isinstance(item, Text):
        return replace(item, at=to(item.at))
    if isinstance(item, Radius):
        return _told(item, by)
    # The words of a leader keep their distance from its tip.
    (x, y), (u, v) = item.tip, item.to
    return replace(item, tip=to(item.tip), to=(x / by + u - x, y / by + v - y))


def _told(item: Radius, by: int) -> Leader:
    """A radius in words: drawn from the shrunken arc it would tell the shrunken figure."""
    c, s = math.cos(math.radians(item.toward)), math.sin(math.radians(item.toward))
    r = item.radius / by
    x, y = item.centre[0] / by, item.centre[1] / by
    text = f"Ø{figure(2 * item.radius)}" if item.diameter else f"R{figure(item.radius)}"
    out = r + item.reach
    return Leader((x + r * c, y + r * s), (x + out * c, y + out * s), text)
