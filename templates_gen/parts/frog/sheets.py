"""The frog's templates."""

from __future__ import annotations

from templates_gen.drawing import (
    HorizontalDim,
    Leader,
    Pattern,
    Pen,
    Radius,
    Stroke,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    circle,
    cut,
    drill,
    figure,
    hidden,
    line,
    rectangle,
    template,
)
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims


@template(
    "frog-side",
    "Frog, side outline",
    "Saw and file the side of the frog to this line; drill and rout only after the seat fits.",
    "stick side up",
)
def side(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    s, t = d.params, d.throat
    path = outline.side(p)
    shoulder, end, high = d.shoulder, s.length_bottom, d.ferrule.params.height
    clear, top, tip = s.clear_height, s.overall_height, s.length_top
    ferrule = rectangle(shoulder, 0.0, end, high)
    step = d.slide.params.thickness
    at = d.seat.eyelet.from_heel
    strokes = all_strokes(
        cut(path),
        _ferrule_edges(ferrule.box),
        hidden(line((0.0, clear), (tip, clear))),
        hidden(line((d.heel.params.leg_length, step), (shoulder, step))),
        centre_line((at, -3.0), (at, top + 4.0)),
        _inside(d),
    )
    back, low = t.deepest, t.low
    lower, upper = t.lower_radius, t.upper_radius
    dims = (
        HorizontalDim((0, 0), (shoulder, 0), -1),
        HorizontalDim((0, 0), (end, 0), -2),
        HorizontalDim((0, top), (at, top), 1, suffix=" eyelet"),
        HorizontalDim((0, top), (tip, top), 2),
        HorizontalDim((back, low), (shoulder, high), -3, suffix=" throat"),
        VerticalDim((0, 0), (0, clear), -1),
        VerticalDim((0, 0), (0, top), -2),
        VerticalDim((end, 0), (end, high), 1),
        VerticalDim((end, 0), (back, s.throat_centre_height), 2),
        Radius((back + lower, low), lower, 225.0, reach=4.0),
        Radius((back + upper, t.high), upper, 140.0, reach=4.0),
        Leader((tip - 6, clear), (tip + 6, top + 3.0), "stick's bottom facet"),
    )
    return [View("heel left, ferrule right; hidden edges and neighbours dashed", strokes, dims)]


def _inside(d: FrogDims) -> list[Stroke]:
    """Draw the hair mortise, the shank's bore and the eye, which a saw or a drill must not meet."""
    s, e = d.params, d.seat.eyelet
    floor, r = d.slide.params.thickness, e.shank_diameter / 2
    rear, front, high = s.hair_mortise_from_heel, d.mortise_front, d.mortise_top
    at, end, land = e.from_heel, d.shank_end, d.seat.land_height(e.from_heel)
    walls = Pen((rear, floor)).line_to(rear, high).line_to(front, high).line_to(front, floor).open()
    bore = (
        Pen((at - r, land)).line_to(at - r, end).line_to(at + r, end).line_to(at + r, land).open()
    )
    shown = [hidden(walls), hidden(bore)]
    if d.has_eye:
        x, z = d.eye
        shown += drill((x, z), s.eye_diameter, arm=0.0)[1:]
        shown.append(hidden(circle((x, z), s.eye_diameter / 2)))
    return shown


def _ferrule_edges(box: tuple[float, float, float, float]) -> list[Stroke]:
    """Draw the edges of the ferrule, except the one that is the frog's shoulder."""
    left, bottom, right, top = box
    return [
        hidden(line((left, bottom), (right, bottom))),
        hidden(line((right, bottom), (right, top))),
        hidden(line((right, top), (left, top))),
    ]


@template(
    "frog-dummy",
    "Dummy frog",
    "Hold it to the handle while you check the camber: the cotton line lies where the hair will.",
    "stick side up",
)
def dummy(p: Pattern) -> list[View]:
    d = p.scalars(FrogDims)
    path = outline.dummy(p)
    _, bottom, right, top = path.box
    at = d.seat.eyelet.from_heel
    strokes = all_strokes(cut(path), centre_line((at, bottom - 3), (at, top + 3)))
    dims = (
        HorizontalDim((0, top), (at, top), 1, suffix=" eyelet"),
        HorizontalDim((0, bottom), (right, bottom), -1),
        VerticalDim((right, bottom), (right, top), 1),
        Leader(
            (right - 2, bottom + 0.5), (right + 5, bottom - 5), "notch 2 × 1 for the cotton line"
        ),
    )
    return [
        View(
            "heel left, front in play "
            f"{figure(d.params.front_at_play)} from the butt's shoulder; "
            "cotton line along the foot, then to the head",
            strokes,
            dims,
        )
    ]
