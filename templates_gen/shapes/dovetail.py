"""The dovetail of slide and channel: wider in the wood than at the face one sees."""

from __future__ import annotations

import math

import numpy as np

from templates_gen.geometry import Path, polygon
from templates_gen.geometry.arrays import FloatOrArray


def floor_width(face: FloatOrArray, depth: FloatOrArray, flank_deg: FloatOrArray) -> FloatOrArray:
    """Width (mm) at the channel's floor.

    Args:
        face: width at the face (mm).
        depth: how deep the dovetail is (mm).
        flank_deg: its flanks from the upright (degrees).
    """
    return face + 2 * depth * np.tan(np.radians(flank_deg))


def section(face: float, depth: float, flank_deg: float) -> Path:
    """The section across: the face on y = 0, the floor at y = depth, middle on x = 0."""
    half, over = face / 2, depth * math.tan(math.radians(flank_deg))
    return polygon([(-half, 0.0), (half, 0.0), (half + over, depth), (-half - over, depth)])
