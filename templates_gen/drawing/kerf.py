"""Compensate the kerf of a laser or knife: offset outlines outward and holes inward.

Drilled holes keep their size: a drill cuts its own diameter.
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
    """Offset every cut by half the kerf to its waste side; inside cuts come first.

    Args:
        views: the views of a template at finished size.
        kerf: width of the cut (mm).

    Raises:
        GeometryError: a hole is narrower than the kerf.
    """
    return [_kerfed(view, kerf) for view in views]


def stamp(finished: Sequence[View], drawn: Sequence[View], kerf: float) -> str:
    """Write the stamp of a compensated sheet: the kerf, the first view's size before and after.

    Args:
        finished: the views of a template at finished size.
        drawn: the same views with the kerf.
        kerf: width of the cut (mm).

    Returns:
        The text; "" if the template has no cuts.
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
    """Return the holes and the outer outlines among a view's cuts."""
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
    """Return whether an outline is inside an odd number of others: a hole, not an island."""
    inside = path.segments[0].point(0.5)
    others = (s.path for s in cuts if s.path is not path)
    return sum(locate(other, inside) is Where.INSIDE for other in others) % 2 == 1


def _moved(stroke: Stroke, by: float) -> Iterator[Stroke]:
    """Yield a cut offset by a distance, outward if positive.

    In a hollow narrower than the beam it follows as far as the beam reaches.
    """
    path = stroke.path.oriented()
    try:
        tracks: tuple[Path, ...] = (offset(path, by),)
    except GeometryError:
        tracks = reach(path, by).tracks
    for track in tracks:
        yield replace(stroke, path=track.oriented())
