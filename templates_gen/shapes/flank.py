"""The frog's hollow flank: in section a circle through the band, the waist and the top edge.

Frame: y outward from the mid-plane, z up from the bottom plane. Lengths may be arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry import FloatOrArray


@dataclass(frozen=True)
class Flank:
    """A hollow flank.

    Args:
        heel: half width (mm) at ``band``.
        waist: least half width (mm).
        top: half width (mm) at ``edge``.
        band: height (mm) of the flat band below the hollow.
        edge: height (mm) of the top edge.
    """

    heel: FloatOrArray
    waist: FloatOrArray
    top: FloatOrArray
    band: FloatOrArray
    edge: FloatOrArray

    @cached_property
    def waist_height(self) -> FloatOrArray:
        """Height (mm) of the waist.

        The circle has the sagittas p and q at its ends:
        (u² + p²) / 2p = ((H − u)² + q²) / 2q, solved for u without cancellation.
        """
        p, q = self.heel - self.waist, self.top - self.waist
        rise = self.edge - self.band
        # Without a waist there is no circle: the root and everything after it is NaN.
        waisted = np.where((p > 0) & (q > 0), p * q, np.nan)
        root = np.sqrt(waisted * (rise**2 + (q - p) ** 2))
        return self.band + p * (rise**2 + q * (q - p)) / (p * rise + root)

    @cached_property
    def radius(self) -> FloatOrArray:
        """Radius (mm) of the hollow."""
        p = self.heel - self.waist
        return ((self.waist_height - self.band) ** 2 + p**2) / (2 * p)

    def circle(self) -> tuple[tuple[float, float], float]:
        """Return centre and radius (mm) for drawing; for single numbers only.

        Raises:
            GeometryError: the waist is not narrower than both edges.
        """
        radius = float(self.radius)
        if not 0 < radius < np.inf:
            raise GeometryError("the waist is not narrower than heel and top edges")
        return (float(self.waist) + radius, float(self.waist_height)), radius

    def half_width(self, z: FloatOrArray) -> FloatOrArray:
        """Calculate the half width (mm) at a height (mm); infinite outside the circle."""
        r, off = self.radius, z - self.waist_height
        with np.errstate(invalid="ignore"):
            within = self.waist + r - np.sqrt(r**2 - off**2)
        return np.where(np.abs(off) > r, np.inf, within)

    def lean(self, z: FloatOrArray) -> FloatOrArray:
        """Calculate the angle (radians) of the outward normal above horizontal at a height (mm)."""
        return np.arcsin((self.waist_height - z) / self.radius)

    def meets(self, half_width: FloatOrArray) -> FloatOrArray:
        """Find the height (mm), below the waist, of a given half width (mm)."""
        reach = self.waist + self.radius - half_width
        return self.waist_height - np.sqrt(self.radius**2 - reach**2)
