"""The frog's hollowed flank: in section one circle through the band, the waist and the top edge.

Frame: y outward from the mid-plane, z up from the bottom plane. Every length may be an array.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.errors import GeometryError
from templates_gen.geometry.arrays import FloatOrArray


@dataclass(frozen=True)
class Flank:
    """The hollow's construction.

    Args:
        heel: half the width (mm) at ``band``.
        waist: least half width (mm).
        top: half the width (mm) at ``edge``.
        band: height (mm) of the straight band below the hollow.
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

        Two chords of one circle, p and q deep at either end, fix it:
        (u² + p²) / 2p = ((H − u)² + q²) / 2q, solved for u without cancellation.
        """
        p, q = self.heel - self.waist, self.top - self.waist
        rise = self.edge - self.band
        # Without a waist there is no such circle: the root, and all after it, is not a number.
        waisted = np.where((p > 0) & (q > 0), p * q, np.nan)
        root = np.sqrt(waisted * (rise**2 + (q - p) ** 2))
        return self.band + p * (rise**2 + q * (q - p)) / (p * rise + root)

    @cached_property
    def radius(self) -> FloatOrArray:
        """Radius (mm) of the hollow."""
        p = self.heel - self.waist
        return ((self.waist_height - self.band) ** 2 + p**2) / (2 * p)

    def circle(self) -> tuple[tuple[float, float], float]:
        """Centre and radius (mm), to draw with; single numbers only.

        Raises:
            GeometryError: there is no waist between band and edge.
        """
        radius = float(self.radius)
        if not 0 < radius < np.inf:
            raise GeometryError("the waist is not narrower than heel and top edges")
        return (float(self.waist) + radius, float(self.waist_height)), radius

    def half_width(self, z: FloatOrArray) -> FloatOrArray:
        """Half width (mm) of the hollow at a height (mm); infinite where it does not reach."""
        r, off = self.radius, z - self.waist_height
        with np.errstate(invalid="ignore"):
            within = self.waist + r - np.sqrt(r**2 - off**2)
        reached: FloatOrArray = np.where(np.abs(off) > r, np.inf, within)
        return reached

    def lean(self, z: FloatOrArray) -> FloatOrArray:
        """How far (radians) the flank's outward direction leans up from level at a height."""
        return np.arcsin((self.waist_height - z) / self.radius)

    def meets(self, half_width: FloatOrArray) -> FloatOrArray:
        """Height (mm), below the waist, at which the hollow is this half width (mm)."""
        reach = self.waist + self.radius - half_width
        return self.waist_height - np.sqrt(self.radius**2 - reach**2)
