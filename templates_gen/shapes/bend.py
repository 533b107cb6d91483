"""How much sheet a bend takes.

Source: DIN 6935 (from memory): the neutral line stands k·s/2 from the inner face, with
k = 0.65 + 0.5·log10(r/s) up to r/s = 5 and k = 1, the middle of the sheet, beyond.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray


def neutral_factor(inner_radius: FloatOrArray, sheet: FloatOrArray) -> FloatOrArray:
    """Where the neutral line stands: 0 on the inner face, 1 in the middle of the sheet."""
    # Below r/s = 0.05 the rule would put the line outside the sheet; it stays on the inner face.
    slender = np.maximum(inner_radius / sheet, 0.05)
    return np.clip(0.65 + 0.5 * np.log10(slender), 0.0, 1.0)


def bend_length(
    turn_deg: FloatOrArray, inner_radius: FloatOrArray, sheet: FloatOrArray
) -> FloatOrArray:
    """Length (mm) of flat sheet a bend takes up.

    Args:
        turn_deg: through how much the sheet is bent (degrees).
        inner_radius: radius of the inner face (mm).
        sheet: its thickness (mm).
    """
    neutral = inner_radius + neutral_factor(inner_radius, sheet) * sheet / 2
    return np.radians(turn_deg) * neutral
