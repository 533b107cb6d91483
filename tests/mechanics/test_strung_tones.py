"""Frequencies of whole bows against an independent beam by scikit-fem.

Sections, graduation and mortise are calculated here from the parameters; only the masses of the
fittings come from the package. Half of the hair's mass is at each end.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
from mechanics.sticks import Stick
from outside.maker import FAMILIES, stated
from scipy.linalg import eigh

from templates_gen.bench.weigh import stick as weigh_stick
from templates_gen.bow.dims.masses import Masses
from templates_gen.parts.material.dims import MaterialDims


def by_scikit_fem(p, bodies, count):
    """Free frequencies (Hz); bodies are (x, mass, inertia), those beyond an end on a rigid arm."""
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
    """Each fitting at its position; the long ones as rods, m L²/12 (any handbook)."""
    long = {"head": "head.face_length", "frog": "frog.length_bottom",
            "leather": "leather.length", "lapping": "lapping.length"}  # fmt: skip
    for q in pieces:
        length = p.values[long[q.name]] if q.name in long else 0.0
        yield q.name, (float(q.x), float(q.mass), float(q.mass) * length**2 / 12)


@pytest.mark.parametrize("family", FAMILIES)
def test_frequencies_of_stick_and_bow_by_scikit_fem(family):
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
def test_frequencies_converge_with_more_elements(family, monkeypatch):
    """Head and button are beyond the beam's ends."""
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
