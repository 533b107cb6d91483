"""The sticks that more than one test is about."""

import numpy as np

from templates_gen.mechanics.beam import beam
from templates_gen.mechanics.sections import circle

#: Ends of the published rule's pieces, and where the round part begins to taper (mm).
LENGTH, HANDLE = 700.0, 110.0


def published(x):
    """Diameter at x from the butt by the rule of F.-J. Fétis, 1856 (quoted in H. Saint-George,
    The Bow, ch. VI), in its log form: d = −6.2269 + 5.1417 log10(175 + z), z from the head."""
    x = np.asarray(x, float)
    return np.where(x < HANDLE, 8.6, -6.2269 + 5.1417 * np.log10(175 + LENGTH - x))


def round_stick(breaks, diameter, modulus, density, elements=80):
    """A round stick: diameter of x in mm, GPa, kg/m³."""
    return beam(
        breaks,
        lambda x: modulus * 1e3 * circle(diameter(x)).inertia,
        lambda x: density * 1e-6 * circle(diameter(x)).area,
        elements,
    )


def published_stick(elements=80):
    return round_stick((0, HANDLE, LENGTH), published, 20, 1000, elements)
