"""Tip plate and liner on the head, as bulk. Frame: the stick's. Lengths may be arrays."""

from __future__ import annotations

import numpy as np

from templates_gen.bow.dims.volumes import VolumeAt
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.params import Head


def facings(p: Pattern) -> tuple[VolumeAt, VolumeAt]:
    """Tip plate and liner: the face's plan, laid flat, less the mortise's mouth."""
    d = p.derive(HeadDims)
    s = d.params
    mouth = s.mortise_length * (s.mortise_width + s.mortise_width_front) / 2
    area, middle = _face(s)
    rear = d.bow.face_rear
    x = rear + (area * middle - mouth * (s.mortise_from_rear + s.mortise_length / 2)) / (
        area - mouth
    )
    plate, liner = (
        VolumeAt((area * sheet.filed_length / s.face_length - mouth) * sheet.thick, x)
        for sheet in (d.plate, d.liner)
    )
    return plate, liner


def _face(s: Head) -> tuple[FloatOrArray, FloatOrArray]:
    """Area (mm²) of the face's plan and its middle (mm from the rear edge).

    A trapezoid with straight sides, another to the nose, and the two bows of the nose's curves.
    """
    at, end = s.face_width_front_at, s.face_length
    rear, front, nose = s.width, s.face_width_front, s.nose_width
    first, second = (rear + front) / 2 * at, (front + nose) / 2 * (end - at)
    chord = np.hypot(end - at, (front - nose) / 2)
    # The curve leaves the straight side along it: that turn is half the arc's angle.
    turn = np.arctan2((front - nose) / 2, end - at) - np.arctan2((rear - front) / 2, at)
    radius = chord / (2 * np.sin(turn))
    bows = radius**2 * (2 * turn - np.sin(2 * turn))
    area = first + second + bows
    moment = first * at * (rear + 2 * front) / (3 * (rear + front))
    moment = moment + second * (at + (end - at) * (front + 2 * nose) / (3 * (front + nose)))
    return area, (moment + bows * (at + end) / 2) / area
