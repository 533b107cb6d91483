"""Integrate over lengths that may be arrays: Gauss-Legendre points between breaks."""

from __future__ import annotations

from functools import cache

import numpy as np

from templates_gen.geometry import FloatOrArray, Floats

_rule = cache(np.polynomial.legendre.leggauss)


def breaks(start: FloatOrArray, end: FloatOrArray, *between: FloatOrArray) -> Floats:
    """Return start, end and the places between them that lie within, rising, on the last axis."""
    own = np.broadcast_arrays(
        *(np.atleast_1d(np.asarray(v, float)) for v in (start, end, *between))
    )
    edges: Floats = np.concatenate(own, axis=-1)
    return np.sort(np.clip(edges, own[0], np.maximum(own[0], own[1])), axis=-1)


def gauss(edges: Floats, order: int = 4) -> tuple[Floats, Floats]:
    """Return points between each two neighbouring edges and their weights, on the last axis.

    Args:
        edges: places (mm) on the last axis; a step back counts below zero.
        order: points in each step: exact for polynomials of degree 2 · order - 1.

    Source: Gauss-Legendre quadrature; any handbook of numerical analysis.
    """
    points, weights = _rule(order)
    half = np.diff(edges)[..., None] / 2
    shape = (*half.shape[:-2], -1)
    places = (edges[..., :-1, None] + half * (1 + points)).reshape(shape)
    return places, (half * weights).reshape(shape)


def gauss_across(edges: Floats, order: int = 4) -> tuple[Floats, Floats]:
    """Return points and weights as ``gauss`` does, on the last axis but one."""
    points, weights = gauss(edges, order)
    return np.swapaxes(points, -1, -2), np.swapaxes(weights, -1, -2)
