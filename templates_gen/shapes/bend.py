"""Bend allowance of sheet.

Source: DIN 6935 (from memory): the neutral line is k·s/2 from the inner face, with
k = 0.65 + 0.5·log10(r/s) up to r/s = 5 and k = 1, the middle of the sheet, beyond.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry import FloatOrArray


def neutral_factor(inner_radius: FloatOrArray, sheet: FloatOrArray) -> FloatOrArray:
    """Calculate the factor k of the neutral line: 0 on the inner face, 1 in the sheet's middle.

    Args: as for ``bend_length``.
    """
    # Below r/s = 0.05 the formula would put the line outside the sheet; keep it on the inner face.
    ratio = np.maximum(inner_radius / sheet, 0.05)
    return np.clip(0.65 + 0.5 * np.log10(ratio), 0.0, 1.0)


def bend_length(
    turn_deg: FloatOrArray, inner_radius: FloatOrArray, sheet: FloatOrArray
) -> FloatOrArray:
    """Calculate the bend allowance: the length (mm) of flat sheet in a bend.

    Args:
        turn_deg: bend angle (degrees).
        inner_radius: radius of the inner face (mm).
        sheet: thickness (mm).
    """
    neutral = inner_radius + neutral_factor(inner_radius, sheet) * sheet / 2
    return np.radians(turn_deg) * neutral
