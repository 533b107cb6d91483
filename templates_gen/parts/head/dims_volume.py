"""Volume of the head's solid: the drawn outlines, integrated. Frame of ``dims``.

The solid carries a length of bent stick; ``rod`` is that length, ``own`` all the rest.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from templates_gen.mechanics import breaks, gauss, gauss_across
from templates_gen.mechanics.sections import octagon
from templates_gen.parameters import FloatOrArray, Pattern
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import construct
from templates_gen.shapes.octagon import FACET
from templates_gen.shapes.stick_section import SectionKind, blend_section

#: Half the width over which the stick runs on into the head, in parts of its diameter there.
RUNS_ON = 0.46


@dataclass(frozen=True)
class Solid:
    """A volume (mm³) and its first moments (mm⁴) in the head's frame."""

    volume: FloatOrArray
    x: FloatOrArray
    z: FloatOrArray

    @classmethod
    def summed(cls, volumes: FloatOrArray, x: FloatOrArray, z: FloatOrArray) -> Solid:
        """Add up small volumes (mm³) at their places (mm) along the last two axes."""
        return cls(*(np.sum(volumes * v, axis=(-2, -1)) for v in (1.0, x, z)))

    def __add__(self, other: Solid) -> Solid:
        return Solid(self.volume + other.volume, self.x + other.x, self.z + other.z)

    def __sub__(self, other: Solid) -> Solid:
        return Solid(self.volume - other.volume, self.x - other.x, self.z - other.z)

    @property
    def centre(self) -> tuple[FloatOrArray, FloatOrArray, FloatOrArray]:
        """Its centre of volume (mm)."""
        return self.x / self.volume, 0.0, self.z / self.volume


def own(p: Pattern) -> Solid:
    """Integrate the head with plate and liner, less its mortise, without its length of stick."""
    d = p.on_grid().derive(HeadDims)
    with np.errstate(invalid="ignore"):
        return _ahead(d) + _neck(d) - _mortise(d)


def rod(p: Pattern) -> Solid:
    """Integrate the length of bent stick that the head's solid carries.

    Source: Pappus, an area times the way of its centroid, for each slice of the bend.
    """
    d = p.on_grid().derive(HeadDims)
    n = construct(d)
    turn, each = gauss(breaks(0.0 * n.end, n.end))
    # As drawn: the top is one arc, right at both ends and midway.
    ends = [n.under - n.top, *(_thick(d, n.end * share) for share in (0.5, 1.0))]
    u = turn / n.end
    curve = ((1 - u) * (1 - 2 * u), 4 * u * (1 - u), u * (2 * u - 1))
    thick = sum(t * share for t, share in zip(ends, curve, strict=True))
    section = blend_section(d.stick.section, thick, 1.0)
    reach = n.under - thick / 2 - section.centroid
    x = n.centre[0] - reach * np.sin(turn - d.rise)
    z = n.centre[1] - reach * np.cos(turn - d.rise)
    return Solid.summed(section.area * reach * each, x, z)


def _thick(d: HeadDims, turn: FloatOrArray) -> FloatOrArray:
    return d.bow.diameter(d.bow.face_rear - d.camber_radius * turn)


def _ahead(d: HeadDims) -> Solid:
    """Integrate what lies ahead of the face's rear edge.

    The facets fall as far back as down. So the head is cut into strips along that diagonal, from
    its outline above down to the face; along a strip the facets open evenly.
    """
    found = Solid(0.0, 0.0, 0.0)
    for (x, z), step, facet in _upper_outline(d):
        ahead, up = x - d.flat, z - d.face_radius
        root = np.sqrt(np.maximum(2 * d.face_radius**2 - (ahead - up) ** 2, 0.0))
        long = np.minimum(np.where(x - z <= d.flat, z, (ahead + up + root) / 2), x)
        meets = 0.0 * long
        for _ in range(3):  # the place where facet and cheek meet, as a cheek leans little
            facets = (_cheek(d, x - meets, z - meets) - facet) * d.facet_fall
            meets = np.clip(facets, 0.0, np.maximum(long, 0.0))
        down, each = gauss(breaks(0.0 * long, long, meets, z - d.cheek_top))
        half = np.minimum(_cheek(d, x - down, z - down), facet + down / d.facet_fall)
        found += Solid.summed(2 * half * step * each, x - down, z - down)
    return found


