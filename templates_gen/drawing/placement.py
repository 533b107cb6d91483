"""Place dimensions so that their text does not overlap other text or lines (label placement).

A part states where a dimension should go; whether texts then overlap depends on the pattern. So a
dimension that overlaps another moves: further out, round its arc or along its line.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from templates_gen.drawing import dimension
from templates_gen.drawing.marks import Marks, box_of, crosses_box, label_corners, overlap
from templates_gen.drawing.sheet import CUTS, Label
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
from templates_gen.geometry import Box

#: Order of placement: what can move least comes first.
_RANK = {Text: 0, HorizontalDim: 1, VerticalDim: 1, Angle: 2, Radius: 3, Leader: 3}
_ASIDE = (0, 15, -15, 30, -30, 45, -45, 60, -60)
_FURTHER = (1.0, 1.6, 2.4, 3.4)
#: Space round text (mm).
_AIR = 0.3
#: Greatest distance of an arrow's tip from a line of the view (mm).
_ON = 0.01


@lru_cache(maxsize=512)
def place_dimensions(view: View) -> Marks:
    """Draw a view with each dimension at the first of its places that is clear.

    Cached: while a file is watched, most views stay the same.
    """
    first = _placed(view, view.dimensions)
    if first[0] == (0.0, 0):
        return first[1]  # every dimension is at its own place: no other order is better
    return min(first, _placed(view, view.dimensions[::-1]), key=lambda found: found[0])[1]


def _placed(view: View, order: Sequence[Dimension]) -> tuple[tuple[float, int], Marks]:
    """Return the remaining overlaps with the number of places tried, and the marks."""
    placed, taken, left, passed = Marks(view.strokes), list(view.dimensions), 0.0, 0
    for item in sorted(order, key=lambda d: _RANK[type(d)]):
        trouble, tried, chosen = _clearest(_places(item, taken, view), view, placed)
        left, passed = left + trouble, passed + tried
        taken.append(chosen)
        placed += dimension.draw(chosen, view.box)
    return (left, passed), placed


def _clearest(
    places: Iterator[Dimension], view: View, placed: Marks
) -> tuple[float, int, Dimension]:
    """Return the overlaps, number and value of the first clear place, else of the best one."""
    found: list[tuple[float, int, Dimension]] = []
    box, old_words = view.box, [_space(n) for n in placed.labels]
    for number, place in enumerate(places):
        trouble = _trouble(dimension.draw(place, box), placed, old_words)
        found.append((trouble, number, place))
        if not trouble:
            break
    return min(found, key=lambda one: one[:2])


def _trouble(new: Marks, placed: Marks, old_words: Sequence[Box]) -> float:
    """Score overlaps: text on text or on a cut counts 1000, text on another line 1."""
    new_words = [_space(n) for n in new.labels]
    grave = sum(overlap(a, b) for a in new_words for b in old_words)
    light = 0
    for words, strokes in ((new_words, placed.strokes), (old_words, new.strokes)):
        for box in words:
            for stroke in strokes:
                if crosses_box(box, stroke.path):
                    grave, light = grave + (stroke.layer in CUTS), light + 1
    return 1000.0 * grave + light


def _space(label: Label) -> Box:
    left, bottom, right, top = box_of(label_corners(label))
    return (left - _AIR, bottom - _AIR, right + _AIR, top + _AIR)


def _places(item: Dimension, taken: list[Dimension], view: View) -> Iterator[Dimension]:
    """Yield the possible places of a dimension, its own first."""
    yield item
    if isinstance(item, HorizontalDim | VerticalDim):
        yield from _rows(item, taken)
    elif isinstance(item, Angle):
        yield from (replace(item, radius=item.radius * f) for f in _FURTHER[1:])
    elif isinstance(item, Radius):
        yield from (r for r in _round_about(item) if _on_a_line(r, view))
    elif isinstance(item, Leader):
        yield from _elsewhere(item)


def _rows(
    item: HorizontalDim | VerticalDim, taken: list[Dimension]
) -> Iterator[HorizontalDim | VerticalDim]:
    """Yield the text at the other end, then free rows on both sides."""
    yield replace(item, before=not item.before)
    kin = [
        d.row for d in taken if isinstance(d, HorizontalDim | VerticalDim) and type(d) is type(item)
    ]
    own = 1 if item.row > 0 else -1
    for side in (own, -own):
        last = max(0, *(row * side for row in kin))
        for further in range(1, 5):
            moved = replace(item, row=side * (last + further))
            yield from (moved, replace(moved, before=not item.before))


def _round_about(item: Radius) -> Iterator[Radius]:
    # Inside or outside the arc as stated first, then the other.
    for reach in (item.reach, -item.reach):
        for f in _FURTHER:
            for aside in _ASIDE:
                yield replace(item, toward=item.toward + aside, reach=reach * f)


def _elsewhere(item: Leader) -> Iterator[Leader]:
    dx, dy = item.to[0] - item.tip[0], item.to[1] - item.tip[1]
    for f in _FURTHER:
        for aside in _ASIDE:
            c, s = f * math.cos(math.radians(aside)), f * math.sin(math.radians(aside))
            yield replace(item, to=(item.tip[0] + dx * c - dy * s, item.tip[1] + dx * s + dy * c))


def _on_a_line(item: Radius, view: View) -> bool:
    angle = math.radians(item.toward)
    x, y = item.centre
    tip = (x + item.radius * math.cos(angle), y + item.radius * math.sin(angle))
    return any(s.path.distance(tip) < _ON + view.kerf_offset for s in view.strokes)
