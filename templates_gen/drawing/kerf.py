"""Make good what a laser or knife takes: outlines moved outward, holes inward, once.

A drilled hole keeps its size: a drill takes what it says.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from templates_gen.drawing.sheet import CUTS, Layer, Stroke
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import View
from templates_gen.errors import GeometryError
from templates_gen.geometry import Path
from templates_gen.geometry.measure import PointLocation, locate
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import cutter_reach


def kerfed(views: Sequence[View], kerf: float) -> list[View]:
    """Views with every cut moved half the kerf to its waste side, inside cuts first.

    Args:
        views: what a template shows, at its finished size.
        kerf: width of the cut (mm).

    Raises:
        GeometryError: a hole is narrower than the kerf.
    """
    return [_kerfed(view, kerf) for view in views]


def stamp(finished: Sequence[View], drawn: Sequence[View], kerf: float) -> str:
    """What the sheet states: the kerf, the size of the first view's cuts, finished and drawn.

    Args:
        finished: what a template shows, at its finished size.
        drawn: the same views with the kerf.
        kerf: width of the cut (mm).

    Returns:
        The words; "" where nothing is cut, so that no line has moved.
    """
    pairs = zip(finished, drawn, strict=True)
    first = next((pair for pair in pairs if _cuts(pair[0])), None)
    if first is None:
        return ""
    before, after = (_size(view) for view in first)
    several = any(len(holes) and len(parts) for holes, parts in map(_sorted, finished))
    smaller = ", holes smaller" if several else ""
    return f"KERF {figure(kerf, 3)} INCLUDED: {before} is drawn {after}{smaller}"


def _size(view: View) -> str:
    left, bottom, right, top = view.cut_box
    return f"{figure(right - left)} × {figure(top - bottom)}"


def _cuts(view: View) -> list[Stroke]:
    return [s for s in view.strokes if s.layer in CUTS]


def _sorted(view: View) -> tuple[list[Stroke], list[Stroke]]:
    """The cuts of a view: holes, and outlines of parts."""
    cuts = _cuts(view)
    holes = [s for s in cuts if s.layer is Layer.POCKET or is_hole(s.path, cuts)]
    return holes, [s for s in cuts if s not in holes]


def _kerfed(view: View, kerf: float) -> View:
    holes, parts = _sorted(view)
    rest = [s for s in view.strokes if s.layer not in CUTS]
    inner = [moved for s in holes for moved in _moved(s, -kerf / 2)]
    outer = [moved for s in parts for moved in _moved(s, kerf / 2)]
    return replace(view, strokes=(*inner, *outer, *rest), kerf_offset=kerf / 2)


def is_hole(path: Path, cuts: Sequence[Stroke]) -> bool:
    """Whether an outline lies within an odd number of others: a hole, not an island in one."""
    inside = path.segments[0].point(0.5)
    return sum(_holds(s.path, inside) for s in cuts if s.path is not path) % 2 == 1


def _holds(outer: Path, place: tuple[float, float]) -> bool:
    return locate(outer, place) is PointLocation.INSIDE


def _moved(stroke: Stroke, by: float) -> Iterator[Stroke]:
    """The cut's parallel, outward if positive.

    Into a hollow finer than the beam it goes as far as the beam does.
    """
    path = stroke.path.oriented()
    try:
        tracks: tuple[Path, ...] = (offset(path, by),)
    except GeometryError:
        tracks = cutter_reach(path, by).tracks
    for track in tracks:
        yield replace(stroke, path=track.oriented())
