"""Calculate density and modulus of the wood in hand, each with its ±, from all measurements.

The measurements are combined by least squares, weighted by their uncertainty. A reading is equally
likely anywhere within its instrument's ± (σ = ±/√3: JCGM 100:2008, 4.3.7). The ± of the wood is
three σ, so almost never exceeded, as a tolerance is. Where two measurements conflict, it covers
both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.model import DENSITY, MODULUS, Blank
from templates_gen.bench.fit.observations import SURE, Observation, Outliers, observations, outliers
from templates_gen.geometry import Floats
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import TABLE_DENSITY, TABLE_MODULUS, MaterialDims, found_out

#: Standard deviation of a logarithm before any measurement: nothing is known.
_IGNORANCE = 100.0


class Basis(StrEnum):
    """The source of a density or modulus."""

    MEASURED = "measured"
    INFERRED = "inferred from the frequency: not weighed"
    ASSUMED = "from the frequency and the table's density: not weighed"
    TABLE = "from the table: not measured"

    @property
    def description(self) -> str:
        """Return what to print after the value; "" if it was measured."""
        return "" if self is Basis.MEASURED else self.value


@dataclass(frozen=True)
class Wood:
    """The wood in hand.

    Args:
        density, density_off: kg/m³ and its ±.
        modulus, modulus_off: GPa and its ±.
        density_by, modulus_by: source of each.
        outliers: the measurements that conflict, if any.
    """

    density: float
    density_off: float
    modulus: float
    modulus_off: float
    density_by: Basis
    modulus_by: Basis
    outliers: Outliers | None = None

    @property
    def weighed(self) -> bool:
        """Report whether the density comes from a measurement."""
        return self.density_by is not Basis.TABLE

    @property
    def tapped(self) -> bool:
        """Report whether the modulus comes from a measurement."""
        return self.modulus_by is not Basis.TABLE


def _bases(p: Pattern, measured: Measured) -> tuple[Basis, Basis]:
    """Return the sources of density and modulus.

    A frequency gives their ratio, so with a known modulus it gives the density.
    """
    density, modulus = found_out(p)
    density |= measured.has("weighed")
    modulus |= measured.has("loaded")
    tapped = measured.has("tapped")
    by_tone = Basis.INFERRED if tapped and modulus else Basis.TABLE
    density_by = Basis.MEASURED if density else by_tone
    if modulus or (tapped and density):
        return density_by, Basis.MEASURED
    return density_by, Basis.ASSUMED if tapped else Basis.TABLE


def wood(p: Pattern, measured: Measured) -> Wood:
    """Return density and modulus from all that was measured.

    Measured wood of the pattern counts as measured before; a table's values count only where
    nothing was measured.
    """
    blank = Blank.of(p, measured)
    m = p.derive(MaterialDims)
    bases = _bases(p, measured)
    weighed, tapped = (by is not Basis.TABLE for by in bases)
    # Logarithms of density and modulus, then each mode of the thickness in its σ.
    mean = np.zeros(2 + len(blank.modes))
    mean[:2] = np.log([float(m.stick_density), float(m.modulus)])
    covariance = np.eye(len(mean))
    covariance[0, 0] = (_IGNORANCE if weighed else TABLE_DENSITY / SURE) ** 2
    covariance[1, 1] = (_IGNORANCE if tapped else TABLE_MODULUS / SURE) ** 2
    found, against = observations(p, measured), None
    if found:
        mean, covariance, against = _seen(blank, found, mean, covariance)
    values = np.exp(mean[:2])
    off = values * SURE * np.sqrt(np.diag(covariance)[:2])
    density_off, modulus_off = (
        _over(against, name, value, own)
        for name, value, own in zip(("density", "modulus"), values, off, strict=True)
    )
    density, modulus = (float(v) for v in values)
    return Wood(density, density_off, modulus, modulus_off, *bases, against)


def _over(against: Outliers | None, name: str, value: float, own: float) -> float:
    """Return the ±, extended to all values that conflict."""
    said = against.span(name) if against is not None else None
    return float(max(own, *(abs(s - value) for s in said or (value,))))


def _slopes(blank: Blank, found: list[Observation], base: Floats) -> Floats:
    """Return the change of each observation with density, modulus and each mode of thickness."""
    slopes = np.zeros((len(found), 2 + len(blank.modes)))
    slopes[:, :2] = [observation.of_wood for observation in found]
    for i, mode in enumerate(blank.modes):
        nudge = 0.01 / max(float(np.abs(mode).max()), 1e-6)  # 0.01 mm where it is greatest
        other = replace(blank, thickness=blank.thickness + nudge * mode)
        then = np.array([np.log(observation.model(other)) for observation in found])
        slopes[:, 2 + i] = (then - base) / nudge
    return slopes


def _seen(
    blank: Blank, found: list[Observation], mean: Floats, covariance: Floats
) -> tuple[Floats, Floats, Outliers | None]:
    """Return mean and covariance after the observations, and the outliers among these.

    Source: Bayesian linear least squares in one step (Gauss): mass, frequency and deflection are
    products of powers of density and modulus, and nearly so of small changes of thickness.
    """
    base = np.array([np.log(observation.model(blank)) for observation in found])
    slopes = _slopes(blank, found, base)
    model_wood = np.log([DENSITY, MODULUS])
    expected = base + slopes[:, :2] @ (mean[:2] - model_wood)
    unsure = np.diag([observation.sigma**2 for observation in found])
    spread = slopes @ covariance @ slopes.T + unsure
    residual = np.array([observation.seen for observation in found]) - expected
    gain = covariance @ slopes.T @ np.linalg.inv(spread)
    mean = mean + gain @ residual
    rest = np.eye(len(mean)) - gain @ slopes
    against = outliers(found, residual, spread, base, mean[:2] - model_wood)
    # Joseph's form stays accurate when a wide prior becomes narrow.
    return mean, rest @ covariance @ rest.T + gain @ unsure @ gain.T, against
