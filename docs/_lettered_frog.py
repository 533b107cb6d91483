"""Draw frog and handle with letters."""

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
from templates_gen.geometry import Point, circle, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims


def frog(p: Pattern) -> View:
    """Draw the outline from the side."""
    d = p.derive(FrogDims)
    s, t = d.params, d.throat
    shoulder, end, high = (float(v) for v in (d.shoulder, s.length_bottom, d.ferrule.params.height))
    clear, top, tip = (float(v) for v in (s.clear_height, s.overall_height, s.length_top))
    at, back, low = _stated(p, "eyelet.from_heel"), float(t.deepest), float(t.low)
    join, under = (float(t.joins_thumb[0]), float(t.joins_thumb[1])), float(t.tip_height)
    strokes = all_strokes(
        cut(outline.side(p)),
        hidden(line((shoulder, 0), (end, 0))),
        hidden(line((end, 0), (end, high))),
        hidden(line((end, high), (shoulder, high))),
        hidden(line((0, clear), (tip, clear))),
        centre_line((at, -3), (at, top + 4)),
    )
    dims = (
        HorizontalDim((0, top), (at, top), 1, text="d_r"),
        HorizontalDim((0, top), (tip, top), 2, text="L_ft"),
        HorizontalDim((shoulder, 0), (end, 0), -1, text="L_f"),
        HorizontalDim((0, 0), (end, 0), -2, text="L_fb"),
        HorizontalDim((back, low), (shoulder, high), -3, text="d_th"),
        VerticalDim((0, 0), (0, clear), -1, text="h_f"),
        VerticalDim((0, 0), (0, top), -2, text="h_fo"),
        VerticalDim((end, 0), (end, high), 1, text="H_f"),
        VerticalDim((end, 0), (back, float(s.throat_centre_height)), 2, text="z_d"),
        Leader((tip, (under + clear) / 2), (end + 14, clear), "t_tt thick"),
        Leader(_between(join, (tip, under)), (end + 14, under - 4), "slope θ"),
        Leader((tip - 6, clear), (tip + 6, top + 3), "the stick's lower facet"),
    )
    return View("from the side; heel left, ferrule right", strokes, dims)


def frog_inside(p: Pattern) -> View:
    """Draw the section along the middle: mortise, channel, lip, shank hole."""
    d = p.derive(FrogDims)
    s, floor, top = d.params, float(d.slide.params.thickness), float(d.params.overall_height)
    rear, front, deep = (
        float(v) for v in (s.hair_mortise_from_heel, d.mortise_front, d.mortise_top)
    )
    at, r = _stated(p, "eyelet.from_heel"), _stated(p, "eyelet.shank_diameter") / 2
    shank = float(d.shank_end)
    high = shank + _stated(p, "eyelet.shank_length")
    strokes = all_strokes(
        cut(outline.middle(p)),
        hidden(line((0.0, top), (float(s.length_top), top))),
        centre_line((at, shank - 3), (at, top + 4)),
    )
    dims = (
        HorizontalDim((0, 0), (rear, floor), -1, text="x_hm"),
        HorizontalDim((rear, floor), (front, floor), -2, text="l_hm"),
        HorizontalDim((float(d.channel_rear), 0), (float(d.shoulder), 0), -3, text="L_s"),
        HorizontalDim((at - r, high), (at + r, high), 1, text="d_sh"),
        VerticalDim((rear, floor), (rear, deep), -1, text="d_hm"),
        VerticalDim((0, 0), (rear, floor), -2, text="t_s"),
        VerticalDim((at + r, shank), (at + r, high), 2, text="l_sh"),
        Leader((front + 0.3, floor + 0.5), (front + 4, -8), "lip_radius"),
    )
    return View("cut along the middle; heel left", strokes, dims)


def frog_across(p: Pattern) -> View:
    """Draw the section at the hair mortise."""
    d = p.derive(FrogDims)
    x = float(d.params.hair_mortise_from_heel) + 1.0
    path = outline.across(p, x)
    waist, at = float(d.flank.waist), float(d.flank.waist_height)
    top, edge = float(d.params.overall_height), float(d.params.width_top) / 2
    half, band = float(d.half_width(x)), float(d.flank.meets(d.half_width(x)))
    wall, deep = float(d.params.hair_mortise_width) / 2, float(d.mortise_top)
    dims = (
        HorizontalDim((-edge, top), (edge, top), 1, text="W_t"),
        HorizontalDim((-waist, at), (waist, at), 2, text="W_w"),
        HorizontalDim((-wall, deep), (wall, deep), -1, text="w_hm"),
        HorizontalDim((-half, 0), (half, 0), -2, text="W_hl at the heel"),
        VerticalDim((half, 0), (half, band), 1, text="z_b"),
    )
    return View("cut across the hair mortise", (cut(path),), dims)


