"""Lengths of the stick's even arc by its closed form, for tests of what is drawn."""

import math

from scipy.optimize import brentq


def parabola(chord, depth):
    """Arc of a parabola: L/2 (√(1 + k²) + asinh k / k), k = 4 c/L (any handbook)."""
    k = 4 * depth / chord
    return chord / 2 * (math.sqrt(1 + k * k) + math.asinh(k) / k)


def chord(p):
    """Straight edge (mm) under a stick that is cambered evenly: its arc is the straight stick's
    length from the ferrule in play to the face's rear edge."""
    v = p.values
    run = v["stick.length"] - v["head.face_length"] - v["frog.front_at_play"]
    depth = v["stick.camber_depth"]
    return brentq(lambda length: parabola(length, depth) - run, 0.8 * run, run, xtol=1e-12)
