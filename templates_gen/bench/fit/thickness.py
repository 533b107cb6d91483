"""Infer the thickness of the stick in hand between and beyond its stations.

The thickness is a random function: an unknown level and even taper, a share of the pattern's own
taper, and the unevenness that planing leaves. The stations give the likeliest thickness everywhere
and its uncertainty, which grows with the distance from a station.

Source: Gaussian process regression, C. E. Rasmussen and C. K. I. Williams, Gaussian Processes for
Machine Learning (2006), equations 2.23 to 2.26; unevenness by Matérn's covariance, their 4.17.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from templates_gen.bench.fit.measured import Form, Measured
from templates_gen.geometry import Floats
from templates_gen.parameters import Pattern
from templates_gen.parts.stick.dims import StickDims

#: ± of one station's thickness, and of the calipers everywhere alike (mm); of a thickness taken
#: from the pattern because none was measured. Common practice, no source.
STATION, CALIPERS, UNMEASURED = 0.03, 0.01, 0.15
#: Standard deviations before measuring: of the level (mm), the taper over the whole length (mm),
#: the share of the pattern's taper. Our own choice: a blank may be a parallel bar,
#: taper evenly, or follow the pattern.
_LEVEL, _TAPER, _SHARE = 10.0, 1.5, 0.7
#: Unevenness: its standard deviation relative to the pattern's whole taper, and the length over
#: which it changes (mm); wide enough for a taper that begins anywhere. Our own choice.
_UNEVEN, _OVER = 0.15, 250.0
#: Length (mm) over which half the error of an unmeasured thickness is alike; the other half is
#: alike everywhere.
_ALIKE = 150.0
#: A mode with less than this share of the whole variance is left out.
_NEGLIGIBLE = 1e-4
#: Greatest distance between the places calculated (mm).
_EVERY = 40.0


@dataclass(frozen=True)
class Thickness:
    """Thickness along the stick.

    Args:
        places: places (mm from the butt's shoulder), rising, from end to end.
        mean: likeliest thickness there (mm); linear between the places.
        modes: independent variations (mm), a row each, scaled to one standard deviation.
    """

    places: Floats
    mean: Floats
    modes: Floats


def thickness_of(p: Pattern, measured: Measured) -> Thickness:
    """Return the thickness of the stick in hand: from its stations, else the pattern's own."""
    stations = measured.values.get("stick.stations", ())
    places = _places(p, measured)
    d = p.derive(StickDims)
    if not stations:
        apart = np.abs(places[:, None] - places)
        alike = (1.0 + np.exp(-((apart / _ALIKE) ** 2) / 2)) / 2
        mean = np.asarray(d.diameter(places), float)
        return Thickness(places, mean, _modes((UNMEASURED**2 * alike + CALIPERS**2) / 3))
    at, seen = np.array(stations, float).T
    everywhere = np.concatenate([at, places])
    prior = _prior(np.asarray(d.diameter(everywhere), float), everywhere, places[-1])
    n = len(at)
    noise = np.eye(n) * STATION**2 / 3
    gain = np.linalg.solve(prior[:n, :n] + noise, prior[:n, n:]).T
    middle = seen.mean()
    mean = middle + gain @ (seen - middle)
    covariance = prior[n:, n:] - gain @ prior[:n, n:] + CALIPERS**2 / 3
    return Thickness(places, mean, _modes(covariance))


def _modes(covariance: Floats) -> Floats:
    """Return the principal components of a covariance, without negligible ones."""
    variances, directions = np.linalg.eigh((covariance + covariance.T) / 2)
    counts = variances > _NEGLIGIBLE * variances.sum()
    modes: Floats = np.sqrt(variances[counts])[:, None] * directions[:, counts].T
    return modes


def _places(p: Pattern, measured: Measured) -> Floats:
    """Return both ends, every station, and places between them (mm)."""
    length = float(measured.values["stick.length"])
    marks = {0.0, length, *(float(x) for x, _ in measured.values.get("stick.stations", ()))}
    if measured.values["stick.form"] is Form.FINISHED:
        handle = float(p.values["stick.handle_length"])
        marks |= {handle} if handle < length else set()
    rising = sorted(marks)
    pieces = [
        np.linspace(a, b, max(int(np.ceil((b - a) / _EVERY)), 1), endpoint=False)
        for a, b in pairwise(rising)
    ]
    return np.concatenate([*pieces, [length]])


def _prior(pattern: Floats, places: Floats, length: float) -> Floats:
    """Return the covariance (mm²) of thicknesses before any is measured.

    Args:
        pattern: the pattern's own thickness at the places (mm).
        places: the places (mm).
        length: of the stick (mm).
    """
    taper, fall = places / length - 0.5, pattern - pattern.mean()
    apart = np.abs(places[:, None] - places)
    prior = _LEVEL**2 + _TAPER**2 * np.outer(taper, taper) + _SHARE**2 * np.outer(fall, fall)
    way = math.sqrt(5.0) * apart / _OVER
    uneven = (1.0 + way + way**2 / 3.0) * np.exp(-way)
    return prior + (_UNEVEN * np.ptp(pattern)) ** 2 * uneven
