"""The head's templates."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Leader,
    Path,
    Pattern,
    Pen,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    pocket,
    scribe,
    template,
)
from templates_gen.geometry import Segment
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.shapes.octagon import FACET
from templates_gen.shapes.stick_section import SectionKind

#: An arc with a larger radius (mm) counts as straight and gets no dimension.
_FLAT = 250.0


@template(
    "head-side",
    "Head, side outline",
    "Saw and file the head to this line; the camber continues.",
    "hair side down",
)
def side(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    s, path = d.params, outline.side(p)
    length, high = s.face_length, s.height
    cx, cz = d.crown
    # A measured ridge has many arcs; their radii would not help.
    arcs = [] if s.ridge_points else [q for q in outline.ridge(p).segments if q.radius < _FLAT]
    nose = s.nose_rise + s.nose_thickness
    pocket_side = _within(p)
    strokes = all_strokes(
        cut(path),
        hidden(pocket_side),
        scribe(_inner_face(d, s.plate_thickness)),
        scribe(_inner_face(d, s.plate_thickness + s.liner_thickness)),
    )
    dims: tuple[Dimension, ...] = (
        HorizontalDim((0.0, 0.0), (length, s.nose_rise), -1),
        HorizontalDim((0.0, 0.0), (cx, cz), 1, suffix=" crown"),
        VerticalDim((0.0, 0.0), (0.0, high), -1),
        VerticalDim((length, 0.0), (length, nose), 1, suffix=" nose"),
        *(_radius(q, reach) for q, reach in zip(arcs, (5.0, -7.0), strict=False)),
        Radius(neck(p).fillet, s.back_radius, 20.0, reach=-s.back_radius),
        Leader((-40.0, neck(p).underside(-40.0)), (-46.0, high * 0.35), "camber continues"),
    )
    return [View("hair side down; plate and liner scribed, mortise dashed", strokes, dims)]


def _radius(q: Segment, reach: float) -> Radius:
    """Dimension an arc of the ridge at its middle; the text outside or inside the head."""
    middle = q.point(0.5)
    toward = math.degrees(math.atan2(middle[1] - q.centre[1], middle[0] - q.centre[0]))
    return Radius(q.centre, q.radius, toward, reach=reach if q.bulge < 0 else -reach)


def _within(p: Pattern) -> Path:
    """Draw the walls and roof of the mortise; its mouth is part of the face."""
    d = p.scalars(HeadDims)
    s = d.params
    rear, front, foot = s.mortise_from_rear, d.mortise_front, d.mortise_foot
    deep = s.mortise_depth
    return Pen((rear, 0.0)).line_to(rear, deep).line_to(foot, deep).line_to(front, 0.0).open()


def _inner_face(d: HeadDims, depth: float) -> Path:
    """Offset the face by a depth, from the back of the head to the nose or the ridge.

    It is the seam of plate or liner, so it ends on the outline.
    """
    flat, r = d.flat, d.face_radius
    lean = depth / math.tan(math.radians(d.params.back_deg))

    def above(turn: float) -> float:
        x, z = flat + (r - depth) * math.sin(turn), r - (r - depth) * math.cos(turn)
        return min(d.ridge.depth_and_slope(x, z)[0], d.params.face_length - x)

    low, turn = 0.0, math.pi / 2
    for _ in range(60):
        middle = (low + turn) / 2
        low, turn = (middle, turn) if above(middle) > 0 else (low, middle)
    pen = Pen((lean, depth)).line_to(flat, depth)
    return pen.arc_by((flat, r), turn).open()


@template(
    "head-face",
    "Head, face",
    "Scribe the face and the mortise's mouth on the head.",
    "hair side up",
)
def plan(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    s, path, mortise = d.params, outline.plan(p), outline.mortise(p)
    left, low, right, high = path.box
    at, front = s.face_width_front_at, s.face_width_front / 2
    rear, ahead = s.mortise_from_rear, d.mortise_front
    wide = s.mortise_width / 2
    strokes = all_strokes(cut(path), pocket(mortise), centre_line((left - 3, 0), (right + 3, 0)))
    dims = (
        HorizontalDim((0.0, low), (rear, -wide), -1),
        HorizontalDim((rear, -wide), (ahead, -s.mortise_width_front / 2), -2, suffix=" mortise"),
        HorizontalDim((0.0, low), (right, low), -3),
        HorizontalDim((0.0, high), (at, front), 1),
        VerticalDim((left, low), (left, high), -1),
        VerticalDim((rear, -wide), (rear, wide), -2, suffix=" mortise"),
        VerticalDim((right, -s.nose_width / 2), (right, s.nose_width / 2), 1),
        VerticalDim((at, -front), (at, front), 2),
    )
    return [View("the face from below; rear edge left", strokes, dims)]


@template(
    "head-rear",
    "Head, from the frog",
    "Lay out cheeks and chamfers with this view.",
    "hair side down",
)
def front(p: Pattern) -> list[View]:
    """Draw the head from the rear: cheeks, chamfers, stick."""
    d = p.scalars(HeadDims)
    s = d.params
    half, top = s.width / 2, d.cheek_top
    lean, neck = d.cheek_lean, d.neck_height
    stick, chamfer = d.stick.diameter_head / 2, s.chamfer_width
    high, flat = s.height, stick * FACET
    pen = Pen((-half, 0.0)).line_to(half, 0.0).line_to(half - lean * top, top)
    pen.line_to(stick, neck)
    if d.stick.section is SectionKind.OCTAGON:
        pen.line_to(stick, neck + stick + flat).line_to(flat, high).line_to(-flat, high)
        pen.line_to(-stick, neck + stick + flat)
    else:
        # Round, or a D, whose upper half is round.
        pen.line_to(stick, neck + stick).arc_by((0.0, neck + stick), math.pi)
    path = pen.line_to(-stick, neck).line_to(-half + lean * top, top).close()
    strokes = all_strokes(
        cut(path),
        *(scribe(line((w * (half - chamfer), 0.0), (w * (half - lean * top - chamfer), top)))
          for w in (1.0, -1.0)),
        centre_line((0, -3), (0, high + 3)),
    )  # fmt: skip
    dims = (
        HorizontalDim((-half, 0.0), (half, 0.0), -1),
        HorizontalDim((-stick, high - stick), (stick, high - stick), 1),
        VerticalDim((-half, 0.0), (-half + lean * top, top), -1),
        VerticalDim((-half, 0.0), (0.0, high), -2),
        Leader((half - chamfer, 1.0), (half + 5, 3.0), f"chamfer {chamfer:g}"),
    )
    return [View("from the frog, at the face's rear edge", strokes, dims)]


def _sheet(p: Pattern, path: Path, title: str, length: float) -> list[View]:
    left, low, right, high = path.box
    s = p.scalars(HeadDims).params
    over, rear = s.filing_allowance, s.mortise_from_rear
    ahead = rear + s.mortise_length
    wide, narrow = s.mortise_width / 2, s.mortise_width_front / 2
    strokes = all_strokes(
        cut(path),
        pocket(outline.mortise(p)),
        scribe(line((0.0, low), (0.0, high))),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    dims = (
        HorizontalDim((0.0, low), (left + over + length, low * 0.3), -1, suffix=" finished"),
        HorizontalDim((left, low), (right, low * 0.3), -2, suffix=" to cut"),
        VerticalDim((left, low), (left, high), -1, suffix=" to cut"),
        HorizontalDim((0.0, high), (rear, wide), 1),
        HorizontalDim((rear, wide), (ahead, narrow), 2, suffix=" mortise"),
        VerticalDim((ahead, -narrow), (ahead, narrow), 1),
        VerticalDim((rear, -wide), (rear, wide), 2, suffix=" mortise"),
    )
    return [View(title, strokes, dims)]


@template(
    "head-plate",
    "Tip plate, laid flat",
    "Saw the plate from sheet or bone and bend it to the face.",
    "outside face up",
)
def plate(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    title = f"{d.params.plate_thickness:g} {d.params.plate_kind}, laid flat; rear edge left"
    return _sheet(p, outline.plate_flat(p), title, d.plate.length)


@template(
    "head-liner",
    "Ebony liner, laid flat",
    "Cut the liner from thin ebony; it goes under the plate.",
    "either face up",
)
def liner(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    title = f"{d.params.liner_thickness:g} ebony, laid flat; rear edge left"
    return _sheet(p, outline.liner_flat(p), title, d.liner.length)
