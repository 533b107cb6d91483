"""The head in the whole bow: its frame in the stick's, its volume, its pieces."""

from __future__ import annotations

import numpy as np

from templates_gen.mechanics import STICK, Frame, Portion, VolumeAt
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import construct
from templates_gen.parts.head.dims_volume import Solid, own, rod
from templates_gen.parts.head.params import Head
from templates_gen.parts.material.params import Material
from templates_gen.parts.stick.dims import WITH_HEAD

MOVES_WITH = STICK


def frame(p: Pattern) -> Frame:
    """Return its frame: its own bent length begins where the unbent stick ends, as thick."""
    d = p.derive(HeadDims)
    n, join = construct(d), d.bow.face_rear - WITH_HEAD
    turn, reach = n.end - d.rise, n.under - d.bow.diameter(join) / 2
    sine, cosine = np.sin(turn), np.cos(turn)
    # The middle of the bent length's end in the head's own frame.
    x, z = n.centre[0] - reach * sine, n.centre[1] - reach * cosine
    origin = (join - x * cosine + z * sine, 0.0, -x * sine - z * cosine)
    return Frame(origin, (cosine, 0.0, sine), (-sine, 0.0, cosine))


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of the head's solid, with the length of stick it carries."""
    return _placed(p, own(p) + rod(p))


def without_stick(p: Pattern) -> VolumeAt:
    """Return the volume of the head alone, plate and liner included."""
    return _placed(p, own(p))


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the head's wood, tip plate and liner, and the plug that holds the hair."""
    m, (plate, liner) = p[Material], facings(p)
    metal = "bone" if p[Head].plate_kind == "bone" else m.mounts
    return (
        Portion("head", volume - _placed(p, rod(p)) - plate - liner, m.stick_wood),
        Portion("tip plate", plate, metal),
        Portion("liner", liner, "ebony"),
        Portion("plug in the head", _plug(p), "soft wood"),
    )


def facings(p: Pattern) -> tuple[VolumeAt, VolumeAt]:
    """Return tip plate and liner: the face's plan, laid flat, less the mortise's mouth."""
    d = p.derive(HeadDims)
    s = d.params
    mouth = s.mortise_length * (s.mortise_width + s.mortise_width_front) / 2
    face = _face(s)
    x = (face - VolumeAt(mouth, s.mortise_from_rear + s.mortise_length / 2)).x + d.bow.face_rear
    plate, liner = (
        VolumeAt((face.volume * sheet.filed_length / s.face_length - mouth) * sheet.thick, x)
        for sheet in (d.plate, d.liner)
    )
    return plate, liner


def _face(s: Head) -> VolumeAt:
    """Return area (mm²) and centroid (mm from the rear edge) of the face's plan.

    Two trapezoids, to the end of the straight sides and to the nose, and two circular segments.
    """
    at, end = s.face_width_front_at, s.face_length
    rear, front, nose = s.width, s.face_width_front, s.nose_width
    # The curve leaves the straight side along it: that turn is half the arc's angle.
    turn = np.arctan2((front - nose) / 2, end - at) - np.arctan2((rear - front) / 2, at)
    radius = np.hypot(end - at, (front - nose) / 2) / (2 * np.sin(turn))
    bows = VolumeAt(radius**2 * (2 * turn - np.sin(2 * turn)), (at + end) / 2)
    return _trapezoid(0.0, at, rear, front) + _trapezoid(at, end, front, nose) + bows


def _trapezoid(
    start: FloatOrArray, end: FloatOrArray, a: FloatOrArray, b: FloatOrArray
) -> VolumeAt:
    long = end - start
    return VolumeAt((a + b) / 2 * long, start + long * (a + 2 * b) / (3 * (a + b)))


def _plug(p: Pattern) -> VolumeAt:
    """Return the plug under the head's plate, the knot above it."""
    d = p.derive(HeadDims)
    s = d.params
    wide = (s.mortise_width + s.mortise_width_front) / 2
    x = d.bow.face_rear + s.mortise_from_rear + s.mortise_length / 2
    return VolumeAt(s.mortise_length * wide * (d.plug_room - d.hair.knot), x)


def _placed(p: Pattern, solid: Solid) -> VolumeAt:
    return VolumeAt(solid.volume, frame(p).along(solid.centre))
