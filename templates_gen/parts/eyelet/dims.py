"""Derived dimensions of the eyelet. Frame: the frog's."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.dims import UnderslideDims


@dataclass(frozen=True)
class EyeletDims:
    """Derived dimensions of the eyelet."""

    params: Eyelet
    screw: Screw
    stick: StickDims
    seat: UnderslideDims
    bass: bool

    @classmethod
    def of(cls, p: Pattern) -> EyeletDims:
        return cls(
            p[Eyelet], p[Screw], p.derive(StickDims), p.derive(UnderslideDims), p.family.bass
        )

    @property
    def play_in_mortise(self) -> FloatOrArray:
        """Play (mm) of the eyelet in the stick mortise."""
        return self.stick.params.mortise_width - self.params.width

    @property
    def ring_wall(self) -> FloatOrArray:
        """Metal on each side of the thread (mm)."""
        return (self.params.width - self.screw.diameter) / 2

    @property
    def body_foot(self) -> FloatOrArray:
        """Height (mm) of the foot of the body, clear of the seat's land and diagonals."""
        at, half = self.params.from_heel, self.params.length / 2
        rear, front = (
            self.seat.land_height(x)
            + np.maximum(0.0, (self.params.width - self.seat.land_at(x)) / 2)
            for x in (at - half, at + half)
        )
        foot: FloatOrArray = np.maximum(rear, front)
        return foot

    @property
    def body_top(self) -> FloatOrArray:
        """Height (mm) of the body's top."""
        return self.seat.axis_height + self.params.height_above_axis

    @property
    def shank_end(self) -> FloatOrArray:
        """Height (mm) at which the shank ends in the ebony."""
        floor = self.seat.land_height(self.params.from_heel) - self.seat.lining
        return floor - self.params.shank_length
