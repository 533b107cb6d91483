"""The sticks that more than one test is about."""

import math

import numpy as np

from templates_gen.mechanics.beam import beam, matrix
from templates_gen.mechanics.bending import solved
from templates_gen.mechanics.sections import circle

#: One octant of the circle round a section, by its middle points.
ANGLES = (np.arange(400) + 0.5) / 400 * math.pi / 8
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


def clamped(b, loads):
    """How far each node of a beam clamped at its beginning sinks (mm); loads (N) by place (mm)."""
    force = np.zeros(2 * len(b.nodes))
    for x, load in loads.items():
        force[2 * b.node(x)] = load
    return solved(matrix(b, b.stiffness, 2), force, (0, 1))[::2]


def wood(across, roundness):
    """Area and second moment by the polar integrals ½∮r² and ¼∮r⁴ over flat and disc."""
    inner = np.asarray(across)[..., None] / 2
    disc = inner / math.cos(math.pi / 8) * (1 - roundness)[..., None]
    disc = disc + inner * np.asarray(roundness)[..., None]
    r = np.minimum(inner / np.cos(ANGLES), disc)
    return math.pi * (r**2).mean(-1), math.pi / 4 * (r**4).mean(-1)


class Stick:
    """A stated stick, its sections written out again.

    Thickness by the published rule (Fétis 1856, closed form), an even taper on the handle.
    """

    def __init__(self, p):
        v = self.v = p.values
        self.end = v["stick.length"] - v["head.face_length"]
        self.slot = v["stick.mortise_from_butt"]
        self.front = self.slot + v["stick.mortise_length"]
        self.bored = self.front + v["screw.bearing_depth"]
        self.handle = v["stick.handle_length"]
        self.round = self.handle + v["stick.blend_length"]
        self.breaks = [0.0, self.slot, self.front, self.bored, self.handle, self.round, self.end]

    def across(self, x):
        v, s, end = self.v, self.end / 4, self.end
        butt, rear, head = (
            v["stick.across_flats_butt"], v["stick.across_flats_handle_end"],
            v["stick.diameter_head"],
        )  # fmt: skip
        fall = np.log((s + end - x) / s) / np.log((s + end - self.handle) / s)
        law = head + (rear - head) * fall
        return np.where(x < self.handle, butt + (rear - butt) * x / self.handle, law)

    def section(self, x):
        """Area and second moment, the holes taken out one by one."""
        v, a = self.v, self.across(x)
        area, inertia = wood(a, np.clip((x - self.handle) / (self.round - self.handle), 0, 1))
        taken = np.where(x < self.slot, v["stick.rear_bore"], 0.0)
        taken = np.where((x > self.front) & (x < self.bored), v["stick.front_bore"], taken)
        area, inertia = area - math.pi / 4 * taken**2, inertia - math.pi / 64 * taken**4
        w, d = v["stick.mortise_width"], v["stick.mortise_depth"]
        hole, middle = w * d, d / 2 - a / 2
        left = area - hole
        centre = -hole * middle / left
        slotted = inertia - w * d**3 / 12 - hole * middle**2 - left * centre**2
        inside = (x > self.slot) & (x < self.front)
        return np.where(inside, left, area), np.where(inside, slotted, inertia)
