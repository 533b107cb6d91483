"""What was measured of the wood, one look at a time, and whether the looks can all be right.

A look alone says so much of density and modulus; where one lies further from what all the others
say than both their ± allow, something was measured amiss, and no mean of the two is the wood.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from templates_gen.bench.fit.measured import Held, Measured
from templates_gen.bench.fit.model import DENSITY, MODULUS, Blank
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims, found_out
from templates_gen.parts.stick.dims_sections import Floats

#: What the model itself may be off by, one σ: a tone, a tone along the grain, a depth under load.
_MODEL = {"tone": 0.002, "lengthwise": 0.005, "deflection": 0.004}
#: The ± told is so many σ: nearly never exceeded.
SURE = 3.0


@dataclass(frozen=True)
class Observation:
    """One thing known of the wood: its logarithm, how unsure, what it owes to the wood.

    Args:
        name: where it is written down.
        seen: natural logarithm of what was seen.
        sigma: one standard deviation of it.
        of_density, of_modulus: the powers of density and modulus it goes by.
        model: what a blank of the model's wood would show.
    """

    name: str
    seen: float
    sigma: float
    of_density: float
    of_modulus: float
    model: Callable[[Blank], float]

    @property
    def of_wood(self) -> tuple[float, float]:
        """The powers of density and modulus."""
        return self.of_density, self.of_modulus


@dataclass(frozen=True)
class Outliers:
    """Looks that cannot all be right.

    Args:
        times: how many times their ± the farthest lies from what the others say.
        says: what, by which look, in its unit: ``("modulus", "GPa", "[tapped]", 21.0)``.
    """

    times: float
    description: tuple[tuple[str, str, str, float], ...]

    def span(self, what: str) -> tuple[float, float] | None:
        """Least and greatest that is said of density or modulus; None where nothing is."""
        values = [value for name, _, _, value in self.description if name == what]
        return (min(values), max(values)) if values else None


def observations(p: Pattern, measured: Measured) -> list[Observation]:
    """All that was measured; what the pattern states as measured is the measurement before."""
    return [*_now(measured), *_before(p)]


def _now(measured: Measured) -> Iterator[Observation]:
    if measured.has("weighed"):
        yield _observation("[weighed]", measured, {"weighed.mass": 1.0}, 0.0, (1.0, 0.0), _mass)
    if measured.has("tapped"):
        held = measured.values["tapped.held"]
        lengthwise = held is Held.END_GRAIN
        model = _MODEL["lengthwise" if lengthwise else "tone"]
        long = "tapped.free_length" if held is Held.CLAMPED else "stick.length"
        power = {"tapped.frequency": 1.0, long: 1.0 if lengthwise else 2.0}
        yield _observation("[tapped]", measured, power, model, (-0.5, 0.5), Blank.frequency)
    if measured.has("loaded"):
        power = {"loaded.deflection": 1.0, "loaded.weight": 1.0}
        yield _observation(
            "[loaded]", measured, power, _MODEL["deflection"], (0.0, -1.0), Blank.deflection
        )


def _observation(
    name: str,
    measured: Measured,
    powers: dict[str, float],
    model_sigma: float,
    owed: tuple[float, float],
    model: Callable[[Blank], float],
) -> Observation:
    """One thing measured; each number it hangs on makes it less sure by its own ±."""
    parts = [
        power * measured.tolerance(key) / math.sqrt(3) / float(measured.values[key])
        for key, power in powers.items()
    ]
    seen = math.log(float(measured.values[next(iter(powers))]))
    return Observation(name, seen, math.hypot(model_sigma, *parts), *owed, model)


def _before(p: Pattern) -> Iterator[Observation]:
    m = p.derive(MaterialDims)
    rows = (
        ("material.stick_density", float(m.stick_density), (1.0, 0.0), lambda _: DENSITY),
        ("material.stick_modulus", float(m.modulus), (0.0, 1.0), lambda _: MODULUS),
    )
    for (key, value, owed, model), known in zip(rows, found_out(p), strict=True):
        if not known:
            continue
        sigma = p.tolerance(key) / SURE / value
        yield Observation("the file before", math.log(value), sigma, *owed, model)


def _mass(blank: Blank) -> float:
    return blank.volume * DENSITY * 1e-6


def outliers(
    found: list[Observation], residual: Floats, spread: Floats, base: Floats, wood: Floats
) -> Outliers | None:
    """The looks that lie further from what all the others say than nearly ever happens.

    Args:
        found: the looks.
        amiss: what was seen less what was expected beforehand (one per look, logarithms).
        spread: the covariance of that (square).
        base: logarithm of what the model's wood would show, of the thickness measured.
        wood: logarithms of density and modulus as found, in parts of the model's wood.

    Source: the residual of a look left out, by the inverse of the covariance: Rasmussen and
    Williams, Gaussian Processes for Machine Learning (2006), equation 5.12.
    """
    inverse = np.linalg.inv(spread)
    times = np.abs(inverse @ residual) / np.sqrt(np.diag(inverse)) / SURE
    if not times.size or times.max() <= 1.0:
        return None
    description = [
        _says(observation, b, wood)
        for observation, b, t in zip(found, base, times, strict=True)
        if t > 1.0
    ]
    return Outliers(float(times.max()), tuple(description))


def _says(observation: Observation, base: float, wood: Floats) -> tuple[str, str, str, float]:
    """What a look alone says of the modulus, or of the density where it owes nothing to that."""
    rest = observation.seen - base
    if observation.of_modulus:
        value = (
            math.exp((rest - observation.of_density * wood[0]) / observation.of_modulus) * MODULUS
        )
        return "modulus", "GPa", observation.name, value
    return "density", "kg/m³", observation.name, math.exp(rest / observation.of_density) * DENSITY
