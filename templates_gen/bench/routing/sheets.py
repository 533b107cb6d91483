"""Draw the sheet of a routing template: plate, opening, finished edge, feed and settings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from templates_gen.bench.routing.guide import Corner, Guided, scribing_offset
from templates_gen.bench.routing.jobs import Job
from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Layer,
    Leader,
    Stroke,
    Text,
    VerticalDim,
    View,
    all_strokes,
    cut,
    drill,
    figure,
    hidden,
    line,
    pocket,
)
from templates_gen.geometry import Box, Path, Point, circle, rectangle
from templates_gen.geometry.measure import PointLocation, gap, locate
from templates_gen.geometry.offset import offset_point
from templates_gen.shop.params import Cutter, DovetailCutter, Guide, Plate

_LEADING = 5.0
#: Least thickness of a template over the depth of its collar (mm). Common practice, no source.
THICKER = 1.0
#: Air (mm) between a clamp's foot and the collar. Common practice, no source.
CLEAR = 3.0
#: Wood (mm) round a screw's hole in a jig. Common practice, no source.
ROUND_SCREW = 2.0
_HEAD = 1.8
#: Rounding error of a depth, in hundredths, that must not round it up.
_ROUNDING = 1e-6
#: Corners less deep than this (mm) get no leader.
_SHOWN = 0.05


def template(job: Job, cutter: Cutter, plate: Plate) -> list[View]:
    """Return the view of the template that guides the cutter."""
    jig = job.blank is not None
    box = jig_box(job, plate) if jig else _grown(job.guided.template.box, float(plate.rim))
    return [_template(job, cutter, plate, box)]


def backing_plate(job: Job, plate: Plate) -> list[View]:
    """Return the view of a jig's backing plate, with the pocket that holds the blank."""
    return [_backing_plate(job, plate, jig_box(job, plate))]


def _template(job: Job, cutter: Cutter, plate: Plate, box: Box) -> View:
    g, edge = job.guided, job.guided.template
    strokes = all_strokes(
        cut(rectangle(*box)),
        pocket(edge),
        *([] if g.aside == 0 else [hidden(g.finished)]),
        job.around,
        *([] if job.blank is None else [hidden(held(job, plate))]),
        feed(g),
        *(drill(at, float(plate.clamp_screw)) for at in screws(job, plate)),
    )
    left, low, right, high = edge.box
    dims: list[Dimension] = [
        HorizontalDim((left, low), (right, low), -1),
        VerticalDim((right, low), (right, high), 1),
    ]
    dims += _corner_words(job.corners, edge.box)
    lines = notes(job, cutter, plate)
    dims += [
        Text((box[0], box[1] - 14.0 - i * _LEADING), text, "start") for i, text in enumerate(lines)
    ]
    return View("template, from above; the finished edge dashed", strokes, tuple(dims))


def notes(job: Job, cutter: Cutter, plate: Plate) -> list[str]:
    """Return instructions and settings, line by line."""
    g = job.guided
    kind = "dovetail cutter" if isinstance(cutter, DovetailCutter) else "cutter"
    where = f"{figure(g.aside, 4)} {'beyond' if g.inside else 'within'}" if g.aside else "on"
    way = "clockwise" if g.inside else "counter-clockwise"
    f, t = g.finished.box, g.template.box
    lines = [
        f"{kind.capitalize()} {figure(g.cutter, 3)}, {cutter.guide} "
        f"{figure(g.outside_diameter, 3)} outside: template's edge {where} the finished edge",
        f"Finished {_size(f)}, template {_size(t)}. Feed {way}, seen from above.",
        *job.description,
        *_corner_lines(job.corners, g),
    ]
    return lines + thin(cutter, plate)


def _size(box: Box) -> str:
    return f"{figure(box[2] - box[0])} × {figure(box[3] - box[1])}"


def least_thickness(plate: Plate) -> float:
    """Return the least thickness of a template for its collar (mm)."""
    return float(plate.collar_depth) + THICKER


def thin(cutter: Cutter, plate: Plate) -> list[str]:
    """Return the warning on a template too thin to guide a collar; empty if it can."""
    thick, deep = float(plate.thickness), float(plate.collar_depth)
    if cutter.guide is not Guide.COLLAR:
        return []
    lines = []
    if thick < least_thickness(plate):
        off, least = f"{scribing_offset(thick):.2f}", figure(least_thickness(plate))
        lines += [
            f"TOO THIN TO GUIDE A COLLAR: {figure(thick)} mm, {least} are needed;",
            f"for scribing only, and a 30° point's line stands {off} off the edge",
        ]
    if deep >= thick:
        lines += [f"COLLAR {figure(deep)} DEEP TOUCHES THE WORK: the template is {figure(thick)}"]
    return lines


def _corner_lines(corners: Sequence[Corner], g: Guided) -> list[str]:
    lines = []
    for left, description in (
        (True, "left by the cutter; finish by chisel"),
        (False, f"come out round, R {figure(g.aside)}"),
    ):
        found = [c for c in corners if c.left is left]
        if found:
            many = "1 corner" if len(found) == 1 else f"{len(found)} corners"
            lines.append(f"{many}, at most {_upward(found[0].depth)} deep, {description}")
    return lines


