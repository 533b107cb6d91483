"""How much of the head is seen from the side, ahead of the face's rear edge. Lengths may be arrays.

Frame: the head's, x from the face's rear edge, z from the face.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from templates_gen.parameters import FloatOrArray
from templates_gen.parts.head.dims import HeadDims

Place = tuple[FloatOrArray, FloatOrArray]


def side(d: HeadDims) -> tuple[FloatOrArray, FloatOrArray]:
    """Area (mm²) between the face and the stick's top line and ridge, and its middle (mm).

    Arcs are told by two chords each, the face's rise by a parabola: within 1 part in 200.
    """
    s = d.params
    nose = (s.face_length, s.nose_rise + s.nose_thickness)
    area: FloatOrArray = 0.0
    moment: FloatOrArray = 0.0
    for (ax, az), (bx, bz) in pairwise([(0.0, s.height), d.crown, *_ridge(d), nose]):
        area = area + (bx - ax) * (az + bz) / 2
        moment = moment + (bx - ax) * (az * (2 * ax + bx) + bz * (ax + 2 * bx)) / 6
    risen = s.face_length - d.flat
    under = s.nose_rise * risen / 3
    return area - under, (moment - under * (d.flat + 0.75 * risen)) / (area - under)


def _ridge(d: HeadDims) -> list[Place]:
    """Places along the drawn ridge between crown and nose: over each arc's middle, and its end."""
    arcs = d.ridge
    joints = list(zip(arcs.x, arcs.z, strict=True))
    found: list[Place] = []
    for (start, end), turn in zip(pairwise(joints), arcs.turn, strict=True):
        found += [_midway(start, end, turn), end]
    return found[:-1]


def _midway(a: Place, b: Place, turn: FloatOrArray) -> Place:
    """Over the middle of an arc that turns so far (radians, to the left) from one place to another.

    It stands off the chord by a third more than the arc, for chords to it to bound as much as the
    arc does: two thirds of chord times rise, where chords to the arc's middle bound half.
    """
    dx, dz = b[0] - a[0], b[1] - a[1]
    rise = 4 / 3 * np.tan(turn / 4) / 2  # in parts of the chord, to the right of it
    return (a[0] + b[0]) / 2 + dz * rise, (a[1] + b[1]) / 2 - dx * rise
