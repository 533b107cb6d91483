"""What follows from eyelet and screw. Frame: the stick's."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.parameters import Num, Pattern
from templates_gen.parts.eyelet.params import Eyelet, Screw
from templates_gen.parts.stick.dims import StickDims


@dataclass(frozen=True)
class EyeletDims:
    """Derived dimensions of eyelet and screw."""

    stated: Eyelet
    screw: Screw
    stick: StickDims
    bass: bool

    @classmethod
    def of(cls, p: Pattern) -> EyeletDims:
        return cls(p[Eyelet], p[Screw], p.derive(StickDims), p.family.bass)

    @property
    def play_in_mortise(self) -> Num:
        """How much wider the stick mortise is than the eyelet (mm)."""
        return self.stick.stated.mortise_width - self.stated.width

    @property
    def ring_wall(self) -> Num:
        """Metal on each side of the thread (mm)."""
        return (self.stated.width - self.screw.diameter) / 2

    @property
    def tip_in_bearing(self) -> Num:
        """How far the screw's plain tip reaches into the front bore (mm)."""
        return self.screw.length - self.stick.mortise_front
