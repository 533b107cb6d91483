"""The eye's round recess in the frog's hollowed flank, square to it: how far it reaches.

Frame of the frog: x toward the head, y outward, z up. Every length may be an array.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.shapes.flank import Flank
from templates_gen.shapes.throat import Throat


@dataclass(frozen=True)
class Recess:
    """The recess's construction.

    Args:
        x, z: place of its middle on the flank (mm).
        radius, depth: of the recess (mm).
        flank: the hollow it is sunk into.
        throat: the hollow ahead of it.
    """

    x: FloatOrArray
    z: FloatOrArray
    radius: FloatOrArray
    depth: FloatOrArray
    flank: Flank
    throat: Throat

    @cached_property
    def shift(self) -> tuple[FloatOrArray, FloatOrArray]:
        """How far up (mm) the middles of floor and rim stand from the middle on the flank.

        The recess leans as the flank does: its floor one way, its rim, where the hollow rises
        about it, the other.
        """
        sine, big = np.sin(self.flank.lean(self.z)), self.flank.radius
        rises = big - np.sqrt(np.maximum(big**2 - self.radius**2, 0.0))
        return -self.depth * sine, rises * sine

    @cached_property
    def reach(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Lowest and highest place (mm) of the recess, floor and rim."""
        half = self.radius * np.cos(self.flank.lean(self.z))
        low, high = np.minimum(*self.shift), np.maximum(*self.shift)
        return self.z + low - half, self.z + high + half

    @cached_property
    def to_throat(self) -> FloatOrArray:
        """Least distance (mm) from the recess to the throat.

        Seen from the side it is an ellipse that moves up or down as it goes in; taken as round.
        """
        low, high = (self.z + limit(*self.shift) for limit in (np.minimum, np.maximum))
        places = (low, high, np.clip(self.throat.low, low, high))
        gaps = [self.throat.gap(self.x, z) for z in (*places, np.clip(self.throat.high, low, high))]
        least: FloatOrArray = np.minimum.reduce(np.broadcast_arrays(*gaps))
        return least - self.radius
