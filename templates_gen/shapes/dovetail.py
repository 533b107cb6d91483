"""The dovetail of slide and channel: wider at the channel's floor than at the face."""

from __future__ import annotations

import math

import numpy as np

from templates_gen.geometry import FloatOrArray, Path, polygon


def floor_width(face: FloatOrArray, depth: FloatOrArray, flank_deg: FloatOrArray) -> FloatOrArray:
    """Calculate the width (mm) at the channel's floor.

    Args:
        face: width at the face (mm).
        depth: depth of the dovetail (mm).
        flank_deg: angle of the flanks from the normal of the face (degrees).
    """
    return face + 2 * depth * np.tan(np.radians(flank_deg))


def section(face: float, depth: float, flank_deg: float) -> Path:
    """Draw the cross-section: face on y = 0, floor at y = depth, middle on x = 0.

    Args: as for ``floor_width``.
    """
    half, over = face / 2, depth * math.tan(math.radians(flank_deg))
    return polygon([(-half, 0.0), (half, 0.0), (half + over, depth), (-half - over, depth)])
