"""Remove duplicate lines: where lines of two layers coincide, keep the more important layer's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from templates_gen.drawing.sheet import CUTS, Layer, Stroke
from templates_gen.geometry import Path, Point, Segment

#: Layers by importance: the first keeps its line.
_ORDER = (
    Layer.OUTLINE,
    Layer.POCKET,
    Layer.DRILL,
    Layer.SCRIBE,
    Layer.HIDDEN,
    Layer.CENTRE,
    Layer.DIMENSION,
    Layer.NOTE,
)
#: Key of a segment: its ends, sorted, and its middle, rounded to a nanometre.
Place = tuple[Point, ...]


def place_of(piece: Segment) -> Place:
    """Return the key of a segment, the same for both directions."""
    ends = sorted((_rounded(piece.start), _rounded(piece.end)))
    return (*ends, _rounded(piece.point(0.5)))


def merged(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """Return the strokes without segments that coincide with a segment of another stroke.

    Where nothing is left to file off, the finished edge coincides with the sawn edge: it is drawn
    once, as a cut. A cut loses no segment unless it loses all, so that it stays closed.

    Args:
        strokes: in the order they are drawn.
    """
    taken: set[Place] = set()
    kept: dict[int, list[Stroke]] = {}
    for i in sorted(range(len(strokes)), key=lambda i: _ORDER.index(strokes[i].layer)):
        places = [place_of(piece) for piece in strokes[i].path.segments]
        kept[i] = list(_left(strokes[i], [place in taken for place in places]))
        taken.update(places)
    return tuple(stroke for i in range(len(strokes)) for stroke in kept[i])


def _left(stroke: Stroke, doubled: Sequence[bool]) -> Iterator[Stroke]:
    """Yield a stroke without its doubled segments, as one or more open paths."""
    if not any(doubled) or (stroke.layer in CUTS and not all(doubled)):
        yield stroke
        return
    pieces = zip(stroke.path.segments, doubled, strict=True)
    for gone, run in groupby(pieces, key=lambda piece: piece[1]):
        if not gone:
            yield replace(stroke, path=Path.from_segments([s for s, _ in run], closed=False))


def _rounded(p: Point) -> Point:
    return (round(p[0], 6), round(p[1], 6))
