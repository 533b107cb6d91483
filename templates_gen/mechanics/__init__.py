"""How a stick bends, rings and holds the hair's pull: sections, beams, columns, materials.

Knows no part. Lengths are in mm, forces in N, masses in g, moduli in GPa, densities in kg/m³,
frequencies in Hz. Every function takes arrays as well as numbers where that makes sense.
"""
