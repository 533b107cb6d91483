"""Lines that fall on each other become one line: that of the layer that matters more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from templates_gen.drawing.sheet import CUTS, Layer, Stroke
from templates_gen.geometry import Path, Point, Segment

#: The layer whose line stays comes first.
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
#: A piece by its ends, in either direction, and its middle, rounded to a nanometre.
Place = tuple[Point, ...]


def place_of(piece: Segment) -> Place:
    """Where a piece lies, whichever way it runs."""
    ends = sorted((_rounded(piece.start), _rounded(piece.end)))
    return (*ends, _rounded(piece.point(0.5)))


def merged(strokes: Sequence[Stroke]) -> tuple[Stroke, ...]:
    """The strokes without pieces that lie on a piece of another stroke.

    A finished edge that is the sawn edge, because nothing is left to file off, is drawn once, as a
    cut. Part of a cut never goes, for a cut stays closed.

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
    """What is left of a stroke when its doubled pieces are gone, in one or more runs."""
    if not any(doubled) or (stroke.layer in CUTS and not all(doubled)):
        yield stroke
        return
    run: list[Segment] = []
    for piece, gone in zip(stroke.path.segments, doubled, strict=True):
        if gone and run:
            yield replace(stroke, path=Path.from_segments(run, closed=False))
            run = []
        elif not gone:
            run.append(piece)
    if run:
        yield replace(stroke, path=Path.from_segments(run, closed=False))


def _rounded(p: Point) -> Point:
    return (round(p[0], 6), round(p[1], 6))
