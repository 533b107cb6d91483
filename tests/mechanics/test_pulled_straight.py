"""A stick with the tension camber is straight at the tension reported for it.

Source: EI (y″ − y₀″) = −T y, small slopes, y the height of the axis above the slack hair line (any
handbook: an eccentrically loaded column), solved by scipy's collocation.
"""

import cmath
import math

import numpy as np
import pytest
from mechanics.sticks import Stick
from outside.maker import FAMILIES, stated
from scipy.integrate import solve_bvp
from scipy.interpolate import CubicSpline

from templates_gen.bench.weigh import stick as weigh_stick
from templates_gen.bow.dims.masses import Masses
from templates_gen.parts.form import dims_curves
from templates_gen.parts.material.dims import MaterialDims


class Bent:
    """The drawn stick above its hair line, rotated by complex numbers."""

    def __init__(self, p):
        v, under = p.values, dims_curves.underside(p)
        self.line = under.x + 1j * under.z
        steps = np.abs(np.diff(self.line))
        self.along = v["frog.front_at_play"] + np.concatenate([[0.0], np.cumsum(steps)])
        self.chord = float(under.x[-1])
        stick = Stick(p)
        frog = v["frog.clear_height"] - v["ferrule.plate_thickness"]
        head = v["head.height"] - v["stick.diameter_head"]
        first = self.line[1] - self.line[0]
        droop = math.atan((head - frog) / v["hair.length"])
        rear = -1j * frog * first / abs(first)
        front = self.chord - 1j * head * cmath.exp(-1j * droop)
        direction = (front - rear) / abs(front - rear)
        gap = ((self.line - rear) / direction).imag
        self.heights = gap + stick.across(self.along) / 2
        self.stiffness = float(p.derive(MaterialDims).modulus) * 1e3 * stick.section(self.along)[1]

    def drawn(self, pull):
        """Heights of the axis under tension, at the same places."""
        x = self.line.real
        unstrung, soft = CubicSpline(x, self.heights), CubicSpline(x, pull / self.stiffness)

        def rates(at, bend):
            return np.vstack([bend[1], -soft(at) * (unstrung(at) + bend[0])])

        found = solve_bvp(rates, lambda a, b: np.array([a[0], b[0]]), x, np.zeros((2, len(x))),
                          tol=1e-8, max_nodes=100_000)  # fmt: skip
        assert found.success
        return self.heights + found.sol(x)[0]


def unevenness(bent, pull):
    """How far (mm) the axis is from the straight line between its ends."""
    y, x = bent.drawn(pull), bent.line.real
    return np.abs(y - np.interp(x, x[[0, -1]], y[[0, -1]])).max()


@pytest.mark.parametrize("family", FAMILIES)
def test_stick_is_straight_at_the_reported_tension(family):
    p = stated(family, {"stick.camber": "tension"})
    pull = weigh_stick.figures(p, p.derive(Masses).pieces).straight_at
    bent = Bent(p)
    depth = (-bent.line.imag).max()
    assert depth == pytest.approx(p.values["stick.camber_depth"], abs=0.005)
    assert unevenness(bent, pull) < 0.02
    # A tenth more or less leaves a visible bend.
    assert min(unevenness(bent, 0.9 * pull), unevenness(bent, 1.1 * pull)) > 0.5


@pytest.mark.parametrize("section", ["octagon", "d-section"])
def test_reported_tension_follows_the_section(section):
    """Stiffer by the section's second moment (octagon 0.05474 a⁴, round 0.04909 a⁴)."""
    round_, other = (
        stated("violin", {"stick.camber": "tension", "stick.section": kind})
        for kind in ("round", section)
    )
    pulls = [weigh_stick.figures(p, p.derive(Masses).pieces).straight_at for p in (round_, other)]
    expected = {"octagon": 0.05474, "d-section": 0.05185}[section] / 0.04909
    assert pulls[1] / pulls[0] == pytest.approx(expected, rel=0.01)


def test_reports_no_tension_for_other_cambers():
    p = stated("violin")
    assert weigh_stick.figures(p, p.derive(Masses).pieces).straight_at is None
