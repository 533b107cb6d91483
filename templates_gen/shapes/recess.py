"""The eye's round recess, bored square to the frog's hollow flank: its extent and clearances.

Frame of the frog: x toward the head, y outward, z up. Lengths may be arrays.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry import FloatOrArray
from templates_gen.shapes.flank import Flank
from templates_gen.shapes.throat import Throat


@dataclass(frozen=True)
class Recess:
    """A round recess.

    Args:
        x, z: its centre on the flank (mm).
        radius, depth: radius and depth of the recess (mm).
        flank: the flank it is bored into.
        throat: the throat ahead of it.
    """

    x: FloatOrArray
    z: FloatOrArray
    radius: FloatOrArray
    depth: FloatOrArray
    flank: Flank
    throat: Throat

    @cached_property
    def shift(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Height (mm) of the centres of floor and rim above the centre on the flank.

        The axis of the recess is tilted as the flank is. The floor shifts one way; the rim, where
        the hollow rises round the recess, shifts the other way.
        """
        sine, hollow = np.sin(self.flank.lean(self.z)), self.flank.radius
        rise = hollow - np.sqrt(np.maximum(hollow**2 - self.radius**2, 0.0))
        return -self.depth * sine, rise * sine

    @cached_property
    def reach(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Lowest and highest point (mm) of the recess, floor and rim."""
        half = self.radius * np.cos(self.flank.lean(self.z))
        low, high = np.minimum(*self.shift), np.maximum(*self.shift)
        return self.z + low - half, self.z + high + half

    @cached_property
    def to_throat(self) -> FloatOrArray:
        """Least distance (mm) from the recess to the throat.

        In side view the recess is an ellipse that shifts up or down with its depth; it is treated
        as a circle here.
        """
        low, high = (self.z + limit(*self.shift) for limit in (np.minimum, np.maximum))
        places = (low, high, np.clip(self.throat.low, low, high))
        gaps = [self.throat.gap(self.x, z) for z in (*places, np.clip(self.throat.high, low, high))]
        least: FloatOrArray = np.minimum.reduce(np.broadcast_arrays(*gaps))
        return least - self.radius
