"""The curves of a cambered stick, and of the form's edge, in the frame of ``dims``.

A place along the stick is arc length along its finished underside, which keeps its length however
far the stick is bent; thickness is laid off square to the curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from templates_gen.geometry import Path, Point
from templates_gen.geometry.curve import spline_through
from templates_gen.geometry.fit import Fit, fit
from templates_gen.parameters import Pattern
from templates_gen.parts.form.dims import FormDims
from templates_gen.parts.head.dims import HeadDims

#: Places along the hair at which a curve is reckoned; between them it runs as a smooth spline.
PLACES = 401

#: How far back from the head's face its own piece of the form reaches (mm).
HEAD_PIECE = 100.0

Row = NDArray[np.float64]


@lru_cache(maxsize=32)
def _fitted(points: tuple[Point, ...]) -> Fit:
    """Several sheets show the same curve, and a watched one seldom changes."""
    return fit(spline_through(points))


@dataclass(frozen=True)
class Curve:
    """A curve by many of its points, x rising (mm)."""

    x: Row
    z: Row

    @cached_property
    def fitted(self) -> Fit:
        """The curve as arcs, with how well they serve."""
        return _fitted(tuple((float(a), float(b)) for a, b in zip(self.x, self.z, strict=True)))

    @property
    def path(self) -> Path:
        """The curve as arcs."""
        return self.fitted.path

    @property
    def along(self) -> Row:
        """Length of the curve from its start to each point (mm)."""
        steps = np.hypot(np.diff(self.x), np.diff(self.z))
        return np.concatenate([[0.0], np.cumsum(steps)])

    def squeezed(self, by: float) -> Curve:
        """The curve drawn together lengthwise, toward its start, as high as before."""
        return Curve(self.x[0] + by * (self.x - self.x[0]), self.z)

    def height(self, x: float) -> float:
        """Height at x (mm), to a ten-thousandth; beyond either end straight on."""
        within = float(np.clip(x, self.x[0], self.x[-1]))
        a, b = (0, 1) if x <= self.x[0] else (-2, -1)
        slope = float((self.z[b] - self.z[a]) / (self.x[b] - self.x[a]))
        return float(np.interp(within, self.x, self.z)) + (x - within) * slope

    def aside(self, by: Row) -> Curve:
        """The curve that stands off this one by a thickness square to it, away from the hair."""
        slope = np.gradient(self.z, self.x, edge_order=2)
        size = np.hypot(1.0, slope)
        return Curve(self.x - by * slope / size, self.z + by / size)


def underside(p: Pattern) -> Curve:
    """The underside of the cambered stick, without over-bend."""
    d = p.derive(FormDims)
    x = np.linspace(0.0, float(d.stick.chord), PLACES)
    return Curve(x, np.array([-d.stick.camber.at(v)[0] for v in x]))


def places(p: Pattern) -> Row:
    """Places along the stick (mm from the butt's shoulder) of the underside's points."""
    d = p.derive(FormDims)
    return float(d.stick.frog.front_at_play) + underside(p).along


def thickness(p: Pattern, oversize: float = 0.0) -> Row:
    """The stick's thickness (mm) at the underside's points."""
    return np.asarray(p.derive(FormDims).stick.diameter(places(p))) + oversize


def top(p: Pattern, oversize: float = 0.0) -> Curve:
    """The top of the cambered stick, the side that lies on the form."""
    return underside(p).aside(thickness(p, oversize))


def axis(p: Pattern) -> Curve:
    """The stick's middle line, over-bent: its depth below its own ends' straight line, enlarged.

    Bent deeper its ends come nearer to each other, for the underside keeps its length.
    """
    d = p.derive(FormDims)
    half = thickness(p) / 2
    middle = underside(p).aside(half)
    line = np.interp(middle.x, middle.x[[0, -1]], middle.z[[0, -1]])
    over = Curve(middle.x, line + float(d.stick.params.over_bend) * (middle.z - line))
    run = float(d.stick.run)
    # Each round makes the error a hundredth.
    for _ in range(6):
        over = over.squeezed(run / over.aside(-half).along[-1])
    return over


def edge(p: Pattern) -> Curve:
    """The form's edge: the over-bent stick's top at the thickness at which it is bent."""
    d = p.derive(FormDims)
    return axis(p).aside(thickness(p, float(d.stick.params.bent_oversize)) / 2)


def head_edge(p: Pattern) -> Path:
    """The last of the form's edge, turned to the head's frame.

    Over the face's rear edge, at (0, 0), it rises toward the head by the head's own angle.
    """
    whole = edge(p).path
    tail = whole.part(whole.length - HEAD_PIECE, whole.length)
    (x, z), (u, v) = tail.end, tail.segments[-1].tangent(1.0)
    turn = float(p.derive(HeadDims).rise) - math.atan2(v, u)
    return tail.rotated(turn, (x, z)).moved(-x, -z)
