"""Derived dimensions of the eyelet. Frame: the frog's."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.parameters import Dims, Family, FloatOrArray
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.dims import UnderslideDims

#: The thread is drawn as a smooth bore this much wider than the screw (mm).
THREAD_CLEAR = 0.2


@dataclass(frozen=True)
class EyeletDims(Dims):
    """Derived dimensions of the eyelet."""

    params: Eyelet
    screw: Screw
    stick: StickDims
    seat: UnderslideDims
    family: Family

    @property
    def play_in_mortise(self) -> FloatOrArray:
        """Play (mm) of the eyelet in the stick mortise."""
        return self.stick.params.mortise_width - self.params.width

    @property
    def ring_wall(self) -> FloatOrArray:
        """Metal on each side of the thread (mm)."""
        return (self.params.width - self.screw.diameter) / 2

    @property
    def bore(self) -> FloatOrArray:
        """Diameter (mm) of the bore drawn for the thread."""
        return self.screw.diameter + THREAD_CLEAR

    @property
    def body_foot(self) -> FloatOrArray:
        """Height (mm) of the foot of the body, clear of the seat's land and diagonals."""
        at, half = self.params.from_heel, self.params.length / 2
        rear, front = (
            self.seat.land_height(x)
            + np.maximum(0.0, (self.params.width - self.seat.land_at(x)) / 2)
            for x in (at - half, at + half)
        )
        return np.maximum(rear, front)

    @property
    def body_top(self) -> FloatOrArray:
        """Height (mm) of the body's top."""
        return self.seat.axis_height + self.params.height_above_axis

    @property
    def shank_end(self) -> FloatOrArray:
        """Height (mm) at which the shank ends in the ebony."""
        floor = self.seat.land_height(self.params.from_heel) - self.seat.lining
        return floor - self.params.shank_length