def _upward(depth: float) -> str:
    """Format a depth to a hundredth, rounded up."""
    return f"{math.ceil(depth * 100 - _ROUNDING) / 100:.2f}"


def _corner_words(corners: Sequence[Corner], box: Box) -> list[Dimension]:
    """Return a leader with a note at each corner, away from the opening's middle."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    out: list[Dimension] = []
    for c in corners:
        if c.depth < _SHOWN:
            continue
        (u, v), description = c.place, "chisel" if c.left else "round"
        to = (box[2] + 8 if u > x else box[0] - 8, box[3] + 6 if v > y else box[1] - 6)
        out.append(Leader(c.place, to, f"{description} {_upward(c.depth)}"))
    return out


def feed(g: Guided) -> tuple[Stroke, ...]:
    """Return the feed arrow: clockwise in an opening, counter-clockwise round a part."""
    piece = max(g.template.segments, key=lambda s: s.length)
    (x, y), (tx, ty) = offset_point(piece, 0.5, 4.0), piece.tangent(0.5)
    way = -1.0 if g.inside else 1.0
    half = min(8.0, 0.35 * piece.length) * way
    tail, tip = (x - half * tx, y - half * ty), (x + half * tx, y + half * ty)
    barbs = [
        (
            tip[0] - way * (2 * _HEAD * tx + s * _HEAD * ty),
            tip[1] - way * (2 * _HEAD * ty - s * _HEAD * tx),
        )
        for s in (1.0, -1.0)
    ]
    shafts = [line(tail, tip), *(line(tip, b) for b in barbs)]
    return tuple(Stroke(path, Layer.DIMENSION) for path in shafts)


# --- the jig -------------------------------------------------------------------------------------


def held(job: Job, plate: Plate) -> Path:
    """Return the jig's pocket: the blank, larger by half the fit on each side."""
    assert job.blank is not None
    return rectangle(*_grown(job.blank.box, float(plate.blank_fit) / 2))


def jig_box(job: Job, plate: Plate) -> Box:
    """Return the outline of both plates of the jig (mm)."""
    a, b = held(job, plate).box, job.guided.template.box
    both = (min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3]))
    return _grown(both, float(plate.rim))


def clamps(job: Job, plate: Plate) -> list[Point]:
    """Return the centres of the two clamps' feet, below and above the blank."""
    if job.blank is None:
        return []
    foot, (_, low, _, high) = float(plate.clamp_foot), held(job, plate).box
    x = job.guided.template.box[0] - foot / 2 - CLEAR - 1.0
    beyond = foot / 2 + 2.0
    return [(x, low - beyond), (x, high + beyond)]


def clamp_air(job: Job, plate: Plate) -> float:
    """Return the least distance between a clamp's foot and the collar's path (mm)."""
    feet = [circle(at, float(plate.clamp_foot) / 2) for at in clamps(job, plate)]
    return min(gap(foot, job.guided.template).distance for foot in feet)


def screws(job: Job, plate: Plate) -> list[Point]:
    """Return the holes through both plates of a jig: for the clamps, and two that align them."""
    if job.blank is None:
        return []
    left, low, right, high = jig_box(job, plate)
    in_ = float(plate.clamp_screw) + 3.0
    return [*clamps(job, plate), (left + in_, low + in_), (right - in_, high - in_)]


def feet_on_plate(job: Job, plate: Plate) -> float:
    """Return the distance of the clamps' feet within the plates' edge (mm); negative outside."""
    box, foot = jig_box(job, plate), float(plate.clamp_foot) / 2
    return min(_within(at, box) - foot for at in clamps(job, plate))


def wood_round_screws(job: Job, plate: Plate) -> float:
    """Return the least wood between a screw's hole and an edge or another hole (mm)."""
    box, hole, places = jig_box(job, plate), float(plate.clamp_screw) / 2, screws(job, plate)
    edges = (job.guided.template, held(job, plate))
    return min(
        *(_within(at, box) - hole for at in places),
        *(_clear_of(edge, at) - hole for at in places for edge in edges),
        *(math.dist(a, b) - 2 * hole for a, b in combinations(places, 2)),
    )


def _within(p: Point, box: Box) -> float:
    """Return the distance of a place within a box (mm); negative outside."""
    return min(p[0] - box[0], p[1] - box[1], box[2] - p[0], box[3] - p[1])


def _clear_of(opening: Path, p: Point) -> float:
    """Return the distance of a place outside an opening (mm); 0 within it."""
    return opening.distance(p) if locate(opening, p) is PointLocation.OUTSIDE else 0.0


def _backing_plate(job: Job, plate: Plate, box: Box) -> View:
    pocket_ = held(job, plate)
    left, low, right, high = pocket_.box
    feet = [circle(at, float(plate.clamp_foot) / 2) for at in clamps(job, plate)]
    strokes = all_strokes(
        cut(rectangle(*box)),
        pocket(pocket_),
        *(drill(at, float(plate.clamp_screw)) for at in screws(job, plate)),
        *(hidden(foot) for foot in feet),
    )
    dims = (
        HorizontalDim((left, low), (right, low), -1, suffix=" blank and fit"),
        VerticalDim((right, low), (right, high), 1),
    )
    title = f"as thick as the blank; the pocket is {figure(float(plate.blank_fit))} larger than it"
    return View(title, strokes, dims)


def _grown(box: Box, by: float) -> Box:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)
