"""The templates of the handle: butt, bores and the mortise of the eyelet."""

from __future__ import annotations

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Leader,
    Path,
    Pattern,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    bit_below,
    centre_line,
    circle,
    cut,
    drill,
    figure,
    hidden,
    line,
    pocket_marks,
    polygon,
    scribe,
    template,
)
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick import outline
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes import octagon
from templates_gen.shapes.trapezoid import trapezoid

#: The handle is drawn this far ahead of the front bore (mm).
_AHEAD = 8.0


@template(
    "stick-handle",
    "Handle, mortise and bores from the side",
    "Mark mortise and bores on the side of the handle before drilling; turn the nipple last.",
    "hair side down",
)
def side(p: Pattern) -> list[View]:
    d = p.scalars(StickDims)
    s, deep = d.params, p[Screw].bearing_depth
    start, front = s.mortise_from_butt, d.mortise_front
    end = front + deep + _AHEAD
    butt, far = (d.across_flats(x) / 2 for x in (0.0, end))
    nipple, out = s.nipple_diameter / 2, s.nipple_length
    path = polygon(
        [
            (-out, -nipple), (0.0, -nipple), (0.0, -butt), (end, -far),
            (end, far), (0.0, butt), (0.0, nipple), (-out, nipple),
        ]
    )  # fmt: skip
    strokes = all_strokes(
        cut(path),
        *(hidden(q) for q in _bores(d, deep)),
        *(hidden(q) for q in _slot(d)),
        centre_line((-out - 3, 0), (end + 3, 0)),
    )
    facet = -d.across_flats(start) / 2
    dims: tuple[Dimension, ...] = (
        HorizontalDim((0, -butt), (start, facet), -1),
        HorizontalDim((start, facet), (front, facet), -2),
        HorizontalDim((front, 0), (front + deep, 0), 1, suffix=" bearing"),
        HorizontalDim((-out, -nipple), (0, -butt), -2, suffix=" nipple"),
        VerticalDim((-out, -nipple), (-out, nipple), -1, suffix=" nipple"),
        VerticalDim((0, -butt), (0, butt), -2),
        *_bits(d, deep),
        VerticalDim((front, facet), (front, facet + s.mortise_depth), 1, suffix=" mortise"),
    )
    return [View("butt left, hair side down; bores and mortise dashed", strokes, dims)]


def _bits(d: StickDims, deep: float) -> list[Leader]:
    """Label each bore with its drill size."""
    s, high = d.params, d.params.across_flats_butt / 2 + 5.0
    rear, ahead = s.mortise_from_butt / 2, d.mortise_front + deep / 2
    return [
        Leader((x, bore / 2), (x + way * 5.0, high), f"Ø{figure(bore)} bore")
        for x, bore, way in ((rear, s.rear_bore, -1.0), (ahead, s.front_bore, -1.0))
    ]


def _bores(d: StickDims, deep: float) -> list[Path]:
    s, front = d.params, d.mortise_front
    rear_r, front_r = s.rear_bore / 2, s.front_bore / 2
    start = s.mortise_from_butt
    # The rear bore goes through the nipple, which ends the stick.
    end = -s.nipple_length
    rows = [line((end, way * rear_r), (start, way * rear_r)) for way in (1.0, -1.0)]
    rows += [line((front, way * front_r), (front + deep, way * front_r)) for way in (1.0, -1.0)]
    return [*rows, line((front + deep, -front_r), (front + deep, front_r))]


def _slot(d: StickDims) -> list[Path]:
    start, front, deep = (
        d.params.mortise_from_butt, d.mortise_front, d.params.mortise_depth
    )  # fmt: skip
    low, high = (-d.across_flats(x) / 2 for x in (start, front))
    return [
        line((start, low), (start, low + deep)),
        line((start, low + deep), (front, high + deep)),
        line((front, high + deep), (front, high)),
    ]


@template(
    "stick-mortise-card",
    "Stick mortise, scribing card",
    "Lay it on the bottom facet, left end at the stick's end or its line at the shoulder. "
    "Prick, join the corners, drill, chisel.",
    "hair side up",
)
def card(p: Pattern) -> list[View]:
    d = p.scalars(StickDims)
    start, front = d.params.mortise_from_butt, d.mortise_front
    # It starts at the end of the unturned stick, which the maker can feel.
    rear, end = -d.params.nipple_length, front + _AHEAD + 4.0
    half = d.params.mortise_width / 2
    wide, thin = (octagon.facet(d.across_flats(x)) + 6.0 for x in (rear, end))
    path = trapezoid(rear, end, wide, thin)
    slot = polygon([(start, -half), (front, -half), (front, half), (start, half)])
    low, high = path.box[1], path.box[3]
    bit = bit_below(2 * half * 0.8)
    last = (front - half, 0.0)
    strokes = all_strokes(
        cut(path),
        scribe(line((0.0, low + 0.5), (0.0, high - 0.5))),
        *(scribe(line((rear, way * a), (end, way * b))) for a, b in [_facets(d, rear, end)]
          for way in (1.0, -1.0)),
        pocket_marks(slot, ((start + half, 0.0), last), bit),
        centre_line((rear - 3, 0), (end + 3, 0)),
    )  # fmt: skip
    dims = (
        HorizontalDim((0, low), (start, -half), -1),
        HorizontalDim((start, -half), (front, -half), -2),
        HorizontalDim((rear, low), (0, low), -3, suffix=" nipple"),
        VerticalDim((end, -half), (end, half), 1, suffix=" mortise"),
        VerticalDim((rear, low), (rear, high), -1),
        Radius(last, bit / 2, 60.0, diameter=True, reach=9.0),
        Leader((0.0, high - 0.5), (-6.0, high + 6.0), "butt's shoulder"),
    )
    title = f"scribed lines on the corners of the facet; {d.params.mortise_depth:g} deep"
    return [View(title, strokes, dims)]


def _facets(d: StickDims, start: float, end: float) -> tuple[float, float]:
    a, b = (octagon.facet(d.across_flats(x)) / 2 for x in (start, end))
    return a, b


@template(
    "stick-butt",
    "Butt, octagon and bore",
    "Glue it to the butt, prick the centre, bore square to it; check the octagon with it.",
    "hair side down",
)
def butt(p: Pattern) -> list[View]:
    d = p.scalars(StickDims)
    s = d.params
    path = outline.section(p, 0.0)
    a, nipple, bore = s.across_flats_butt, s.nipple_diameter, s.rear_bore
    strokes = all_strokes(
        cut(path),
        scribe(circle((0.0, 0.0), nipple / 2)),
        drill((0.0, 0.0), bore, arm=a / 2 - bore / 2 + 3.0),
    )
    low = -a / 2
    dims = (
        HorizontalDim((low, 0), (-low, 0), -1, suffix=" across flats"),
        HorizontalDim(
            (-octagon.FACET * a / 2, low), (octagon.FACET * a / 2, low), -2, suffix=" facet"
        ),
        Radius((0.0, 0.0), nipple / 2, 35.0, diameter=True, reach=a / 2 + 3.0),
        Radius((0.0, 0.0), bore / 2, 145.0, diameter=True, reach=a / 2 + 3.0),
    )
    title = "bore on the axis within 0.1; tilt at most 0.1 over the length of the mortise"
    return [View(title, strokes, dims)]
