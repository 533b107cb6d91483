"""The wood in hand: its modulus from a tap or a load, and diameters that suit it."""

from __future__ import annotations

import math

from templates_gen.mechanics.sections import FloatOrArray

#: First root of cos βL cosh βL = 1: how a free uniform blank rings lowest.
_FREE = 4.730040744862704


def modulus_from_tap(length: float, mass: float, inertia: float, frequency: float) -> float:
    """The modulus of a free uniform blank from its lowest bending tone (GPa).

    Args:
        length: mm.
        mass: g.
        inertia: second moment of its section (mm⁴).
        tone: Hz, held where it is still: 22.4 % of the length from either end.

    Source: the free Euler–Bernoulli beam; for a rod it is ASTM E1876's 1.6067 (L³/D⁴) m f².
    """
    # g · mm³ · Hz² / mm⁴ is a pascal: kg for g and m for mm take a thousand each way.
    pascals = (2 * math.pi * frequency) ** 2 * mass * length**3 / (_FREE**4 * inertia)
    return pascals * 1e-9


def modulus_from_longitudinal_tap(length: float, density: float, frequency: float) -> float:
    """The modulus from the tone of a tap on the end grain (GPa).

    Args:
        length: mm.
        density: kg/m³.
        tone: Hz.

    Source: a bar free at both ends, c = 2 L f, E = ρ c².
    """
    return density * (2 * length * 1e-3 * frequency) ** 2 * 1e-9


def modulus_from_load(span: float, load: float, deflection: float, inertia: float) -> float:
    """The modulus of a uniform blank on two supports, loaded in the middle (GPa).

    Args:
        span: between the supports (mm).
        load: N.
        sunk: how far the middle sinks under it (mm).
        inertia: second moment of its section (mm⁴).

    Source: P L³ / (48 E I), any handbook of mechanics.
    """
    return load * span**3 / (48 * deflection * inertia) * 1e-3


def diameter_factor_same_stiffness(
    modulus_was: FloatOrArray, modulus_is: FloatOrArray
) -> FloatOrArray:
    """By what to multiply the diameters so that other wood bends as little.

    Args:
        modulus_was, modulus_is: GPa.

    Source: E d⁴ stays.
    """
    return (modulus_was / modulus_is) ** 0.25


def diameter_factor_same_mass(density_was: FloatOrArray, density_is: FloatOrArray) -> FloatOrArray:
    """By what to multiply the diameters so that other wood weighs as much.

    Args:
        density_was, density_is: kg/m³.

    Source: ρ d² stays.
    """
    return (density_was / density_is) ** 0.5
