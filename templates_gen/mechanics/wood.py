"""Diameters that suit other wood."""

from __future__ import annotations

from templates_gen.geometry.arrays import FloatOrArray


def equally_stiff(modulus_was: FloatOrArray, modulus_is: FloatOrArray) -> FloatOrArray:
    """By what to multiply the diameters so that other wood bends as little.

    Args:
        modulus_was, modulus_is: GPa.

    Source: E d⁴ stays.
    """
    return (modulus_was / modulus_is) ** 0.25


def equally_heavy(density_was: FloatOrArray, density_is: FloatOrArray) -> FloatOrArray:
    """By what to multiply the diameters so that other wood weighs as much.

    Args:
        density_was, density_is: kg/m³.

    Source: ρ d² stays.
    """
    return (density_was / density_is) ** 0.5
