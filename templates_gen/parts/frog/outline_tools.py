"""Cutting tools for the frog's block, as outlines and numbers for ``solid``. Frame of ``dims``."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry import Path, Pen, Point, circle, rectangle
from templates_gen.geometry.clip import clip_above, clip_below
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_volume import BEYOND, hollow_outside, shoulder_cone
from templates_gen.shapes.angle_plate import angle_plate
from templates_gen.shapes.trapezoid import trapezoid

#: Tools reach this far (mm) beyond the block.
_CLEAR = 1.0


def block(p: Pattern) -> Path:
    """Draw the side without its tongue: the block whose front is the shoulder."""
    d = p.scalars(FrogDims)
    shoulder, high = d.shoulder, d.ferrule.params.height
    drawn = list(outline.side(p).vertices)
    tongue = {(round(x, 9), round(z, 9)) for x, z in _tongue_corners(d)}
    kept = [v for v in drawn if (round(v[0], 9), round(v[1], 9)) not in tongue]
    path = Path(tuple(kept))
    assert any(abs(x - shoulder) < 1e-9 and abs(z - high) < 1e-9 for x, z, _ in path.vertices)
    return path


def _tongue_corners(d: FrogDims) -> list[Point]:
    shoulder, front = d.shoulder, d.tongue_front
    low, high = d.tongue_bottom, d.tongue_top
    return [(shoulder, low), (front, low), (front, high), (shoulder, high)]


def plan(p: Pattern) -> Path:
    """Draw the tapering block from below, extended beyond both ends."""
    d = p.scalars(FrogDims)
    start, end = -_CLEAR, max(d.shoulder, d.params.length_top) + _CLEAR
    return trapezoid(start, end, *(2 * d.half_width(x) for x in (start, end)))


@dataclass(frozen=True)
class Hollow:
    """The right flank's hollow, beyond the block at its widest.

    Args:
        section: the whole section, behind the run-out.
        below: the part below the throat, no wider than ``outside``; it is revolved outward.
        above: the part beside throat and thumb.
        run_out: x (mm) where the lower part begins to turn outward.
        outside: y (mm) of the vertical axis it turns about, outside the block from there on.
        wide: y (mm) beyond the whole block.
    """

    section: Path
    below: Path
    above: Path
    run_out: float
    outside: float
    wide: float


def hollow(p: Pattern) -> Hollow:
    """Collect the outlines of the cutter that hollows the flank."""
    d = p.scalars(FrogDims)
    run_out = d.run_out
    outside = float(hollow_outside(d))
    wide = max(d.half_width(-_CLEAR) + BEYOND, outside)
    section = _hollow_to(d, wide)
    # In the throat's height there is no wood between its deepest point and the shoulder.
    split = d.throat.low
    return Hollow(
        section,
        clip_below(_hollow_to(d, outside), split),
        clip_above(section, split),
        run_out,
        outside,
        wide,
    )


def _hollow_to(d: FrogDims, outside: float) -> Path:
    """Draw the section of the right hollow, out to a distance (mm) from the mid-plane."""
    f, top, foot = d.flank, d.params.overall_height + _CLEAR, d.flank.meets(outside)
    pen = Pen((outside, foot))
    back = 2 * f.waist_height - foot
    if back <= top:
        # Edges wider than the block: the hollow leaves its side again below them.
        return pen.arc_to((outside, back), f.circle()[0], left=False).close()
    pen.arc_to((f.half_width(top), top), f.circle()[0], left=False)
    return pen.line_to(outside, top).close()


@dataclass(frozen=True)
class Shoulder:
    """The cone that ends in the ferrule's D."""

    start: float
    end: float
    at_start: Path
    at_end: Path
    top: float


def shoulder(p: Pattern) -> Shoulder:
    """Blend the ebony into the outside of the ferrule."""
    d = p.scalars(FrogDims)
    end = d.shoulder
    back, wider = map(float, shoulder_cone(d))
    return Shoulder(
        end - back, end, outline.ferrule_d(p, wider), outline.ferrule_d(p), d.throat.low
    )