def stick(p: Pattern) -> View:
    """Draw the handle cut open, with the eyelet in the middle of its travel."""
    butt, end = (_stated(p, f"stick.across_flats_{at}") / 2 for at in ("butt", "handle_end"))
    length, rear = _stated(p, "stick.handle_length"), _stated(p, "stick.mortise_from_butt")
    front, reach = rear + _stated(p, "stick.mortise_length"), _stated(p, "screw.length")
    bearing = front + _stated(p, "screw.bearing_depth")
    nipple, turned = -_stated(p, "stick.nipple_length"), _stated(p, "stick.nipple_diameter") / 2
    deep = _stated(p, "stick.mortise_depth") - butt
    bore, tip = (_stated(p, f"stick.{at}_bore") / 2 for at in ("rear", "front"))
    at, body = (rear + front) / 2, _stated(p, "eyelet.length") / 2
    strokes = all_strokes(
        cut(polygon([(0, -butt), (length, -end), (length, end), (0, butt)])),
        scribe(rectangle(nipple, -turned, 0, turned)),
        hidden(rectangle(rear, -butt, front, deep)),
        hidden(rectangle(nipple, -bore, rear, bore)),
        hidden(rectangle(front, -tip, bearing, tip)),
        scribe(rectangle(at - body, -butt, at + body, _stated(p, "eyelet.height_above_axis"))),
        centre_line((nipple - 3, 0), (reach, 0)),
    )
    dims = (
        HorizontalDim((0, -butt), (rear, -butt), -1, text="x_m"),
        HorizontalDim((rear, -butt), (front, -butt), -1, text="l_m"),
        HorizontalDim((front, 0), (bearing, 0), -1, text="l_b"),
        HorizontalDim((0, -butt), (reach, 0), -2, text="L_sx"),
        HorizontalDim((0, -butt), (length, -end), -3, text="L_hd"),
        VerticalDim((nipple, -turned), (nipple, turned), -1, text="d_n"),
        VerticalDim((0, -butt), (0, butt), -2, text="a_b"),
        VerticalDim((length, -end), (length, end), 1, text="a_he"),
        Leader((rear + 1, deep), (rear + 6, butt + 9), "mortise, d_m deep, w_m wide"),
        Leader((at, 1), (front + 8, butt + 4), "eyelet, l_e long, w_e wide, k_e above the axis"),
        Leader((rear / 2, bore), (rear / 2 - 24, butt + 4), "rear bore, d_rb"),
        Leader((bearing - 1, tip), (bearing + 6, butt - 1.5), "front bore, d_fb"),
    )
    return View("the handle from the side; butt left, hair below", strokes, dims)


def throat(p: Pattern) -> View:
    """Draw the construction of the throat's two arcs."""
    d = p.derive(FrogDims)
    t, high = d.throat, float(d.ferrule.params.height)
    back, low, up = float(t.deepest), float(t.low), float(t.high)
    r2, r1 = float(t.lower_radius), float(t.upper_radius)
    join = (float(t.joins_thumb[0]), float(t.joins_thumb[1]))
    shoulder = (float(d.shoulder), high)
    lower, upper = (back + r2, low), (back + r1, up)
    marks = [hidden(circle(c, 0.4)) for c in (lower, upper)]
    marks += [scribe(circle(q, 0.4)) for q in (shoulder, join, (back, low))]
    strokes = all_strokes(
        cut(outline.side(p)), marks, centre_line((back - 4, low), (back + r2 + 4, low))
    )
    right, top = float(d.params.length_bottom) + 6, float(d.params.clear_height)
    words = (
        Leader(shoulder, (right, high + 1), "S: the shoulder, as high as the ferrule"),
        Leader(lower, (right, low), "centre of the lower arc"),
        Leader(upper, (right, low + 5), "centre of the upper arc"),
        Leader(join, (right, top + 6), "T: the arc touches the thumb's line"),
        Leader((back, low), (back - 4, low + 3), "D: deepest"),
    )
    return View("the throat's two arcs", strokes, words)


def _stated(p: Pattern, key: str) -> float:
    """Return a stated number by its key."""
    return float(p.values[key])


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
