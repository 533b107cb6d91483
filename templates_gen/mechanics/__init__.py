"""Mechanics of the stick: sections, beams, columns, vibration, materials.

Independent of the parts. Lengths are in mm, forces in N, masses in g, moduli in GPa, densities in
kg/m³, frequencies in Hz. Formulas take numbers or arrays.
"""
