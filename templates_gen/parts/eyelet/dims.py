"""What follows from the eyelet. Frame: the frog's."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.eyelet.params import Eyelet
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.underslide.dims import UnderslideDims


@dataclass(frozen=True)
class EyeletDims:
    """Derived dimensions of the eyelet."""

    stated: Eyelet
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
    def play_in_mortise(self) -> Num:
        """How much wider the stick mortise is than the eyelet (mm)."""
        return self.stick.stated.mortise_width - self.stated.width

    @property
    def ring_wall(self) -> Num:
        """Metal on each side of the thread (mm)."""
        return (self.stated.width - self.screw.diameter) / 2

    @property
    def body_foot(self) -> Num:
        """Height (mm) of the body's foot, clear of the seat's land and diagonals."""
        at, half = self.stated.from_heel, self.stated.length / 2
        rear, front = (
            self.seat.land_height(x)
            + np.maximum(0.0, (self.stated.width - self.seat.land_at(x)) / 2)
            for x in (at - half, at + half)
        )
        foot: Num = np.maximum(rear, front)
        return foot

    @property
    def body_top(self) -> Num:
        """Height (mm) of the body's top."""
        return self.seat.axis_height + self.stated.height_above_axis

    @property
    def shank_end(self) -> Num:
        """Height (mm) at which the shank ends in the ebony."""
        floor = self.seat.land_height(self.stated.from_heel) - self.seat.lining
        return floor - self.stated.shank_length
