"""Tones of whole bows against a beam by scikit-fem that shares nothing with ours.

Sections, graduation and mortise are written out here from the values a maker states; only the
masses of the fittings are taken as weighed. The hair is halved to its two ends.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from outside.maker import FAMILIES, stated
from scipy.linalg import eigh

from templates_gen.bench import weigh_stick
from templates_gen.bow.dims_mass import Masses
from templates_gen.parts.material.dims import MaterialDims

#: One octant of the circle round a section, by its middle points.
ANGLES = (np.arange(400) + 0.5) / 400 * math.pi / 8


def wood(across, roundness):
    """Area and second moment by the polar integrals ½∮r² and ¼∮r⁴ over flat and disc."""
    inner = np.asarray(across)[..., None] / 2
    disc = inner / math.cos(math.pi / 8) * (1 - roundness)[..., None]
    disc = disc + inner * np.asarray(roundness)[..., None]
    r = np.minimum(inner / np.cos(ANGLES), disc)
    return math.pi * (r**2).mean(-1), math.pi / 4 * (r**4).mean(-1)


class Stick:
    """Thickness by the published rule (Fétis 1856, closed form), an even taper on the handle."""

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


def by_scikit_fem(p, bodies, count):
    """Free tones (Hz); bodies are (x, mass, own inertia), those beyond an end on a rigid arm."""
    from skfem import Basis, BilinearForm, ElementLineHermite, MeshLine
    from skfem.helpers import dd

    stick, m = Stick(p), p.derive(MaterialDims)
    inside = [x for x, _, _ in bodies if 0 < x < stick.end]
    marks = np.unique([*stick.breaks, *inside])
    marks = marks[np.concatenate([[True], np.diff(marks) > 1e-6])]
    pieces = [np.linspace(a, b, max(2, math.ceil((b - a) / 5)) + 1) for a, b in pairwise(marks)]
    nodes = np.unique(np.round(np.concatenate(pieces), 9))
    basis = Basis(MeshLine(nodes), ElementLineHermite(), intorder=7)

    @BilinearForm
    def bend(u, v, w):
        inertia = stick.section(w.x[0])[1]
        return float(m.modulus) * 1e3 * inertia * dd(u)[0, 0] * dd(v)[0, 0]

    @BilinearForm
    def mass(u, v, w):
        return float(m.stick_density) * 1e-6 * stick.section(w.x[0])[0] * u * v

    k, weight = (form.assemble(basis).toarray() for form in (bend, mass))
    places = basis.mesh.p[0]
    heights, slopes = basis.nodal_dofs
    for x, grams, own in bodies:
        at = int(np.argmin(abs(places - x)))
        arm = x - places[at]
        move = np.zeros(len(k))
        move[heights[at]], move[slopes[at]] = 1.0, arm
        turn = np.zeros(len(k))
        turn[slopes[at]] = 1.0
        weight += grams * np.outer(move, move) + own * np.outer(turn, turn)
    shift = (2 * math.pi * 50) ** 2 / 1e6
    ratios = eigh(weight, k + shift * weight, eigvals_only=True)[::-1]
    squares = np.maximum(1 / ratios[2 : 2 + count] - shift, 0) * 1e6
    return np.sqrt(squares) / (2 * math.pi)


def rods(p, pieces):
    """Each fitting where it is weighed; the long ones as rods, m L²/12 (any handbook)."""
    long = {"head": "head.face_length", "frog": "frog.length_bottom",
            "leather": "leather.length", "lapping": "lapping.length"}  # fmt: skip
    for q in pieces:
        length = p.values[long[q.name]] if q.name in long else 0.0
        yield q.name, (float(q.x), float(q.mass), float(q.mass) * length**2 / 12)


@pytest.mark.parametrize("family", FAMILIES)
def test_tones_of_the_bare_stick_and_the_strung_bow_by_scikit_fem(family):
    p = stated(family)
    pieces = p.derive(Masses).pieces
    s = weigh_stick.figures(p, pieces)
    fixed = {name: body for name, body in rods(p, pieces) if name not in ("stick", "hair")}
    bare = [fixed[name] for name in ("head", "tip plate", "liner")]
    assert s.stick_tones == pytest.approx(by_scikit_fem(p, bare, 3), rel=2e-3)
    (hair,) = (float(q.mass) for q in pieces if q.name == "hair")
    ends = p.values["frog.front_at_play"], Stick(p).end
    strung = [*fixed.values(), *((x, hair / 2, 0.0) for x in ends)]
    assert s.bow_tones == pytest.approx(by_scikit_fem(p, strung, 3), rel=2e-3)


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_tones_do_not_depend_on_how_finely_the_stick_is_divided(family, monkeypatch):
    """The head and the button stand beyond the beam's ends."""
    p = stated(family)
    pieces, whole = p.derive(Masses).pieces, weigh_stick.stick_beam
    found = []
    for count in (30, 120, 480):
        with monkeypatch.context() as m:
            m.setattr(
                weigh_stick,
                "stick_beam",
                lambda p, elements=0, *, more=(), n=count: whole(p, n, more=more),
            )
            s = weigh_stick.figures(p, pieces)
        found.append([*s.stick_tones, *s.bow_tones])
    spread = np.ptp(found, axis=0) / np.min(found, axis=0)
    assert spread.max() < 1e-3
