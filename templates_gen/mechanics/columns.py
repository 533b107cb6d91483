"""Sticks under the hair's tension as eccentrically loaded columns, many at once.

Finite differences at equally spaced stations, fast enough for all tolerance corners of a check. The
last axis runs along the stick.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry import Floats

#: So many iterations bring the buckling load to a millionth: each divides the error by sixteen.
_ITERATIONS = 6


def buckling_loads(stiffness: Floats, length: Floats) -> Floats:
    """Calculate the buckling load (N) of each stick.

    Args:
        stiffness: bending stiffness EI (N mm²) at equally spaced stations, ends included.
        length: distance between the hinges (mm).

    Source: Euler's column of any taper; Vianello's iteration with Rayleigh's quotient.
    """
    flexibility = 1 / stiffness
    shape = np.broadcast_to(np.sin(np.linspace(0, np.pi, stiffness.shape[-1])), flexibility.shape)
    load = np.zeros(flexibility.shape[:-1])
    step = _step(flexibility, length)
    for _ in range(_ITERATIONS):
        curvature = flexibility * shape
        deflection = _integrated_twice(_numerov_mean(curvature) * step[..., None] ** 2)
        load = np.sum(shape * curvature, axis=-1) / np.sum(deflection * curvature, axis=-1)
        shape = deflection / np.max(deflection, axis=-1, keepdims=True)
    return load


def heights_under_tension(
    stiffness: Floats, unstrung: Floats, length: Floats, pull: Floats
) -> Floats:
    """Calculate the height (mm) of each stick's axis above the hair line under tension.

    Args:
        stiffness: bending stiffness EI (N mm²) at equally spaced stations, ends included.
        unstrung: height without tension at those stations (mm); at the ends it does not change.
        length: distance between the hinges (mm).
        pull: hair tension (N).

    Source: EI (y″ − y₀″) = −T y, small slopes; Numerov's method on three neighbouring stations.
    """
    stiffness, unstrung = np.broadcast_arrays(stiffness, unstrung)
    step = _step(stiffness, length)[..., None]
    share = np.asarray(pull)[..., None] * step**2 / stiffness / 12
    given = -_numerov_mean(share * unstrung) * 12
    # The equation of a station: (1 + share) v of both neighbours, −(2 − 10 share) v of its own.
    return unstrung + _tridiagonal(1 + share, 10 * share - 2, given)


def _tridiagonal(beside: Floats, here: Floats, given: Floats) -> Floats:
    """Solve a tridiagonal system for the inner stations, with 0 at both ends."""
    last = here.shape[-1] - 1
    ratio, part, solution = (np.zeros_like(here) for _ in range(3))
    for i in range(1, last):
        pivot = here[..., i] - beside[..., i - 1] * ratio[..., i - 1]
        ratio[..., i] = beside[..., i + 1] / pivot
        # given[i − 1] belongs to the inner station i.
        part[..., i] = (given[..., i - 1] - beside[..., i - 1] * part[..., i - 1]) / pivot
    for i in range(last - 1, 0, -1):
        solution[..., i] = part[..., i] - ratio[..., i] * solution[..., i + 1]
    return solution


def _numerov_mean(along: Floats) -> Floats:
    """Calculate Numerov's mean of each inner station with its neighbours, weighted 1 : 10 : 1."""
    return (along[..., :-2] + 10 * along[..., 1:-1] + along[..., 2:]) / 12


def _integrated_twice(bend: Floats) -> Floats:
    """Integrate the bend at the inner stations twice, downward positive, with 0 at both ends."""
    zero = np.zeros((*bend.shape[:-1], 1))
    slope = np.concatenate([zero, np.cumsum(bend, axis=-1)], axis=-1)
    deflection = np.concatenate([zero, np.cumsum(slope, axis=-1)], axis=-1)
    chord = deflection[..., -1:] * np.linspace(0, 1, deflection.shape[-1])
    sag: Floats = chord - deflection
    return sag


def _step(along: Floats, length: Floats) -> Floats:
    """Calculate the distance between stations (mm), one per stick."""
    step = np.asarray(length, float) / (along.shape[-1] - 1)
    return np.broadcast_to(step, along.shape[:-1])
