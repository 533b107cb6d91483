"""Mechanics of the stick: sections, beams, columns, vibration, materials.

Independent of the parts. Lengths are in mm, forces in N, masses in g, moduli in GPa, densities in
kg/m³, frequencies in Hz. Formulas take numbers or arrays.
"""

from templates_gen.mechanics.assembly import ALONG, FROG, STICK, Frame, Portion, VolumeAt
from templates_gen.mechanics.quadrature import breaks, gauss, gauss_across
from templates_gen.mechanics.sections import Section

__all__ = [
    "ALONG",
    "FROG",
    "STICK",
    "Frame",
    "Portion",
    "Section",
    "VolumeAt",
    "breaks",
    "gauss",
    "gauss_across",
]
