"""Derived dimensions of the bending form.

Frame: x = 0 over the ferrule's front, toward the head, along the straight edge between the ends of
the camber; z away from the hair. The stick's underside lies below that edge by its camber.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.parameters import Dims, FloatOrArray
from templates_gen.parts.form.params import Form
from templates_gen.parts.stick.dims import StickDims

#: Wood (mm) between clamping edge and clamp holes; half a hole diameter is added. Common practice,
#: no source.
HOLE_EDGE = 6.0


@dataclass(frozen=True)
class FormDims(Dims):
    """Derived dimensions of the form. Its curves are in ``dims_curves``."""

    params: Form
    stick: StickDims

    @cached_property
    def edge_rise(self) -> FloatOrArray:
        """Height (mm) of the bending edge's higher end above its deepest point.

        The middle line of the stick is over-bent below the line between its ends; the edge is half
        the thickness above it.
        """
        s, camber, start = self.stick.params, self.stick.camber, self.stick.frog.front_at_play
        rear, head = self.stick.diameter(start), self.stick.diameter(start + self.stick.chord)
        there = self.stick.diameter(start + camber.deepest * self.stick.chord)
        line = (rear + (head - rear) * camber.deepest) / 2
        middle = line - s.over_bend * (line + s.camber_depth - there / 2)
        return np.maximum(rear, head) - (middle + there / 2)

    @cached_property
    def over_edge(self) -> FloatOrArray:
        """Least wood (mm) between bending edge and clamp holes, at the thin end of the board."""
        return self.params.depth - self.edge_rise - self.hole_row - self.params.hole_diameter / 2

    @cached_property
    def hole_row(self) -> FloatOrArray:
        """Distance (mm) from the clamping edge to the centres of the holes."""
        return self.params.hole_diameter + HOLE_EDGE
