"""List the observations of the wood, and find outliers among them.

Each observation gives a relation of density and modulus. One that lies further from all the others
than their ± allow is a wrong measurement, and a mean with it would describe no wood.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from templates_gen.bench.fit.measured import Held, Measured
from templates_gen.bench.fit.model import DENSITY, MODULUS, Blank
from templates_gen.geometry import Floats
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims, found_out

#: Error of the model, one σ: of a frequency, a longitudinal frequency, a deflection.
_MODEL = {"tone": 0.002, "lengthwise": 0.005, "deflection": 0.004}
#: The ± reported is this many σ: almost never exceeded.
SURE = 3.0


@dataclass(frozen=True)
class Observation:
    """One observation of the wood, as a logarithm.

    Args:
        name: where it is stated.
        seen: natural logarithm of the value observed.
        sigma: its standard deviation.
        of_density, of_modulus: powers of density and modulus to which it is proportional.
        model: value of a blank of the model's wood.
    """

    name: str
    seen: float
    sigma: float
    of_density: float
    of_modulus: float
    model: Callable[[Blank], float]

    @property
    def of_wood(self) -> tuple[float, float]:
        """Return the powers of density and modulus."""
        return self.of_density, self.of_modulus


@dataclass(frozen=True)
class Outliers:
    """Observations that cannot all be right.

    Args:
        times: distance of the farthest from the others, in multiples of their ±.
        description: quantity, unit, observation, value: ``("modulus", "GPa", "[tapped]", 21.0)``.
    """

    times: float
    description: tuple[tuple[str, str, str, float], ...]

    def span(self, what: str) -> tuple[float, float] | None:
        """Return the least and greatest value of density or modulus; None if there is none."""
        values = [value for name, _, _, value in self.description if name == what]
        return (min(values), max(values)) if values else None


def observations(p: Pattern, measured: Measured) -> list[Observation]:
    """Return all observations; measured wood of the pattern counts as one made before."""
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
    """Return one observation; each number it depends on adds its own ±."""
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
    """Return the observations that lie further from all the others than their ± allow.

    Args:
        found: the observations.
        residual: observed less expected value of each (logarithms).
        spread: covariance of the residuals (square).
        base: logarithm of the value of the model's wood with the thickness measured.
        wood: logarithms of density and modulus found, relative to the model's wood.

    Source: the residual of an observation left out, by the inverse of the covariance: Rasmussen and
    Williams, Gaussian Processes for Machine Learning (2006), equation 5.12.
    """
    inverse = np.linalg.inv(spread)
    times = np.abs(inverse @ residual) / np.sqrt(np.diag(inverse)) / SURE
    if not times.size or times.max() <= 1.0:
        return None
    description = [
        _alone(observation, b, wood)
        for observation, b, t in zip(found, base, times, strict=True)
        if t > 1.0
    ]
    return Outliers(float(times.max()), tuple(description))


def _alone(observation: Observation, base: float, wood: Floats) -> tuple[str, str, str, float]:
    """Return the modulus that an observation gives alone, or else the density."""
    rest = observation.seen - base
    if observation.of_modulus:
        value = (
            math.exp((rest - observation.of_density * wood[0]) / observation.of_modulus) * MODULUS
        )
        return "modulus", "GPa", observation.name, value
    return "density", "kg/m³", observation.name, math.exp(rest / observation.of_density) * DENSITY
