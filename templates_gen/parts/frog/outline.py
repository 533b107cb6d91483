"""The frog's outlines, in the frame of ``dims``."""

from __future__ import annotations

import math

from templates_gen.errors import GeometryError
from templates_gen.geometry import Path, Pen, polygon
from templates_gen.geometry.clip import below
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes import seat
from templates_gen.shapes.trapezoid import trapezoid


def side(p: Pattern) -> Path:
    """The frog from the side, tongue and all; x toward the head, y of the path is z."""
    d = p.derive(FrogDims)
    pen = _throat(d, _foot(d))
    s, top = d.stated, float(d.stated.overall_height)
    tip, round_tip = float(s.length_top), float(s.thumb_tip_thickness) / 2
    pen.line_to(tip, float(d.throat.tip_height)).fillet(round_tip)
    pen.line_to(tip, top).fillet(round_tip)
    pen.line_to(float(d.heel_lean), top).fillet(float(d.heel.stated.top_radius))
    return _heel(d, pen)


def _foot(d: FrogDims) -> Pen:
    """From the heel's rounding along the bottom, round the tongue, up to the throat."""
    start, shoulder = float(d.heel.setback), float(d.shoulder)
    front, low, high = (float(v) for v in (d.tongue_front, d.tongue_bottom, d.tongue_top))
    pen = Pen((start, 0.0)).line_to(shoulder, 0.0).line_to(shoulder, low)
    pen.line_to(front, low).line_to(front, high).line_to(shoulder, high)
    return pen.line_to(shoulder, float(d.ferrule.stated.height))


def _throat(d: FrogDims, pen: Pen) -> Pen:
    t = d.throat
    lower, upper, back = (float(v) for v in (t.lower_radius, t.upper_radius, t.deepest))
    join = (float(t.joins_thumb[0]), float(t.joins_thumb[1]))
    if float(t.rise) <= 0 or upper <= 0 or join[0] >= float(t.tip):
        raise GeometryError("the throat does not fit between ferrule and thumb projection", join)
    low, high = float(t.low), float(t.high)
    pen.arc_to((back, low), (back + lower, low), left=False).line_to(back, high)
    return pen.arc_to(join, (back + upper, high), left=False)


def _heel(d: FrogDims, pen: Pen) -> Path:
    """Down the heel and round its foot."""
    lean, back = math.radians(float(d.heel.stated.lean_deg)), float(d.heel.setback)
    pen.line_to(back * math.sin(lean), back * math.cos(lean))
    pen.arc_to((back, 0.0), (back, float(d.heel.stated.bottom_radius)), left=True)
    return pen.close()


def middle(p: Pattern) -> Path:
    """The section along the mid-plane as far as the seat's trench leaves it."""
    return below(side(p), float(p.derive(FrogDims).trench_floor))


def plan(p: Pattern, beyond: float = 0.0) -> Path:
    """The tapering block from below, its taper carried ``beyond`` both ends (mm)."""
    d = p.derive(FrogDims)
    start, end = -beyond, float(max(d.shoulder, d.stated.length_top)) + beyond
    widths = (2 * float(d.half_width(x)) for x in (start, end))
    return trapezoid(start, end, *widths)


def trench(p: Pattern) -> Path:
    """What is cut away on top for the stick and its lining; y = 0 at the bottom plane."""
    d = p.derive(FrogDims).seat
    # A little above the edges, so that the cut leaves no skin.
    path = seat.trench(float(d.land), float(d.trench_height) + 1.0, float(d.lining), float(d.stop))
    return path.moved(0.0, float(d.land_height))


def across(p: Pattern, x: float) -> Path:
    """The section across at x (mm from the heel), where neither throat nor rounding reaches."""
    d = p.derive(FrogDims)
    half, top = float(d.half_width(x)), float(d.stated.overall_height)
    floor = trench(p).moved(0.0, 0.0)
    inside = [v[:2] for v in below(floor, top).vertices]
    right = sorted((q for q in inside if q[0] > 0), key=lambda q: -q[1])
    left = [(-x, y) for x, y in right[::-1]]
    return polygon([(-half, 0.0), (half, 0.0), (half, top), *right, *left, (-half, top)])


def dummy(p: Pattern) -> Path:
    """The dummy frog from the side: its foot lies where the hair does."""
    d = p.derive(FrogDims)
    hair, top = float(d.ferrule.stated.plate_thickness), float(d.stated.clear_height)
    end, notch = float(d.stated.length_bottom), 1.0
    pen = Pen((0.0, hair)).line_to(end - 2 * notch, hair)
    pen.line_to(end - 2 * notch, hair + notch).line_to(end, hair + notch)
    return pen.line_to(end, top).line_to(0.0, top).close()
