"""Derived dimensions of the button. Frame: x = 0 on the face against the butt, toward the rear."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.button.params import Button, ButtonKind
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes.octagon import CORNERS

#: The screw reaches so far into the button, in parts of its length. Our own choice.
SCREW_IN = 0.6


@dataclass(frozen=True)
class ButtonDims(Dims):
    """Derived dimensions of the button."""

    params: Button
    screw: Screw
    stick: StickDims

    @property
    def three_piece(self) -> bool:
        """Whether it has an ebony core between two rings."""
        return self.params.kind is ButtonKind.THREE_PIECE

    @cached_property
    def core_wall(self) -> FloatOrArray:
        """Least wood or metal (mm) between the counterbore and the sheet, on a flat.

        Where the button narrows toward the rear, it is least at the floor of the counterbore,
        square to the flat; where it widens, in the front face.
        """
        s = self.params
        grows = (s.across_flats_end - s.across_flats) / (2 * s.length)
        face, floor = (
            (self.across_flats(x) - s.counterbore_diameter) / 2 - s.ring_sheet
            for x in (0.0, s.counterbore_depth)
        )
        return np.where(grows > 0.0, face, floor / np.hypot(1.0, grows))

    @cached_property
    def corners(self) -> FloatOrArray:
        """Width (mm) across the corners at the butt, to which the blank is turned."""
        return CORNERS * self.params.across_flats

    @cached_property
    def play_on_nipple(self) -> FloatOrArray:
        """How much wider the counterbore is than the nipple (mm)."""
        return self.params.counterbore_diameter - self.stick.params.nipple_diameter

    @property
    def hole_depth(self) -> FloatOrArray:
        """How far (mm) the screw reaches into the button."""
        return SCREW_IN * self.params.length

    def across_flats(self, x: FloatOrArray) -> FloatOrArray:
        """Return the width across flats (mm) at x; the taper is even."""
        s = self.params
        return s.across_flats + (s.across_flats_end - s.across_flats) * x / s.length
