"""Lay out the hair line under the bent stick again, in complex numbers, from the stated values.

Sources: an even arc by any handbook (depth 4 c u (1 − u)); the frog stands square to the handle and
the head's face runs as the hair does (common practice, no source).
"""

import cmath
import re
from itertools import pairwise

import numpy as np
import pytest
from arcs import chord
from outside.maker import FAMILIES, drawn, on, stated

from templates_gen.pipeline import rendering


class HairLine:
    """The stick's underside in a frame whose real axis is the hair line."""

    def __init__(self, p):
        v = p.values
        self.chord = chord(p)
        self.depth = v["stick.camber_depth"]
        frog = v["frog.clear_height"] - v["ferrule.plate_thickness"]
        head = v["head.height"] - v["stick.diameter_head"]
        handle = cmath.exp(-1j * np.arctan(4 * self.depth / self.chord))
        plate = cmath.exp(-1j * np.arctan((head - frog) / v["hair.length"]))
        self.rear, self.front = -1j * frog * handle, self.chord - 1j * head * plate
        self.length = abs(self.front - self.rear)
        self.way = (self.front - self.rear) / self.length

    def under(self, u):
        u = np.asarray(u)
        return (u * self.chord - 4j * self.depth * u * (1 - u) - self.rear) / self.way

    def height(self, x):
        fine = self.under(np.linspace(0, 1, 20001))
        return np.interp(x, fine.real, fine.imag)


@pytest.mark.parametrize("family", FAMILIES)
def test_check_and_sheet_give_the_same_heights(family):
    p = stated(family)
    hair, drawing = HairLine(p), drawn(p, "bow-hair-line")
    (gap,) = [c.result for c in rendering.check(p) if c.result.rule.id == "bow.hair_clears"]
    words = [t.first(1) for t in drawing.texts]
    nominal = float(gap.rule.bound(p).measured)
    assert nominal == pytest.approx(hair.under(np.linspace(0, 1, 4001)).imag.min(), abs=0.001)
    figures = [w for w in words if re.fullmatch(r"[\d.]+", w)]
    told = {x: hair.height(x) for x in np.arange(50.0, hair.length - 5, 50.0)}
    for x, height in told.items():
        assert f"{x:g}" in figures
        assert any(abs(float(f) - height) <= 0.051 for f in figures), (x, height)
    (said,) = [w for w in words if w.endswith(" cotton line")]
    assert float(said.split()[0]) == pytest.approx(hair.length, abs=0.006)


@pytest.mark.parametrize("family", FAMILIES)
def test_height_sticks_feet_touch_the_stick_and_its_edge_is_the_hair_line(family):
    p = stated(family)
    hair, (outline,) = HairLine(p), on(drawn(p, "bow-height-stick"), "OUTLINE")
    corners = np.array([z for z, _ in outline.corners])
    left, bottom = corners.real.min(), corners.imag.min()
    assert corners.real.max() - left == pytest.approx(hair.length, abs=1e-3)
    edge = bottom + 14.0
    tops = [z for z in corners if z.imag > edge + 0.5]
    assert len(tops) == 4
    for z in tops:
        assert z.imag - edge == pytest.approx(hair.height(z.real - left), abs=0.002)


@pytest.mark.parametrize("family", FAMILIES)
def test_the_head_piece_rises_by_the_heads_own_angle(family):
    """And is the form's own last 100 in all but how it lies."""
    p = stated(family)
    v, hair = p.values, HairLine(p)
    slope = np.arctan(4 * hair.depth / hair.chord)
    rise = slope + np.arctan(
        (v["head.height"] - v["stick.diameter_head"] - v["frog.clear_height"]
         + v["ferrule.plate_thickness"]) / v["hair.length"]
    )  # fmt: skip
    (outline,) = on(drawn(p, "form-head-piece"), "OUTLINE")
    # From over the face it runs straight to the crown: the one sloping straight line.
    ends = [*outline.corners, outline.corners[0]]
    sloping = [b - a for (a, bulge), (b, _) in pairwise(ends)
               if not bulge and abs((b - a).real) > 1 and abs((b - a).imag) > 1e-3]  # fmt: skip
    (way,) = sloping
    assert abs(cmath.phase(way if way.real > 0 else -way)) == pytest.approx(rise, abs=2e-4)
    arcs = sum(abs(b - a) for (a, bulge), (b, _) in pairwise(ends) if bulge)
    assert arcs == pytest.approx(100.0, abs=0.05)


@pytest.mark.parametrize("family", FAMILIES)
def test_camber_that_touches_the_hair_fails_there_and_has_a_cure(family):
    """Bent too deep, it is the bend the cure asks to change, to one that clears."""
    deep = stated(family, {"stick.camber_depth": stated(family).values["stick.camber_depth"] + 8})
    assert HairLine(deep).under(np.linspace(0, 1, 4001)).imag.min() < 0
    (failed,) = [c for c in rendering.check(deep) if c.result.rule.id == "bow.hair_clears"]
    assert failed.result.verdict == "fail" and failed.cure.key == "stick.camber_depth"
    name, (x, _) = failed.result.rule.place(deep)
    assert (
        name == "bow-hair-line" and abs(x - HairLine(deep).chord / 2) < 0.1 * HairLine(deep).chord
    )
    cured = stated(family, {"stick.camber_depth": failed.cure.value})
    assert HairLine(cured).under(np.linspace(0, 1, 4001)).imag.min() >= 0
