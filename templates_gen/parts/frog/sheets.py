"""The frog's templates."""

from __future__ import annotations

from templates_gen.drawing.sheet import Stroke
from templates_gen.drawing.template import Template
from templates_gen.drawing.text import figure
from templates_gen.drawing.view import (
    HorizontalDim,
    Leader,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    hidden,
    line,
)
from templates_gen.geometry import Pen, circle, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline, sheets_cards, sheets_gauges, sheets_views
from templates_gen.parts.frog.dims import FrogDims


def side(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    s, t = d.params, d.throat
    path = outline.side(p)
    shoulder, end, high = (float(v) for v in (d.shoulder, s.length_bottom, d.ferrule.params.height))
    clear, top, tip = (float(v) for v in (s.clear_height, s.overall_height, s.length_top))
    ferrule = rectangle(shoulder, 0.0, end, high)
    step = float(d.slide.params.thickness)
    at = float(d.seat.eyelet.from_heel)
    strokes = all_strokes(
        cut(path),
        _ferrule_edges(ferrule.box),
        hidden(line((0.0, clear), (tip, clear))),
        hidden(line((float(d.heel.params.leg_length), step), (shoulder, step))),
        centre_line((at, -3.0), (at, top + 4.0)),
        _inside(d),
    )
    back, low = float(t.deepest), float(t.low)
    lower, upper = float(t.lower_radius), float(t.upper_radius)
    dims = (
        HorizontalDim((0, 0), (shoulder, 0), -1),
        HorizontalDim((0, 0), (end, 0), -2),
        HorizontalDim((0, top), (at, top), 1, suffix=" eyelet"),
        HorizontalDim((0, top), (tip, top), 2),
        HorizontalDim((back, low), (shoulder, high), -3, suffix=" throat"),
        VerticalDim((0, 0), (0, clear), -1),
        VerticalDim((0, 0), (0, top), -2),
        VerticalDim((end, 0), (end, high), 1),
        VerticalDim((end, 0), (back, float(s.throat_centre_height)), 2),
        Radius((back + lower, low), lower, 225.0, reach=4.0),
        Radius((back + upper, float(t.high)), upper, 140.0, reach=4.0),
        Leader((tip - 6, clear), (tip + 6, top + 3.0), "stick's lower facet"),
    )
    return [View("heel left, ferrule right; hidden edges and neighbours dashed", strokes, dims)]


def _inside(d: FrogDims) -> list[Stroke]:
    """The hair mortise, the shank's bore and the eye: what a saw or a drill must not meet."""
    s, e = d.params, d.seat.eyelet
    floor, r = float(d.slide.params.thickness), float(e.shank_diameter) / 2
    rear, front, high = (
        float(v) for v in (s.hair_mortise_from_heel, d.mortise_front, d.mortise_top)
    )
    at, end, land = (float(v) for v in (e.from_heel, d.shank_end, d.seat.land_height(e.from_heel)))
    walls = Pen((rear, floor)).line_to(rear, high).line_to(front, high).line_to(front, floor).open()
    bore = (
        Pen((at - r, land)).line_to(at - r, end).line_to(at + r, end).line_to(at + r, land).open()
    )
    shown = [hidden(walls), hidden(bore)]
    if d.has_eye:
        x, z = (float(v) for v in d.eye)
        shown += drill((x, z), float(s.eye_diameter), arm=0.0)[1:]
        shown.append(hidden(circle((x, z), float(s.eye_diameter) / 2)))
    return shown


def _ferrule_edges(box: tuple[float, float, float, float]) -> list[Stroke]:
    """The ferrule's edges, but for the one that is the frog's own shoulder."""
    left, bottom, right, top = box
    return [
        hidden(line((left, bottom), (right, bottom))),
        hidden(line((right, bottom), (right, top))),
        hidden(line((right, top), (left, top))),
    ]


def dummy(p: Pattern) -> list[View]:
    d = p.derive(FrogDims)
    path = outline.dummy(p)
    _, bottom, right, top = path.box
    at = float(d.seat.eyelet.from_heel)
    strokes = all_strokes(cut(path), centre_line((at, bottom - 3), (at, top + 3)))
    dims = (
        HorizontalDim((0, top), (at, top), 1, suffix=" eyelet"),
        HorizontalDim((0, bottom), (right, bottom), -1),
        VerticalDim((right, bottom), (right, top), 1),
        Leader((right - 2, bottom + 0.5), (right + 5, bottom - 5), "notch 2 × 1 for the thread"),
    )
    return [
        View(
            "heel left, front in play "
            f"{figure(float(d.params.front_at_play))} from the butt's shoulder; "
            "thread along the foot and on to the head",
            strokes,
            dims,
        )
    ]


TEMPLATES = (
    Template(
        "frog-side",
        "Frog, side outline",
        "frog",
        "Saw and file the frog's side to this line; drill and rout only after the seat fits.",
        "stick side up",
        side,
    ),
    Template(
        "frog-dummy",
        "Dummy frog",
        "frog",
        "Hold it to the handle while the camber is checked: the thread lies where the hair will.",
        "stick side up",
        dummy,
    ),
    *sheets_views.TEMPLATES,
    *sheets_gauges.TEMPLATES,
    *sheets_cards.TEMPLATES,
)
