"""Many sticks under the hair's pull at once: every corner of the tolerances in one call.

What ``column`` works out for one stick, on evenly spaced places and so quick enough for checks.
The last axis runs along the stick.
"""

from __future__ import annotations

import numpy as np

from templates_gen.geometry.arrays import Floats

#: So many rounds bring the buckling load to a millionth: each makes its error a sixteenth.
_ROUNDS = 6


def buckling_loads(stiffness: Floats, length: Floats) -> Floats:
    """The pull (N) at which each stick would give way sideways.

    Args:
        stiffness: modulus times second moment (N mm²) at evenly spaced places, ends included.
        length: from hinge to hinge (mm).

    Source: Euler's column of any taper; Vianello's rounds, closed by Rayleigh's quotient.
    """
    soft = 1 / stiffness
    bent = np.broadcast_to(np.sin(np.linspace(0, np.pi, stiffness.shape[-1])), soft.shape)
    load = np.zeros(soft.shape[:-1])
    step = _step(soft, length)
    for _ in range(_ROUNDS):
        pushed = soft * bent
        deeper = _hung(_smooth(pushed) * step[..., None] ** 2)
        load = np.sum(bent * pushed, axis=-1) / np.sum(deeper * pushed, axis=-1)
        bent = deeper / np.max(deeper, axis=-1, keepdims=True)
    return load


def heights_under(stiffness: Floats, unstrung: Floats, length: Floats, pull: Floats) -> Floats:
    """The height of each stick's axis above the hair line when the hair is drawn (mm).

    Args:
        stiffness: modulus times second moment (N mm²) at evenly spaced places, ends included.
        unstrung: height without tension at those places (mm); at the ends it stays.
        length: from hinge to hinge (mm).
        pull: of the hair (N).

    Source: EI (y″ − y₀″) = −T y, small slopes; Numerov's rule on three neighbouring places.
    """
    stiffness, unstrung = np.broadcast_arrays(stiffness, unstrung)
    step = _step(stiffness, length)[..., None]
    share = np.asarray(pull)[..., None] * step**2 / stiffness / 12
    given = -_smooth(share * unstrung) * 12
    # Three neighbours: (1 + share) v before, −(2 − 10 share) v here, (1 + share) v behind.
    beside, here = 1 + share, 10 * share - 2
    moved = _tridiagonal(beside, here, given)
    return unstrung + moved


def _tridiagonal(beside: Floats, here: Floats, given: Floats) -> Floats:
    """Solve for the inner places, both ends held at nought."""
    last = here.shape[-1] - 1
    ratio, part, moved = (np.zeros_like(here) for _ in range(3))
    for i in range(1, last):
        pivot = here[..., i] - beside[..., i - 1] * ratio[..., i - 1]
        ratio[..., i] = beside[..., i + 1] / pivot
        # given[i − 1] belongs to the inner place i.
        part[..., i] = (given[..., i - 1] - beside[..., i - 1] * part[..., i - 1]) / pivot
    for i in range(last - 1, 0, -1):
        moved[..., i] = part[..., i] - ratio[..., i] * moved[..., i + 1]
    return moved


def _smooth(along: Floats) -> Floats:
    """A tenth-and-twelfths mean of each inner place with its neighbours."""
    mean: Floats = (along[..., :-2] + 10 * along[..., 1:-1] + along[..., 2:]) / 12
    return mean


def _hung(bend: Floats) -> Floats:
    """A line through both ends that is bent by so much at each inner place, downward positive."""
    zero = np.zeros((*bend.shape[:-1], 1))
    slope = np.concatenate([zero, np.cumsum(bend, axis=-1)], axis=-1)
    deflection = np.concatenate([zero, np.cumsum(slope, axis=-1)], axis=-1)
    hung: Floats = deflection[..., -1:] * np.linspace(0, 1, deflection.shape[-1]) - deflection
    return hung


def _step(along: Floats, length: Floats) -> Floats:
    """Distance between places (mm), one for each stick."""
    step = np.asarray(length, float) / (along.shape[-1] - 1)
    return np.broadcast_to(step, along.shape[:-1])
