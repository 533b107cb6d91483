"""Flat pattern of a sheet that is straight at first and then follows an arc to a vertical end.

The middle of the sheet keeps its length (DIN 6935 for a radius large against the thickness, from
memory). The end of the sheet is cut square, so it leans once bent: the inner side, nearer the arc's
centre, ends first.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.geometry import FloatOrArray

#: A sheet bent by more than this (degrees) ends short of the vertical end. Our own choice.
STEEPEST = 80.0


@dataclass(frozen=True)
class BentSheet:
    """A bent sheet and its flat pattern. Lengths in mm, as numbers or arrays.

    Args:
        straight: length of the straight part.
        radius: radius of the arc.
        end: distance of the vertical end from the start of the straight part.
        top: depth of the sheet's outer side below the arc, toward its centre.
        thick: thickness of the sheet.
    """

    straight: FloatOrArray
    radius: FloatOrArray
    end: FloatOrArray
    top: FloatOrArray
    thick: FloatOrArray

    @property
    def middle(self) -> FloatOrArray:
        """Radius (mm) of the middle of the sheet."""
        return self.radius - self.top - self.thick / 2

    @property
    def inner(self) -> FloatOrArray:
        """Radius (mm) of the inner side; at least what reaches the end at ``STEEPEST``."""
        least = (self.end - self.straight) / np.sin(np.radians(STEEPEST))
        return np.maximum(self.radius - self.top - self.thick, least)

    def flat_at(self, x: FloatOrArray) -> FloatOrArray:
        """Map x of a point on the inner side, along the straight part, to the flat sheet (mm)."""
        bent = np.maximum(x - self.straight, 0.0)
        return np.minimum(x, self.straight) + self.middle * np.arcsin(bent / self.inner)

    def stretch_at(self, x: FloatOrArray) -> FloatOrArray:
        """Calculate the derivative of ``flat_at`` by x."""
        bent = x - self.straight
        risen = np.sqrt(self.inner**2 - np.maximum(bent, 0.0) ** 2)
        return np.where(bent > 0.0, self.middle / risen, 1.0)

    @property
    def length(self) -> FloatOrArray:
        """Length (mm) of the flat sheet whose end reaches the vertical end on both sides."""
        return self.flat_at(self.end)

    @property
    def filed_length(self) -> FloatOrArray:
        """Length (mm) along the middle when the end is filed vertical."""
        bent = np.minimum((self.end - self.straight) / self.middle, 1.0)
        return self.straight + self.middle * np.arcsin(bent)
