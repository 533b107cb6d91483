"""Volume of the frog's wood: the drawn outlines, integrated along and up. Frame of ``dims``."""

from __future__ import annotations

import math

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.mechanics import VolumeAt, breaks, gauss, gauss_across
from templates_gen.mechanics.sections import circle
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.shapes.seat import CORNER

#: The shoulder's cone opens at least this much for each millimetre it goes back: a gentle blend.
OPENING = 0.5
#: The flank's cutter reaches this far (mm) beyond the block.
BEYOND = 0.5


def ebony(p: Pattern) -> VolumeAt:
    """Integrate block and tongue less seat, mortise, bore and eyes; x from the heel."""
    d = p.on_grid().derive(FrogDims)
    z, high = gauss_across(_levels(d))
    x, long = gauss(breaks(_rear(d, z), _front(d, z), *_places(d)))
    block = np.maximum(_outside(d, x, z) - _trench(d, x, z), 0.0)
    whole = VolumeAt.summed(2 * block * long * high, x) + _tongue(d) - _hollowed(d)
    return whole - _round_holes(p.derive(FrogDims))


def _levels(d: FrogDims) -> Floats:
    """List the heights (mm) at which the shape of the frog's outside or seat changes."""
    s, t, h = d.params, d.throat, d.heel.params
    lean = np.radians(h.lean_deg)
    return breaks(
        0.0 * s.overall_height,
        s.overall_height,
        *(d.heel.sheet, d.ferrule.params.height, t.low, t.high, t.joins_thumb[1], t.tip_height),
        *(h.bottom_radius * (1 + np.sin(lean)), h.rear_leg * np.cos(lean)),
        *(d.trench_floor(0.0), d.seat.land_height(s.length_top) + d.seat.stop),
        s.overall_height - h.top_radius,
    )


def _places(d: FrogDims) -> tuple[FloatOrArray, ...]:
    """List the places (mm) along the frog at which the shape of its outside changes."""
    back, _ = shoulder_cone(d)
    return d.heel.params.leg_length, d.run_out, d.shoulder - back, d.shoulder


def shoulder_cone(d: FrogDims) -> tuple[FloatOrArray, FloatOrArray]:
    """Return length and widening (mm) of the cone behind the shoulder, where the ferrule butts.

    The crown must stay above the throat's lower arc, which alone makes the side's outline.
    """
    t = d.throat
    back = np.minimum(4.0, t.depth / 2)
    reach = t.lower_radius - t.depth + back
    rise = t.rise - np.sqrt(t.lower_radius**2 - reach**2)
    return back, np.maximum(back * OPENING, 1.2 * rise)


def hollow_outside(d: FrogDims) -> FloatOrArray:
    """Return y (mm) of the axis about which the flank's hollow runs out, outside the block.

    A frog may taper either way: wider at the heel, or at the ferrule.
    """
    end = np.maximum(d.params.length_top, d.shoulder)
    return np.maximum(d.half_width(d.run_out), d.half_width(end)) + BEYOND


def _rear(d: FrogDims, z: FloatOrArray) -> FloatOrArray:
    """Return x (mm) of the wood's rear end at a height: leaning heel, roundings, plate's bed."""
    h, lean = d.heel.params, np.radians(d.heel.params.lean_deg)
    sheet = d.heel.sheet
    inset = np.where(z < h.rear_leg * np.cos(lean) - sheet * np.sin(lean) / 2, sheet, 0.0)
    heel = d.heel.rear_face(z) + inset / np.cos(lean)
    r = np.maximum(h.bottom_radius - inset, 0.0)
    foot = h.bottom_radius - _across(r, z - h.bottom_radius)
    heel = np.where(z < h.bottom_radius + r * np.sin(lean), foot, heel)
    low = d.params.overall_height - h.top_radius
    over = z > low + h.top_radius * np.sin(lean)
    middle = d.heel.rear_face(low) + h.top_radius / np.cos(lean)
    heel = np.where(over, middle - _across(h.top_radius, z - low), heel)
    return np.where(z < sheet, h.leg_length, heel)


