"""What is cut from the frog's block, as outlines and numbers for ``solid``. Frame of ``dims``."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry import Path, Pen, Point, circle, rectangle
from templates_gen.geometry.clip import above, below
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.dims_volume import BEYOND, hollow_outside, shoulder_cone
from templates_gen.shapes.angle_plate import angle_plate
from templates_gen.shapes.trapezoid import trapezoid

#: Tools reach this far (mm) beyond the block.
_CLEAR = 1.0


def block(p: Pattern) -> Path:
    """The side without its tongue: the block whose front is the shoulder."""
    d = p.derive(FrogDims)
    shoulder, high = float(d.shoulder), float(d.ferrule.params.height)
    drawn = list(outline.side(p).vertices)
    tongue = {(round(x, 9), round(z, 9)) for x, z in _tongue_corners(d)}
    kept = [v for v in drawn if (round(v[0], 9), round(v[1], 9)) not in tongue]
    path = Path(tuple(kept))
    assert any(abs(x - shoulder) < 1e-9 and abs(z - high) < 1e-9 for x, z, _ in path.vertices)
    return path


def _tongue_corners(d: FrogDims) -> list[Point]:
    shoulder, front = float(d.shoulder), float(d.tongue_front)
    low, high = float(d.tongue_bottom), float(d.tongue_top)
    return [(shoulder, low), (front, low), (front, high), (shoulder, high)]


def plan(p: Pattern) -> Path:
    """The tapering block from below, its taper carried beyond both ends."""
    d = p.derive(FrogDims)
    start, end = -_CLEAR, max(float(d.shoulder), float(d.params.length_top)) + _CLEAR
    return trapezoid(start, end, *(2 * float(d.half_width(x)) for x in (start, end)))


@dataclass(frozen=True)
class Hollow:
    """The right flank's hollow, beyond the block at its widest.

    Args:
        section: all of it across, behind the run-out.
        below: its part below the throat, no wider than ``outside``; it is turned out.
        above: its part beside throat and thumb.
        run_out: x (mm) where the lower part begins to turn out.
        outside: y (mm) of the upright axis it turns about: beyond the block from there on.
        wide: y (mm) beyond the whole block.
    """

    section: Path
    below: Path
    above: Path
    run_out: float
    outside: float
    wide: float


def hollow(p: Pattern) -> Hollow:
    """What the flank's cutter takes."""
    d = p.derive(FrogDims)
    run_out = float(d.run_out)
    outside = float(hollow_outside(d))
    wide = max(float(d.half_width(-_CLEAR)) + BEYOND, outside)
    section = _hollow_to(d, wide)
    # In the throat's height there is air between its deepest place and the shoulder.
    split = float(d.throat.low)
    return Hollow(
        section,
        below(_hollow_to(d, outside), split),
        above(section, split),
        run_out,
        outside,
        wide,
    )


def _hollow_to(d: FrogDims, outside: float) -> Path:
    """The right hollow across, out to so far from the mid-plane (mm)."""
    f, top, foot = d.flank, float(d.params.overall_height) + _CLEAR, float(d.flank.meets(outside))
    pen = Pen((outside, foot))
    back = 2 * float(f.waist_height) - foot
    if back <= top:
        # Edges wider than the block: the hollow comes out of its side again below them.
        return pen.arc_to((outside, back), f.circle()[0], left=False).close()
    pen.arc_to((float(f.half_width(top)), top), f.circle()[0], left=False)
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
    """How the ebony grows into the ferrule's outside."""
    d = p.derive(FrogDims)
    end = float(d.shoulder)
    back, wider = map(float, shoulder_cone(d))
    return Shoulder(
        end - back, end, outline.ferrule_d(p, wider), outline.ferrule_d(p), float(d.throat.low)
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
    """The tongue, filed narrower toward its front."""
    d = p.derive(FrogDims)
    section = outline.tongue(p)
    start, end = float(d.shoulder), float(d.tongue_front)
    wide = section.box[2] - section.box[0]
    slope = float(d.ferrule.params.tongue_taper) / float(d.ferrule.params.length)
    sides = trapezoid(
        start - 2.0, end + 1.0, wide + 2.0 * slope, wide - (end + 1.0 - start) * slope
    )
    return Tongue(section, sides, start, end, float(d.tongue_bottom), float(d.tongue_top))


@dataclass(frozen=True)
class Eye:
    """One recess: the middle of its floor, the way it looks, its radius."""

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
    """Seat, channel, hair mortise with its lip, the shank's bore, heel plate and eyes."""
    d = p.derive(FrogDims)
    s, at = d.params, float(d.seat.eyelet.from_heel)
    ends = (-_CLEAR, max(float(s.length_top), float(d.shoulder)) + _CLEAR)
    run = (float(d.channel_rear), float(d.shoulder) + _CLEAR)
    half = float(s.hair_mortise_width) / 2
    return Pockets(
        trench=tuple((x, outline.trench(p, x)) for x in ends),
        channel=tuple((x, outline.channel(p, x)) for x in run),
        mortise=rectangle(float(s.hair_mortise_from_heel), -half, float(d.mortise_front), half),
        mortise_top=float(d.mortise_top),
        floor=float(d.slide.params.thickness),
        lip=_lip(d),
        lip_half_width=half,
        bore=circle((at, 0.0), float(d.seat.eyelet.shank_diameter) / 2),
        bore_end=float(d.shank_end),
        bore_top=float(d.trench_floor(at)) + 2.0,
        heel_plate=_heel_plate(d) if d.heel.plated else None,
        eyes=_eyes(d) if d.has_eye else (),
    )


def _lip(d: FrogDims) -> Path:
    """From the side: the ramp from the mortise's rounded front wall to the tongue's step."""
    front, floor = float(d.mortise_front), float(d.slide.params.thickness)
    up = floor + min(2 * float(d.params.lip_radius), float(d.params.hair_mortise_depth) * 0.9)
    pen = Pen((front - _CLEAR, up)).line_to(front, up)
    pen.line_to(front, floor).fillet(float(d.params.lip_radius))
    pen.line_to(float(d.shoulder), float(d.tongue_bottom))
    return pen.line_to(float(d.shoulder), 0.0).line_to(front - _CLEAR, 0.0).close()


def _heel_plate(d: FrogDims) -> Path:
    h = d.heel.params
    return angle_plate(
        float(h.leg_length),
        float(h.rear_leg),
        float(h.plate_thickness),
        float(h.bottom_radius),
        float(h.lean_deg),
    )


def _eyes(d: FrogDims) -> tuple[Eye, ...]:
    (y, z), x, lean = d.eye_floor, float(d.eye[0]), float(d.eye_lean)
    r = float(d.params.eye_diameter) / 2
    return tuple(
        Eye(
            (x, side * float(y), float(z)),
            (0.0, side * math.cos(lean), math.sin(lean)),
            r,
        )
        for side in (1.0, -1.0)
    )
