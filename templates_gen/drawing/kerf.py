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
from templates_gen.geometry.measure import Where, locate
from templates_gen.geometry.offset import offset
from templates_gen.geometry.reach import reach


def kerfed(views: Sequence[View], kerf: float) -> list[View]:
    """Views with every cut moved half the kerf to its waste side, inside cuts first.

    Args:
        views: what a template shows, at its finished size.
        kerf: width of the cut (mm).

    Raises:
        GeometryError: a hole is narrower than the kerf.
    """
    return [_kerfed(view, kerf) for view in views]


def stamp(views: Sequence[View], kerf: float) -> str:
    """What the sheet says of it: the kerf, the finished size of the first cut, and that drawn."""
    left, bottom, right, top = views[0].cut_box
    wide, high = right - left, top - bottom
    finished = f"{figure(wide)} × {figure(high)}"
    drawn = f"{figure(wide + kerf)} × {figure(high + kerf)}"
    return f"KERF {figure(kerf, 3)} INCLUDED: {finished} is drawn {drawn}, holes smaller"


def _kerfed(view: View, kerf: float) -> View:
    cuts = [s for s in view.strokes if s.layer in CUTS]
    holes = [s for s in cuts if s.layer is Layer.POCKET or is_hole(s.path, cuts)]
    parts = [s for s in cuts if s not in holes]
    rest = [s for s in view.strokes if s.layer not in CUTS]
    inner = [moved for s in holes for moved in _moved(s, -kerf / 2)]
    outer = [moved for s in parts for moved in _moved(s, kerf / 2)]
    return replace(view, strokes=(*inner, *outer, *rest), off=kerf / 2)


def is_hole(path: Path, cuts: Sequence[Stroke]) -> bool:
    """Whether an outline lies within an odd number of others: a hole, not an island in one."""
    inside = path.segments[0].point(0.5)
    return sum(_holds(s.path, inside) for s in cuts if s.path is not path) % 2 == 1


def _holds(outer: Path, place: tuple[float, float]) -> bool:
    return locate(outer, place) is Where.INSIDE


def _moved(stroke: Stroke, by: float) -> Iterator[Stroke]:
    """The cut's parallel, outward if positive.

    Into a hollow finer than the beam it goes as far as the beam does.
    """
    path = stroke.path.oriented()
    try:
        tracks: tuple[Path, ...] = (offset(path, by),)
    except GeometryError:
        tracks = reach(path, by).tracks
    for track in tracks:
        yield replace(stroke, path=track.oriented())