def _upper_outline(
    d: HeadDims,
) -> Iterator[tuple[tuple[FloatOrArray, FloatOrArray], FloatOrArray, FloatOrArray]]:
    """Yield points along the stick's top, each arc of the ridge, and the nose.

    With them how far x - z grows at each, and half the width at which the facets begin. The last
    axis but one runs along each piece.
    """
    t, weight = (v[:, None] for v in gauss(breaks(0.0, 1.0, 0.5), 6))
    (cx, cz), (nx, nz) = d.crown, d.nose
    ridge, height = d.params.ridge_width / 2, d.params.height
    yield (t * cx, height + t * (cz - height)), weight * (cx - cz + height), ridge
    arcs = d.ridge
    for i in range(len(arcs.turn)):
        ax, az, bx, bz = (v[j] for j in (i, i + 1) for v in (arcs.x, arcs.z))
        turn = arcs.turn[i] + 1e-12  # a straight piece is an arc that hardly turns
        length, heading = np.hypot(bx - ax, bz - az), np.arctan2(bz - az, bx - ax)
        part = length * np.sin(turn * t / 2) / np.sin(turn / 2)
        along = heading - turn * (1 - t) / 2
        speed, toward = length * turn / 2 / np.sin(turn / 2), heading - turn / 2 + turn * t
        step = weight * speed * (np.cos(toward) - np.sin(toward))
        yield (ax + part * np.cos(along), az + part * np.sin(along)), step, ridge
    fall = nz - d.params.nose_rise
    yield (nx + 0.0 * t, nz - t * fall), weight * fall, np.inf


def _cheek(d: HeadDims, x: FloatOrArray, z: FloatOrArray) -> FloatOrArray:
    """Return half the width (mm) between the cheeks, beside the mortise and above it."""
    s, (cx, cy, r) = d.params, d.nose_curve
    curve = cy + np.sign(r) * np.sqrt(np.maximum(r**2 - (x - cx) ** 2, 0.0))
    plan = np.where(x < s.face_width_front_at, d.half_width(np.maximum(x, 0.0)), curve)
    lower = plan - d.cheek_lean * z
    upper = plan + (d.upper_lean - d.cheek_lean) * d.cheek_top - d.upper_lean * z
    return np.minimum(lower, np.maximum(upper, RUNS_ON * d.stick.diameter_head * np.cos(d.rise)))


def _neck(d: HeadDims) -> Solid:
    """Integrate what lies behind the face's rear edge, outside the stick.

    It is negative where the back leans ahead. The stick's end leans over that edge: its wedge ahead
    of the edge is subtracted.
    """
    n, s = construct(d), d.params
    axis, thick = d.neck_height + d.stick.diameter_head / 2, n.under - n.top
    edges = breaks(0.0 * axis, axis, n.on_back[1], n.on_stick[1], d.neck_height)
    z, high = gauss_across(edges)
    fillet = n.fillet[0] + np.sqrt(np.maximum(s.back_radius**2 - (z - n.fillet[1]) ** 2, 0.0))
    rear = np.where(z < n.on_stick[1], fillet, n.on_stick[0])
    rear = np.where(z < n.on_back[1], z / np.tan(np.radians(s.back_deg)), rear)
    under = n.centre[0] + np.sqrt(np.maximum(n.under**2 - (n.centre[1] - z) ** 2, 0.0))
    stick = np.clip(under, np.minimum(rear, 0.0), np.maximum(rear, 0.0))
    x, long = gauss(np.concatenate(np.broadcast_arrays(rear, stick, 0.0 * rear), axis=-1))
    below = np.hypot(x - n.centre[0], z - n.centre[1]) - (n.top + n.under) / 2
    half = np.maximum(_cheek(d, x, z) - _half_stick(d, thick, below), 0.0)
    web = Solid.summed(2 * np.where(below > 0.0, half, 0.0) * long * high, x, z)
    wedge = octagon(d.stick.diameter_head).area * thick / 2 * np.tan(d.rise)
    return web - Solid.summed(wedge, 0.0, axis)


def _half_stick(d: HeadDims, thick: FloatOrArray, below: FloatOrArray) -> FloatOrArray:
    """Return half the width (mm) of the stick at a depth below its axis; 0 outside it."""
    if d.stick.section is SectionKind.ROUND:
        return np.sqrt(np.maximum(thick**2 / 4 - below**2, 0.0))
    half = thick / 2 - np.maximum(below - FACET * thick / 2, 0.0)
    return np.where(below < thick / 2, half, 0.0)


def _mortise(d: HeadDims) -> Solid:
    """Integrate the mortise, its front wall undercut, from the curved face to its full depth."""
    s, rear = d.params, d.params.mortise_from_rear
    long = d.mortise_front - rear
    tilt = (d.mortise_foot - d.mortise_front) / s.mortise_depth
    grows = (s.mortise_width_front - s.mortise_width) / s.mortise_length
    x, each = gauss(breaks(0.0 * long, long))
    risen = np.maximum(rear + x - d.flat, 0.0)
    face = d.face_radius - np.sqrt(d.face_radius**2 - risen**2)
    edges = breaks(0.0 * s.mortise_depth, s.mortise_depth)
    z, high = gauss_across(edges)
    reach = 1 + tilt * z / long
    wide = s.mortise_width + grows * x * reach
    whole = Solid.summed(wide * each * reach * high, rear + x * reach, z)
    sliver = (s.mortise_width + grows * x) * each * face
    return whole - Solid.summed(sliver, rear + x, face / 2)
