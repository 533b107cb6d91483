"""Draw screw, eyelet, button and thumb leather with letters."""

from __future__ import annotations

from templates_gen.drawing.view import (
    HorizontalDim,
    Leader,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import circle, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.eyelet.dims import EyeletDims
from templates_gen.parts.leather.params import Leather
from templates_gen.parts.screw.dims import ScrewDims
from templates_gen.parts.stick.dims import StickDims


def button(p: Pattern) -> View:
    """Draw the button cut open, between two flats."""
    d = p.derive(ButtonDims)
    s = d.params
    long, ring = float(s.length), float(s.ring_width)
    butt, end, sheet = (
        float(v) / 2 for v in (s.across_flats, s.across_flats_end, s.ring_sheet * 2)
    )
    bore, deep, hole = (
        float(v) for v in (s.counterbore_diameter / 2, s.counterbore_depth, d.screw.diameter / 2)
    )
    inner = butt - sheet
    edges = [(x, float(d.across_flats(x)) / 2) for x in (ring, long - ring)]
    strokes = all_strokes(
        cut(polygon([(0, -butt), (long, -end), (long, end), (0, butt)])),
        hidden(rectangle(0, -bore, deep, bore)),
        *(hidden(line((deep, way * hole), (long, way * hole))) for way in (1.0, -1.0)),
        *(scribe(line((x, -z), (x, z))) for x, z in edges),
        *(hidden(line((0, way * inner), (ring, way * inner))) for way in (1.0, -1.0)),
        centre_line((-3, 0), (long + 3, 0)),
    )
    dims = (
        HorizontalDim((0, -butt), (long, -end), -2, text="L_bt"),
        HorizontalDim((0, -butt), (ring, -butt), -1, text="l_r"),
        HorizontalDim((0, bore), (deep, bore), 1, text="l_cb"),
        VerticalDim((0, -butt), (0, butt), -2, text="a_bt"),
        VerticalDim((0, -bore), (0, bore), -1, text="d_cb"),
        VerticalDim((long, -end), (long, end), 1, text="a_be"),
        Leader((ring * 0.7, butt - sheet / 2), (long + 4, butt + 5), "sheet of the rings, t_r"),
    )
    return View("between two flats; butt end left, the screw's hole dashed", strokes, dims)


def screw(p: Pattern) -> View:
    """Draw the screw from the side, with the button closed."""
    d = p.derive(ScrewDims)
    s = d.params
    r, tip = float(s.diameter) / 2, float(d.tip_diameter) / 2
    start, end, long = float(s.thread_start), float(s.thread_end), float(s.length)
    outline = [(0, -r), (end, -r), (end, -tip), (long, -tip)]
    path = polygon([*outline, *((x, -z) for x, z in outline[::-1])])
    turns = [start + n * (end - start) / 16 for n in range(17)]
    strokes = all_strokes(
        cut(path),
        *(scribe(line((x, -r), (x, r))) for x in turns[1:-1]),
        centre_line((-4, 0), (long + 3, 0)),
    )
    dims = (
        HorizontalDim((0, -r), (start, -r), -1, text="x_ts"),
        HorizontalDim((0, -r), (end, -r), -2, text="x_te"),
        HorizontalDim((0, -r), (long, -tip), -3, text="L_sx"),
        VerticalDim((0, -r), (0, r), -1, text="d_sc"),
        Leader(((start + end) / 2, r), (end - 4, r + 7), "thread"),
        Leader(((end + long) / 2, tip), (long - 2, r + 4), "plain tip, in the front bore"),
    )
    return View("from the side; butt's shoulder left", strokes, dims)


def eyelet(p: Pattern) -> list[View]:
    """Draw the eyelet from the side and from the head."""
    d = p.derive(EyeletDims)
    s, at = d.params, float(d.params.from_heel)
    half, wide, r = float(s.length) / 2, float(s.width) / 2, float(s.shank_diameter) / 2
    foot, top, end = float(d.body_foot), float(d.body_top), float(d.shank_end)
    axis, bore = float(d.seat.axis_height), float(d.screw.diameter) / 2
    land = end + float(s.shank_length)
    side = all_strokes(
        cut(rectangle(at - half, foot, at + half, top)),
        cut(rectangle(at - r, end, at + r, foot)),
        hidden(line((at - half - 6, land), (at + half + 6, land))),
        centre_line((at - half - 4, axis), (at + half + 4, axis)),
        *(hidden(line((at - half, axis + z), (at + half, axis + z))) for z in (bore, -bore)),
    )
    across = all_strokes(
        cut(rectangle(-wide, foot, wide, top)),
        cut(rectangle(-r, end, r, foot)),
        cut(circle((0.0, axis), bore)),
        centre_line((-wide - 2, axis), (wide + 2, axis)),
    )
    return [
        View(
            "from the side; the ebony under the seat's lining dashed",
            side,
            (
                HorizontalDim((at - half, top), (at + half, top), 1, text="l_e"),
                VerticalDim((at + half, axis), (at + half, top), 1, text="k_e"),
                VerticalDim((at - half, end), (at - half, land), -1, text="l_sh"),
                HorizontalDim((at - r, end), (at + r, end), -1, text="d_sh"),
            ),
        ),
        View("from the head", across, (HorizontalDim((-wide, top), (wide, top), 1, text="w_e"),)),
    ]


def leather(p: Pattern) -> View:
    """Draw the leather on its stick."""
    s, d = p[Leather], p.derive(StickDims)
    start, long, thick = float(s.from_butt), float(s.length), float(s.thickness)
    end = start + long
    low = [float(d.diameter(x)) / 2 for x in (0.0, start, end, end + 12)]
    stick = [(0.0, low[0]), (start, low[1]), (end, low[2]), (end + 12, low[3])]
    wrap = [(start, low[1] + thick), (end, low[2] + thick)]
    strokes = all_strokes(
        hidden(polygon([*stick, *((x, -z) for x, z in stick[::-1])])),
        cut(polygon([*wrap, *((x, -z) for x, z in wrap[::-1])])),
        centre_line((-3, 0), (end + 15, 0)),
    )
    dims = (
        HorizontalDim((0, -low[0]), (start, -wrap[0][1]), -1, text="x_l"),
        HorizontalDim((start, -wrap[0][1]), (end, -wrap[1][1]), -1, text="L_l"),
        Leader((end - 6, low[2] + thick / 2), (end + 4, low[0] + 6), "leather, t_l"),
    )
    return View("on its stick; butt left", strokes, dims)
