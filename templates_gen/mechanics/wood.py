"""Factors for the diameters of a stick made of other wood."""

from __future__ import annotations

from templates_gen.geometry import FloatOrArray


def diameter_factor_same_stiffness(
    modulus_was: FloatOrArray, modulus_is: FloatOrArray
) -> FloatOrArray:
    """Calculate the factor of the diameters that keeps the stiffness in other wood.

    Args:
        modulus_was, modulus_is: moduli before and after (GPa).

    Source: E d⁴ is constant.
    """
    return (modulus_was / modulus_is) ** 0.25


def diameter_factor_same_mass(density_was: FloatOrArray, density_is: FloatOrArray) -> FloatOrArray:
    """Calculate the factor of the diameters that keeps the mass in other wood.

    Args:
        density_was, density_is: densities before and after (kg/m³).

    Source: ρ d² is constant.
    """
    return (density_was / density_is) ** 0.5
