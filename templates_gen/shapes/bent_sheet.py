"""A sheet that lies straight and then follows an arc, up to an upright end; and the same laid flat.

The middle of the sheet keeps its length (DIN 6935 for a bend wide beside the sheet, from memory).
The end of the sheet is cut square, so once bent it leans: the side nearer the arc's centre, here
called the deeper one, ends first.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray

#: A sheet bent farther than this (degrees) ends short of the upright end. Our own choice.
STEEPEST = 80.0


@dataclass(frozen=True)
class BentSheet:
    """Where places on the bent sheet lie on the flat one. All lengths in mm; arrays may be given.

    Args:
        straight: length of the straight part.
        radius: of the arc it follows, to whose straight part depths are square.
        end: how far the upright end stands from the straight part's beginning.
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
        """Radius of the middle of the sheet."""
        return self.radius - self.top - self.thick / 2

    @property
    def deeper(self) -> FloatOrArray:
        """Radius of the deeper side; no less than what reaches the end at ``STEEPEST``."""
        least = (self.end - self.straight) / np.sin(np.radians(STEEPEST))
        radius: FloatOrArray = np.maximum(self.radius - self.top - self.thick, least)
        return radius

    def flat_at(self, x: FloatOrArray) -> FloatOrArray:
        """Where on the flat sheet the deeper side reaches x, measured along the straight part."""
        bent = np.maximum(x - self.straight, 0.0)
        return np.minimum(x, self.straight) + self.middle * np.arcsin(bent / self.deeper)

    def stretch_at(self, x: FloatOrArray) -> FloatOrArray:
        """How much faster ``flat_at`` grows than x."""
        bent = x - self.straight
        risen = np.sqrt(self.deeper**2 - np.maximum(bent, 0.0) ** 2)
        return np.where(bent > 0.0, self.middle / risen, 1.0)

    @property
    def length(self) -> FloatOrArray:
        """Length of the flat sheet whose whole end reaches the upright end."""
        return self.flat_at(self.end)

    @property
    def filed_length(self) -> FloatOrArray:
        """Length along the middle when its end is filed upright."""
        bent = np.minimum((self.end - self.straight) / self.middle, 1.0)
        return self.straight + self.middle * np.arcsin(bent)
