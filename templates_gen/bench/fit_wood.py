"""Density and modulus of the wood in hand, each with its ±, from whatever was measured.

All that was measured is weighed together by how sure it is. What an instrument's ± allows is alike
likely within it (σ = ±/√3: JCGM 100:2008, 4.3.7); the ± told of the wood is three σ, so nearly
never exceeded, as a tolerance is.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from templates_gen.bench.fit_measured import Held, Measured
from templates_gen.bench.fit_model import DENSITY, MODULUS, Blank
from templates_gen.bow.dims_stick import Floats
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims

#: What a table says of a wood may be off by so much. Common practice, no source.
TABLE_DENSITY, TABLE_MODULUS = 0.10, 0.22
#: ± of one station's thickness, and of the calipers everywhere alike (mm); of a thickness taken
#: from the pattern because none was measured. Common practice, no source.
STATION, CALIPERS, UNMEASURED = 0.03, 0.01, 0.15
#: What the model itself may be off by, one σ: a tone, a tone along the grain, a depth under load.
_MODEL = {"tone": 0.002, "lengthwise": 0.005, "sunk": 0.004}
#: One who is asked for the first time knows nothing.
_IGNORANCE = 100.0
#: The ± told is so many σ.
SURE = 3.0


@dataclass(frozen=True)
class Wood:
    """The wood in hand.

    Args:
        density, density_off: kg/m³ and its ±.
        modulus, modulus_off: GPa and its ±.
        weighed: whether the density was found, and is not the table's.
        tapped: whether the modulus was found, and is not the table's.
    """

    density: float
    density_off: float
    modulus: float
    modulus_off: float
    weighed: bool
    tapped: bool


@dataclass(frozen=True)
class _Look:
    """One thing measured: its logarithm, how unsure, and what it owes to density and modulus."""

    seen: float
    sigma: float
    of_density: float
    of_modulus: float
    model: Callable[[Blank], float]


def wood(p: Pattern, measured: Measured) -> Wood:
    """Density and modulus from all that was measured, starting from what is known already.

    What the pattern states of a wood that is measured counts as the measurement before; what a
    table says counts only where nothing was measured.
    """
    blank = Blank.of(p, measured)
    looks = list(_looks(measured))
    m = p.derive(MaterialDims)
    found_density = measured.has("weighed")
    found_modulus = measured.has("tapped") or measured.has("loaded")
    known = (
        math.log(float(m.stick_density)),
        math.log(float(m.modulus)),
    )
    sigmas = _known_sigmas(p, m, found_density, found_modulus)
    mean = np.array([*known, *blank.thickness])
    cover = np.zeros((len(mean), len(mean)))
    cover[0, 0], cover[1, 1] = sigmas[0] ** 2, sigmas[1] ** 2
    cover[2:, 2:] = _thickness_cover(blank)
    if looks:
        mean, cover = _seen(blank, looks, mean, cover)
    density, modulus = np.exp(mean[:2])
    off = SURE * np.sqrt(np.diag(cover)[:2])
    return Wood(
        float(density),
        float(density * off[0]),
        float(modulus),
        float(modulus * off[1]),
        found_density or m.measured,
        found_modulus or m.measured,
    )


def _known_sigmas(
    p: Pattern, m: MaterialDims, found_density: bool, found_modulus: bool
) -> tuple[float, float]:
    """How unsure density and modulus are beforehand, in parts of themselves."""
    if m.measured:
        return (
            p.tolerance("material.stick_density") / SURE / float(m.stick_density),
            p.tolerance("material.stick_modulus") / SURE / float(m.modulus),
        )
    return (
        _IGNORANCE if found_density else TABLE_DENSITY / SURE,
        _IGNORANCE if found_modulus else TABLE_MODULUS / SURE,
    )


def _thickness_cover(blank: Blank) -> Floats:
    count = len(blank.places)
    each = STATION if blank.measured.values.get("stick.stations") else UNMEASURED
    shared = np.full((count, count), CALIPERS**2 / 3)
    cover: Floats = shared + np.eye(count) * each**2 / 3
    return cover


def _looks(measured: Measured) -> list[_Look]:
    found = []
    if measured.has("weighed"):
        found.append(_look(measured, {"weighed.mass": 1.0}, 0.0, (1.0, 0.0), _mass))
    if measured.has("tapped"):
        held = measured.values["tapped.held"]
        lengthwise = held is Held.END_GRAIN
        model = _MODEL["lengthwise" if lengthwise else "tone"]
        long = "tapped.free_length" if held is Held.CLAMPED else "stick.length"
        power = {"tapped.tone": 1.0, long: 1.0 if lengthwise else 2.0}
        found.append(_look(measured, power, model, (-0.5, 0.5), Blank.tone))
    if measured.has("loaded"):
        power = {"loaded.sunk": 1.0, "loaded.weight": 1.0}
        found.append(_look(measured, power, _MODEL["sunk"], (0.0, -1.0), Blank.sunk))
    return found


def _look(
    measured: Measured,
    powers: dict[str, float],
    model_sigma: float,
    owed: tuple[float, float],
    model: Callable[[Blank], float],
) -> _Look:
    """One thing measured; each number it hangs on makes it less sure by its own ±."""
    parts = [
        power * measured.tolerance(key) / math.sqrt(3) / float(measured.values[key])
        for key, power in powers.items()
    ]
    seen = math.log(float(measured.values[next(iter(powers))]))
    return _Look(seen, math.hypot(model_sigma, *parts), *owed, model)


def _mass(blank: Blank) -> float:
    return blank.volume * DENSITY * 1e-6


def _seen(blank: Blank, looks: list[_Look], mean: Floats, cover: Floats) -> tuple[Floats, Floats]:
    """Mean and covariance after what was seen.

    Source: least squares with what is known beforehand (Gauss), in one step: mass, tone and depth
    are products of powers of density and modulus, and nearly so of small changes of thickness.
    """
    base = np.array([math.log(look.model(blank)) for look in looks])
    slopes = np.zeros((len(looks), len(mean)))
    slopes[:, 0] = [look.of_density for look in looks]
    slopes[:, 1] = [look.of_modulus for look in looks]
    nudge = 0.01
    for i in range(len(blank.places)):
        thick = blank.thickness.copy()
        thick[i] += nudge
        other = replace(blank, thickness=thick)
        then = np.array([math.log(look.model(other)) for look in looks])
        slopes[:, 2 + i] = (then - base) / nudge
    wood_now = mean[:2] - np.log([DENSITY, MODULUS])
    expected = base + slopes[:, :2] @ wood_now
    unsure = np.diag([look.sigma**2 for look in looks])
    gain = cover @ slopes.T @ np.linalg.inv(slopes @ cover @ slopes.T + unsure)
    mean = mean + gain @ (np.array([look.seen for look in looks]) - expected)
    rest = np.eye(len(mean)) - gain @ slopes
    # Joseph's form stays sound where one who knew nothing now knows much.
    return mean, rest @ cover @ rest.T + gain @ unsure @ gain.T
