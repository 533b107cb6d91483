"""Lettered drawings of the whole stick and of its bending form."""

from __future__ import annotations

from templates_gen.drawing.view import (
    HorizontalDim,
    Leader,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import Path, Pen, polygon
from templates_gen.parameters import Pattern
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.form import outline as form_outline
from templates_gen.parts.form.dims import FormDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.sheets_gauges import places

#: Thickness is drawn this much larger than length, or nobody would see it fall.
_THICKER = 3.0

#: Heights are drawn this much larger than lengths where two curves are told apart.
_HIGHER = 5.0


def graduation(p: Pattern) -> View:
    """The straight stick, its thickness enlarged, with the gauges' stations."""
    d = p.scalars(StickDims)
    s = d.params
    stations = [0.0, *places(d)]
    handle, face, end = stations[1], stations[-1], float(s.length)
    half = [float(d.diameter(x)) / 2 * _THICKER for x in stations]
    upper = list(zip(stations, half, strict=True))
    path = polygon([*((x, -z) for x, z in upper), *upper[::-1]])
    low = -half[0]
    strokes = all_strokes(
        cut(path),
        *(scribe(line((x, -z), (x, z))) for x, z in upper[1:-1]),
        hidden(polygon([(face, -half[-1] * 2), (end, -half[-1] * 2), (end, half[-1]),
                        (face, half[-1])])),
        centre_line((-10, 0), (end + 10, 0)),
    )  # fmt: skip
    dims = (
        HorizontalDim((0, low), (handle, low), -1, text="L_hd"),
        HorizontalDim((handle, low), (face, low), -1, text="graduation, from a_he to a_h"),
        HorizontalDim((0, low), (end, low), -2, text="L_st"),
        VerticalDim((0, low), (0, -low), -1, text="a_b"),
        Leader((handle, half[1]), (handle + 12, half[1] + 8), "a_he"),
        Leader((face, half[-1]), (face - 22, half[1] + 8), "a_h"),
    )
    return View(f"straight, thickness × {_THICKER:g}; butt left, head dashed", strokes, dims)


def bent(p: Pattern) -> View:
    """The stick as it is bent, under its straight edge."""
    d = p.derive(StickDims)
    chord, deep = float(d.chord), float(d.params.camber_depth)
    at = float(d.camber.deepest) * chord
    strokes = all_strokes(
        cut(form_outline.camber_card(p)),
        hidden(line((0.0, 0.0), (chord, 0.0))),
        centre_line((at, -deep - 12), (at, 24)),
    )
    dims = (
        HorizontalDim((0, 0), (chord, 0), -1, text="from the ferrule, x_fp, to the face"),
        VerticalDim((0, 0), (at, -deep), -1, text="cam"),
        Leader((chord * 0.3, 0), (chord * 0.3 + 6, 8), "the straight edge"),
    )
    return View("bent, without hair; ferrule left, hair below", strokes, dims)


def form(p: Pattern) -> View:
    """The board from the side."""
    d = p.derive(FormDims)
    path = form_outline.form(p)
    left, _, right, high = path.box
    bore, spacing = float(d.params.hole_diameter), float(d.params.hole_spacing)
    holes = [left + spacing / 2 + i * spacing for i in range(int((right - left) / spacing))]
    row, last = high - bore - 6.0, holes[-1]
    strokes = all_strokes(cut(path), *(drill((x, row), bore, arm=1.5)[:2] for x in holes))
    dims = (
        HorizontalDim((left, high), curves.edge(p).path.start, 1, text="beyond"),
        HorizontalDim((holes[1], row), (holes[2], row), 1, text="hole_spacing"),
        VerticalDim((right, high - float(d.params.depth)), (right, high), 1, text="depth"),
        Leader((last, row - bore / 2), (last + 4, row - 12), "hole_diameter"),
    )
    return View("clamping edge above; ferrule left, head right", strokes, dims)


def over_bent(p: Pattern) -> View:
    """What the form's edge has over the finished stick."""
    edge, top = (_high(curve) for curve in (curves.edge(p), curves.top(p)))
    strokes = all_strokes(cut(edge), hidden(top))
    places = [q.point_at(q.length * part) for q, part in ((edge, 0.5), (top, 0.7))]
    (x, z), (u, v) = places
    dims = (
        Leader((x, z), (x - 8, z - 9), "the edge: over_bend deeper, bent_oversize thicker"),
        Leader((u, v), (u - 6, v + 12), "top of the finished stick"),
    )
    return View(f"edge and stick, heights × {_HIGHER:g}", strokes, dims)


def _high(curve: curves.Curve) -> Path:
    """A curve with its heights enlarged, as straight pieces."""
    pen = Pen((float(curve.x[0]), float(curve.z[0]) * _HIGHER))
    for x, z in zip(curve.x[4::4], curve.z[4::4], strict=True):
        pen.line_to(float(x), float(z) * _HIGHER)
    return pen.open()
