"""Density and modulus of the wood in hand, each with its ±, from whatever was measured.

All that was measured is weighed together by how sure it is. What an instrument's ± allows is alike
likely within it (σ = ±/√3: JCGM 100:2008, 4.3.7); the ± told of the wood is three σ, so nearly
never exceeded, as a tolerance is. Where two measurements cannot both be right, it reaches over
both.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.model import DENSITY, MODULUS, Blank
from templates_gen.bench.fit.observations import SURE, Observation, Outliers, observations, outliers
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import TABLE_DENSITY, TABLE_MODULUS, MaterialDims, found_out
from templates_gen.parts.stick.dims_sections import Floats

#: One who is asked for the first time knows nothing.
_IGNORANCE = 100.0


class Basis(StrEnum):
    """What a figure of the wood comes from."""

    MEASURED = "measured"
    INFERRED = "inferred from the tone: not weighed"
    ASSUMED = "from the tone and the table's density: not weighed"
    TABLE = "by the table: not measured"

    @property
    def description(self) -> str:
        """What to print behind the figure; "" where it was measured."""
        return "" if self is Basis.MEASURED else self.value


@dataclass(frozen=True)
class Wood:
    """The wood in hand.

    Args:
        density, density_off: kg/m³ and its ±.
        modulus, modulus_off: GPa and its ±.
        density_by, modulus_by: what each comes from.
        odds: the measurements that cannot all be right, if any.
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
        """Whether the density was found, and is not the table's."""
        return self.density_by is not Basis.TABLE

    @property
    def tapped(self) -> bool:
        """Whether the modulus was found, and is not the table's."""
        return self.modulus_by is not Basis.TABLE


def _bases(p: Pattern, measured: Measured) -> tuple[Basis, Basis]:
    """Return what density and modulus come from.

    A tone gives their ratio, so with the modulus known otherwise it gives the density.
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
    """Density and modulus from all that was measured, starting from what is known already.

    What the pattern states of a wood that is measured counts as the measurement before; what a
    table says counts only where nothing was measured.
    """
    blank = Blank.of(p, measured)
    m = p.derive(MaterialDims)
    bases = _bases(p, measured)
    weighed, tapped = (by is not Basis.TABLE for by in bases)
    # Logarithms of density and modulus, then by how many of its σ each mode of thickness is off.
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
    """The ±, reaching over all that is said where it cannot all be right."""
    said = against.span(name) if against is not None else None
    return float(max(own, *(abs(s - value) for s in said or (value,))))


def _slopes(blank: Blank, found: list[Observation], base: Floats) -> Floats:
    """What each look owes to density, modulus and each mode of the thickness."""
    slopes = np.zeros((len(found), 2 + len(blank.modes)))
    slopes[:, :2] = [observation.of_wood for observation in found]
    for i, mode in enumerate(blank.modes):
        nudge = 0.01 / max(float(np.abs(mode).max()), 1e-6)  # to 0.01 mm where it is most
        other = replace(blank, thickness=blank.thickness + nudge * mode)
        then = np.array([np.log(observation.model(other)) for observation in found])
        slopes[:, 2 + i] = (then - base) / nudge
    return slopes


def _seen(
    blank: Blank, found: list[Observation], mean: Floats, covariance: Floats
) -> tuple[Floats, Floats, Outliers | None]:
    """Mean and covariance after what was seen, and what is at odds in it.

    Source: least squares with what is known beforehand (Gauss), in one step: mass, tone and depth
    are products of powers of density and modulus, and nearly so of small changes of thickness.
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
    # Joseph's form stays sound where one who knew nothing now knows much.
    return mean, rest @ covariance @ rest.T + gain @ unsure @ gain.T, against