def _front(d: FrogDims, z: FloatOrArray) -> FloatOrArray:
    """Return x (mm) of the wood's front end at a height: shoulder, throat, thumb, rounded tip."""
    t, r = d.throat, d.params.thumb_tip_thickness / 2
    rise = np.where(z < t.low, t.low - z, np.maximum(z - t.high, 0.0))
    radius = np.where(z < t.low, t.lower_radius, t.upper_radius)
    arc = t.deepest + radius - _across(radius, rise)
    slope = np.radians(t.slope_deg)
    low = t.tip_height + r * (1 - np.sin(slope)) / np.cos(slope)
    high = d.params.overall_height - r
    tip = t.tip - r + _across(r, np.maximum(np.maximum(low - z, z - high), 0.0))
    thumb = t.tip - (t.tip_height - z) / np.tan(slope + 1e-9)
    thumb = np.where(z < low - r * np.cos(slope), thumb, tip)
    return np.where(z < t.ferrule, t.shoulder, np.where(z < t.joins_thumb[1], arc, thumb))


def _across(radius: FloatOrArray, away: FloatOrArray) -> FloatOrArray:
    """Return half a circle's chord (mm) at a distance from its centre."""
    return np.sqrt(np.maximum(radius**2 - away**2, 0.0))


def _outside(d: FrogDims, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
    """Return half the frog's width (mm): its taper, the hollowed flank, the shoulder's cone."""
    out = hollow_outside(d)
    room = out - np.minimum(d.flank.half_width(z), out)
    turned = out - _across(room, np.where(z < d.throat.low, np.maximum(x - d.run_out, 0.0), 0.0))
    hollow = np.where(turned < out, turned, np.inf)
    back, wider = shoulder_cone(d)
    share = (d.shoulder - x) / back * wider
    level = np.maximum(z - d.ferrule.params.plate_thickness, 0.0)
    cone = d.ferrule.arch_half_width(level, -share)
    beside = (x > d.shoulder - back) & (z < d.throat.low)
    return np.minimum(np.minimum(d.half_width(x), hollow), np.where(beside, cone, np.inf))


def _trench(d: FrogDims, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
    """Return half the width (mm) of the seat for the handle and its lining; 0 below it."""
    lining, stop = d.seat.lining, d.seat.stop_at(x)
    up = z - d.seat.land_height(x)
    over = np.where(up < stop, 2 * stop - up, up)
    under = up + lining * (1 + CORNER)
    reach = np.where(up < stop - lining * math.sqrt(0.5), under, over)
    return np.where(up > -lining, d.seat.land_at(x) / 2 + reach, 0.0)


def _hollowed(d: FrogDims) -> VolumeAt:
    """Integrate what is cut from below: the slide's channel, the hair mortise and its lip."""
    s, deep = d.params, d.slide.params.thickness
    ends = (s.hair_mortise_from_heel, d.mortise_front, d.mortise_front + s.lip_radius)
    x, long = gauss_across(breaks(d.channel_rear, d.shoulder, *ends))
    top = np.where(x < d.mortise_front, d.mortise_top, d.lip_height(x))
    top = np.where(x < s.hair_mortise_from_heel, deep, top)
    z, high = gauss(breaks(0.0 * top, top, deep))
    face = d.channel_width(x)
    channel = (face + (d.slide.floor(face) - face) * z / deep) / 2
    mortise = np.where(x > s.hair_mortise_from_heel, s.hair_mortise_width / 2, 0.0)
    half = np.maximum(np.where(z < deep, channel, 0.0), mortise)
    return VolumeAt.summed(2 * half * long * high, x)


def _tongue(d: FrogDims) -> VolumeAt:
    """Integrate the tongue: the ferrule's opening less the fit, narrower toward its front."""
    f = d.ferrule.params
    inset, low = f.arch_thickness + f.tongue_fit / 2, d.tongue_bottom
    z, high = gauss_across(breaks(low, d.tongue_top), 12)
    x, long = gauss(breaks(d.shoulder, d.tongue_front))
    widest = d.ferrule.arch_half_width(low - f.plate_thickness, inset)
    sides = widest - (x - d.shoulder) * f.tongue_taper / f.length / 2
    half = np.minimum(d.ferrule.arch_half_width(z - f.plate_thickness, inset), sides)
    return VolumeAt.summed(2 * half * long * high, x)


def _round_holes(d: FrogDims) -> VolumeAt:
    """Return the shank's bore, and the eyes' recesses up to the hollow of the flank."""
    s, e = d.params, d.seat.eyelet
    deep = d.trench_floor(e.from_heel) - d.shank_end
    bore = VolumeAt(circle(e.shank_diameter).area * deep, e.from_heel)
    if not d.has_eye:
        return bore
    # Over a disc of radius r the hollow of radius R rises by r² / 8 R on average.
    sag = (s.eye_diameter / 2) ** 2 / (8 * d.flank.radius)
    return bore + VolumeAt(2 * circle(s.eye_diameter).area * (s.eye_thickness + sag), d.eye[0])
