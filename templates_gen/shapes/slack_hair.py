"""The slack hair under the cambered stick: the straight line from frog to head.

Frame: x from the ferrule's front along the straight edge under the stick's ends, toward the head;
z away from the hair. The frog is square to the handle, which slopes down toward the hair; the
head's face is parallel to the hair. Lengths may be arrays.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.geometry import FloatOrArray


@dataclass(frozen=True)
class SlackHair:
    """The line of the slack hair.

    Args:
        rear, front: its ends at the frog and at the head (mm).
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
        """Make the line of the hair under a camber.

        Args:
            chord: length of the straight edge (mm).
            slope: downward slope of the handle to it (mm per mm).
            frog: distance from the handle to the hair, square to the handle (mm).
            head: distance from the underside to the face, square to the face (mm).
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
        """Calculate the distance (mm) of a point above the hair, square to the hair."""
        (x0, z0), slope = self.rear, self.slope
        return (z - z0 - slope * (x - x0)) / np.sqrt(1.0 + slope**2)