@dataclass(frozen=True)
class Tongue:
    """The tenon the ferrule slides onto."""

    section: Path
    plan: Path
    start: float
    end: float
    low: float
    high: float


def tongue(p: Pattern) -> Tongue:
    """Collect the outlines of the tongue, which narrows toward its front."""
    d = p.scalars(FrogDims)
    section = outline.tongue(p)
    start, end = d.shoulder, d.tongue_front
    wide = section.box[2] - section.box[0]
    slope = d.ferrule.params.tongue_taper / d.ferrule.params.length
    sides = trapezoid(
        start - 2.0, end + 1.0, wide + 2.0 * slope, wide - (end + 1.0 - start) * slope
    )
    return Tongue(section, sides, start, end, d.tongue_bottom, d.tongue_top)


@dataclass(frozen=True)
class Eye:
    """One recess: the middle of its floor, its outward direction, its radius."""

    floor: tuple[float, float, float]
    outward: tuple[float, float, float]
    radius: float


@dataclass(frozen=True)
class Pockets:
    """Everything cut into the shaped block."""

    trench: tuple[tuple[float, Path], ...]
    channel: tuple[tuple[float, Path], ...]
    mortise: Path
    mortise_top: float
    floor: float
    lip: Path
    lip_half_width: float
    bore: Path
    bore_end: float
    bore_top: float
    heel_plate: Path | None
    eyes: tuple[Eye, ...]


def pockets(p: Pattern) -> Pockets:
    """Collect all pockets: seat, channel, hair mortise, lip, shank bore, heel plate, eyes."""
    d = p.scalars(FrogDims)
    s, at = d.params, d.seat.eyelet.from_heel
    ends = (-_CLEAR, max(s.length_top, d.shoulder) + _CLEAR)
    run = (d.channel_rear, d.shoulder + _CLEAR)
    half = s.hair_mortise_width / 2
    return Pockets(
        trench=tuple((x, outline.trench(p, x)) for x in ends),
        channel=tuple((x, outline.channel(p, x)) for x in run),
        mortise=rectangle(s.hair_mortise_from_heel, -half, d.mortise_front, half),
        mortise_top=d.mortise_top,
        floor=d.slide.params.thickness,
        lip=_lip(d),
        lip_half_width=half,
        bore=circle((at, 0.0), d.seat.eyelet.shank_diameter / 2),
        bore_end=d.shank_end,
        bore_top=d.trench_floor(at) + 2.0,
        heel_plate=_heel_plate(d) if d.heel.plated else None,
        eyes=_eyes(d) if d.has_eye else (),
    )


def _lip(d: FrogDims) -> Path:
    """Draw, from the side, the ramp from the mortise's rounded front wall to the tongue's step."""
    front, floor = d.mortise_front, d.slide.params.thickness
    up = floor + min(2 * d.params.lip_radius, d.params.hair_mortise_depth * 0.9)
    pen = Pen((front - _CLEAR, up)).line_to(front, up)
    pen.line_to(front, floor).fillet(d.params.lip_radius)
    pen.line_to(d.shoulder, d.tongue_bottom)
    return pen.line_to(d.shoulder, 0.0).line_to(front - _CLEAR, 0.0).close()


def _heel_plate(d: FrogDims) -> Path:
    h = d.heel.params
    return angle_plate(
        h.leg_length,
        h.rear_leg,
        h.plate_thickness,
        h.bottom_radius,
        h.lean_deg,
    )


def _eyes(d: FrogDims) -> tuple[Eye, ...]:
    (y, z), x, lean = d.eye_floor, d.eye[0], d.eye_lean
    r = d.params.eye_diameter / 2
    return tuple(
        Eye(
            (x, side * y, z),
            (0.0, side * math.cos(lean), math.sin(lean)),
            r,
        )
        for side in (1.0, -1.0)
    )
