"""The slack hair under the bent stick: the straight line from frog to head.

Frame: x = 0 over the ferrule's front, along the straight edge under the stick's ends, toward the
head; z away from the hair. The frog stands square to the handle, which points down toward the
hair; the head's face runs as the hair does. Lengths may be arrays.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray


@dataclass(frozen=True)
class SlackHair:
    """The line of the hair.

    Args:
        rear, front: where it leaves the frog and where it meets the head (mm).
    """

    rear: tuple[FloatOrArray, FloatOrArray]
    front: tuple[FloatOrArray, FloatOrArray]

    @classmethod
    def under(
        cls,
        chord: FloatOrArray,
        slope: FloatOrArray,
        frog: FloatOrArray,
        head: FloatOrArray,
        hair: FloatOrArray,
    ) -> SlackHair:
        """The hair under a camber.

        Args:
            chord: length of the straight edge (mm).
            slope: of the handle to it, downward (mm per mm).
            frog: from the handle to the hair, square to the handle (mm).
            head: from the underside to the face, square to the face (mm).
            hair: playing length (mm).
        """
        lean, droop = np.arctan(slope), np.arctan((head - frog) / hair)
        rear = -frog * np.sin(lean), -frog * np.cos(lean)
        return cls(rear, (chord - head * np.sin(droop), -head * np.cos(droop)))

    @property
    def slope(self) -> FloatOrArray:
        """Rise toward the head (mm per mm)."""
        (x0, z0), (x1, z1) = self.rear, self.front
        return (z1 - z0) / (x1 - x0)

    def below(self, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
        """How far the hair is below a place, square to the hair (mm)."""
        (x0, z0), slope = self.rear, self.slope
        return (z - z0 - slope * (x - x0)) / np.sqrt(1.0 + slope**2)
