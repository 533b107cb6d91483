"""The curves of a cambered stick, and of the form's edge, in the frame of ``dims``.

Positions along the stick are arc lengths along its finished underside, which keeps its length when
the stick is bent; thickness is offset square to the curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from templates_gen.geometry import Floats, Path, Point
from templates_gen.geometry.curve import spline_through
from templates_gen.geometry.fit import Fit, fit
from templates_gen.parameters import Pattern
from templates_gen.parts.form.dims import FormDims
from templates_gen.parts.head.dims import HeadDims

#: Number of points at which a curve is calculated; a smooth spline joins them.
PLACES = 401

#: Length (mm) of the form's head piece, back from the head's face.
HEAD_PIECE = 100.0


@lru_cache(maxsize=32)
def _fitted(points: tuple[Point, ...]) -> Fit:
    """Fit arcs through points; cached, because several sheets show the same curve."""
    return fit(spline_through(points))


@dataclass(frozen=True)
class Curve:
    """A curve given by many points, x rising (mm)."""

    x: Floats
    z: Floats

    @cached_property
    def fitted(self) -> Fit:
        """The curve as arcs, with the error of the fit."""
        return _fitted(tuple((float(a), float(b)) for a, b in zip(self.x, self.z, strict=True)))

    @property
    def path(self) -> Path:
        """The curve as arcs."""
        return self.fitted.path

    @property
    def along(self) -> Floats:
        """Length of the curve from its start to each point (mm)."""
        steps = np.hypot(np.diff(self.x), np.diff(self.z))
        return np.concatenate([[0.0], np.cumsum(steps)])

    def squeezed(self, by: float) -> Curve:
        """Scale the curve along x about its start; its heights stay."""
        return Curve(self.x[0] + by * (self.x - self.x[0]), self.z)

    def height(self, x: float) -> float:
        """Return the height at x (mm), within 0.0001 mm; straight beyond either end."""
        within = float(np.clip(x, self.x[0], self.x[-1]))
        a, b = (0, 1) if x <= self.x[0] else (-2, -1)
        slope = float((self.z[b] - self.z[a]) / (self.x[b] - self.x[a]))
        return float(np.interp(within, self.x, self.z)) + (x - within) * slope

    def aside(self, by: Floats) -> Curve:
        """Offset the curve by a thickness square to it, away from the hair."""
        slope = np.gradient(self.z, self.x, edge_order=2)
        size = np.hypot(1.0, slope)
        return Curve(self.x - by * slope / size, self.z + by / size)


def underside(p: Pattern) -> Curve:
    """Return the underside of the cambered stick, without over-bend."""
    d = p.scalars(FormDims)
    x = np.linspace(0.0, d.stick.chord, PLACES)
    return Curve(x, np.array([-d.stick.camber.at(v)[0] for v in x]))


def places(p: Pattern) -> Floats:
    """Return positions along the stick (mm from the butt's shoulder) of the points."""
    d = p.scalars(FormDims)
    return d.stick.frog.front_at_play + underside(p).along


def thickness(p: Pattern, oversize: float = 0.0) -> Floats:
    """Return the stick's thickness (mm) at the underside's points."""
    return np.asarray(p.scalars(FormDims).stick.diameter(places(p))) + oversize


def top(p: Pattern, oversize: float = 0.0) -> Curve:
    """Return the top of the cambered stick, which lies against the form."""
    return underside(p).aside(thickness(p, oversize))


def axis(p: Pattern) -> Curve:
    """Return the over-bent middle line: its depth below the line between its ends, scaled up.

    Bent deeper, its ends come closer together, because the underside keeps its length.
    """
    d = p.scalars(FormDims)
    half = thickness(p) / 2
    middle = underside(p).aside(half)
    line = np.interp(middle.x, middle.x[[0, -1]], middle.z[[0, -1]])
    over = Curve(middle.x, line + d.stick.params.over_bend * (middle.z - line))
    run = d.stick.run
    # Each round divides the error by a hundred.
    for _ in range(6):
        over = over.squeezed(run / over.aside(-half).along[-1])
    return over


def edge(p: Pattern) -> Curve:
    """Return the bending edge: the top of the over-bent stick, at its thickness when it is bent."""
    d = p.scalars(FormDims)
    return axis(p).aside(thickness(p, d.stick.params.bent_oversize) / 2)


def head_edge(p: Pattern) -> Path:
    """Return the head end of the bending edge, in the frame of the head.

    Over the face's rear edge, at (0, 0), it rises toward the head at the head's own angle.
    """
    whole = edge(p).path
    tail = whole.part(whole.length - HEAD_PIECE, whole.length)
    (x, z), (u, v) = tail.end, tail.segments[-1].tangent(1.0)
    turn = p.scalars(HeadDims).rise - math.atan2(v, u)
    return tail.rotated(turn, (x, z)).moved(-x, -z)
