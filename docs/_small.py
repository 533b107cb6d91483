"""Scale long drawings down to fit a page: lines shrink, words and dimensions keep their size."""

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

#: Width (mm) of the widest picture whose words are still legible on a page.
WIDEST = 240.0


def readable(views: Sequence[View]) -> list[View]:
    """Return views that fit as they are, others all at the first of 1 : 2, 1 : 3 … that fits."""
    by = math.ceil(max(v.box[2] - v.box[0] for v in views) / WIDEST)
    return list(views) if by == 1 else [_small(v, by) for v in views]


def _small(view: View, by: int) -> View:
    """Return a view at 1 : ``by``; its dimensions show the true values."""

    def to(q: Point) -> Point:
        return (q[0] / by, q[1] / by)

    strokes = tuple(replace(s, path=s.path.mapped(to)) for s in view.strokes)
    title = f"{view.title}; shown at 1 : {by}"
    return View(title, strokes, tuple(_moved(d, by) for d in view.dimensions))


def _moved(item: Dimension, by: int) -> Dimension:
    """Move a dimension to its place on the smaller view and keep its text."""

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
        return _radius_leader(item, by)
    # The words of a leader keep their distance from its tip.
    (x, y), (u, v) = item.tip, item.to
    return replace(item, tip=to(item.tip), to=(x / by + u - x, y / by + v - y))


def _radius_leader(item: Radius, by: int) -> Leader:
    """Replace a radius by a leader with its true value, which the scaled arc would not show."""
    c, s = math.cos(math.radians(item.toward)), math.sin(math.radians(item.toward))
    r = item.radius / by
    x, y = item.centre[0] / by, item.centre[1] / by
    text = f"Ø{figure(2 * item.radius)}" if item.diameter else f"R{figure(item.radius)}"
    out = r + item.reach
    return Leader((x + r * c, y + r * s), (x + out * c, y + out * s), text)
