"""Draw the head with letters."""

from __future__ import annotations

import math

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
    pocket,
    scribe,
)
from templates_gen.geometry import Pen, Point, circle
from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck


def side(p: Pattern) -> View:
    """Draw the side, with plate, liner and mortise."""
    d, n = p.derive(HeadDims), neck(p)
    s = d.params
    length, rise, high = float(s.face_length), float(s.nose_rise), float(s.height)
    crown = (float(d.crown[0]), float(d.crown[1]))
    nose = (length, rise + float(s.nose_thickness))
    deep, rear, front = float(s.mortise_depth), float(s.mortise_from_rear), float(d.mortise_front)
    foot = (float(d.mortise_foot), deep)
    mortise = Pen((rear, 0.0)).line_to(rear, deep).line_to(*foot).line_to(front, 0.0).open()
    thick = float(s.plate_thickness), float(s.plate_thickness) + float(s.liner_thickness)
    strokes = all_strokes(
        cut(outline.side(p)),
        hidden(mortise),
        *(scribe(line((0.0, z), (float(d.flat), z))) for z in thick),
        [scribe(circle(q, 0.4)) for q in (crown, _joint(d))],
    )
    dims = (
        HorizontalDim((rear, 0), (front, 0), -1, text="l_mh"),
        HorizontalDim((0, 0), (length, rise), -2, text="L_h"),
        HorizontalDim((0, high), crown, 1, text="crown_fraction × L_h"),
        VerticalDim((0, 0), (0, high), -1, text="H_h"),
        VerticalDim((length, 0), (length, rise), 1, text="z_n"),
        VerticalDim((length, rise), nose, 2, text="t_n"),
        VerticalDim((front, 0), foot, 3, text="d_mh"),
        Leader(_lower(n.on_back, n.fillet, float(s.back_radius)), (-26.0, high * 0.45), "r_b"),
        Leader((-0.0, 2.4), (-20.0, 5.0), "back at α to the face"),
        Leader(crown, (crown[0] + 14, high + 10), "C: the crown"),
        Leader(_joint(d), (length + 10, high - 3), "J: the arcs meet"),
        Leader(nose, (length + 22, nose[1] + 7), "N: down at δ"),
        Leader((1.5, thick[0] / 2), (-14.0, -6.0), "plate t_tp, liner t_tl"),
    )
    return View("from the side; hair below, stick to the left", strokes, dims)


def face(p: Pattern) -> View:
    """Draw the face and the mouth of the mortise."""
    d = p.derive(HeadDims)
    s, path = d.params, outline.plan(p)
    left, low, right, high = path.box
    at, front, nose = (
        float(v) for v in (s.face_width_front_at, s.face_width_front / 2, s.nose_width / 2)
    )
    rear, wide = float(s.mortise_from_rear), float(s.mortise_width) / 2
    strokes = all_strokes(
        cut(path), pocket(outline.mortise(p)), centre_line((left - 3, 0), (right + 3, 0))
    )
    dims = (
        HorizontalDim((0, low), (rear, -wide), -1, text="mortise_from_rear"),
        HorizontalDim((0, high), (at, front), 1, text="x_2"),
        HorizontalDim((0, high), (right, nose), 2, text="L_h"),
        VerticalDim((0, low), (0, high), -1, text="W_h"),
        VerticalDim((rear, -wide), (rear, wide), -2, text="w_mh"),
        VerticalDim((right, -nose), (right, nose), 1, text="W_n"),
        VerticalDim((at, -front), (at, front), 2, text="W_2"),
    )
    return View("the face; rear edge left", strokes, dims)


def _joint(d: HeadDims) -> Point:
    return (float(d.two_arcs.joint[0]), float(d.two_arcs.joint[1]))


def _lower(touch: Point, centre: Point, radius: float) -> Point:
    """Return a place on the rounding, 40° from where it touches the back."""
    angle = math.atan2(touch[1] - centre[1], touch[0] - centre[0]) + math.radians(40.0)
    return (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
