"""Measured points as a chain of straight pieces: how near it comes, how sharply it turns."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from templates_gen.shapes.arch import Num

Table = Sequence[tuple[Num, Num]]


def depth(table: Table, x: Num, z: Num) -> Num:
    """Distance (mm) of a place, or many, from the chain; above it, below nought.

    The chain is carried on level from its first point, backward: under that is below it too.
    """
    return depth_and_slope(table, x, z)[0]


def depth_and_slope(table: Table, x: Num, z: Num) -> tuple[Num, Num, Num]:
    """The depth (mm), and how it grows for each mm forward and for each mm up."""
    first_x, first_z = table[0]
    least: Num = np.inf + 0.0 * np.asarray(x)
    along = up = least
    below = (x < first_x) & (z < first_z)
    for (ax, az), (bx, bz) in pairwise(table):
        dx, dz = bx - ax, bz - az
        t = np.clip(((x - ax) * dx + (z - az) * dz) / (dx * dx + dz * dz), 0.0, 1.0)
        from_x, from_z = x - ax - t * dx, z - az - t * dz
        far = np.hypot(from_x, from_z)
        nearer = far < least
        least, along, up = (
            np.where(nearer, new, old) for new, old in ((far, least), (from_x, along), (from_z, up))
        )
        with np.errstate(divide="ignore", invalid="ignore"):
            over = az + (x - ax) * dz / dx
        below = below ^ (((ax > x) != (bx > x)) & (z < over))
    signed = np.where(below, least, -least)
    with np.errstate(divide="ignore", invalid="ignore"):
        return signed, along / signed, up / signed


def sharpest(table: Table) -> float:
    """Least radius (mm) of the circles through any three neighbours."""
    p = np.array(table, dtype=float)
    a, b, c = (
        np.hypot(*(q - r).T) for q, r in ((p[1:-1], p[:-2]), (p[2:], p[1:-1]), (p[2:], p[:-2]))
    )
    u, v = p[1:-1] - p[:-2], p[2:] - p[:-2]
    twice = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    with np.errstate(divide="ignore"):
        return float((a * b * c / (2 * twice)).min())
