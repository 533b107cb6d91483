"""Read the charts back from the drawing and compare them with separate calculations.

Sources: Σ m x/Σ m (statics); a histogram's bars add up to the whole; an even arc by any handbook;
more tension leaves less camber.
"""

import math
import re

import numpy as np
import pytest
from outside.maker import FAMILIES, drawn, on, stated

from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.tension import Tension

HIGH, WIDE = 46.0, 150.0


class Chart:
    """One chart of a sheet: the numbers on its axes, and its curves in those units."""

    def __init__(self, drawing, number):
        axes = [e.corners for e in on(drawing, "NOTE")]
        levels = sorted(
            (c for c in axes if len(c) == 2 and abs(abs(c[1][0] - c[0][0]) - WIDE) < 1e-6
             and c[0][0].imag == c[1][0].imag), key=lambda c: -c[0][0].imag)  # fmt: skip
        self.corner = min(levels[number], key=lambda c: c[0].real)[0]
        words = [(t.first(1), complex(t.number(10), t.number(20))) for t in drawing.texts]
        figures = [(float(w), z - self.corner) for w, z in words if re.fullmatch(r"[\d.]+", w)]
        self.ups = {f for f, z in figures if -12 < z.real < 0 and 0 < z.imag < HIGH}
        self.drawing = drawing

    def curves(self, layer):
        """Points in mm from the corner."""
        found = []
        for e in on(self.drawing, layer):
            points = np.array([z for z, _ in e.corners]) - self.corner
            if points.imag.min() > -4.0 and points.imag.max() < HIGH + 1e-6:
                found.append(points)
        return found

    def up(self):
        """Return the units per millimetre of the vertical axis, from its evenly spaced numbers."""
        return max(self.ups) / HIGH


@pytest.mark.parametrize("family", FAMILIES)
def test_bars_sum_to_the_bows_mass_and_line_marks_the_balance(family):
    p = stated(family)
    masses = p.derive(Masses)
    total = sum(float(m.mass) for m in masses.pieces)
    middle = sum(float(m.mass) * float(m.x) for m in masses.pieces) / total
    chart = Chart(drawn(p, "bow-chart-weight"), 0)
    (steps,) = chart.curves("SCRIBE")
    (line,) = chart.curves("CENTRE")
    assert steps.real.max() == pytest.approx(WIDE, abs=1e-3)
    # Slices of 20 mm from 40 behind the butt to the first whole one beyond the head.
    wide = 20.0 * (math.ceil((p.values["stick.length"] + 20.0 + 40.0) / 20.0)) / WIDE
    runs, bars = np.diff(steps.real) * wide, steps.imag[:-1] * chart.up()
    assert (bars * runs).sum() / 20.0 == pytest.approx(total, rel=1e-3)
    places = (steps.real[:-1] * wide) + runs / 2 - 40.0
    assert (bars * runs * places).sum() / 20.0 / total == pytest.approx(middle, abs=3.0)
    assert line[0].real * wide - 40.0 == pytest.approx(middle, abs=0.01)
    # No slice of the stick behind the head is empty, and the head is in the slice of its middle.
    head = next(float(m.x) for m in masses.pieces if m.name == "head")
    bar = dict(zip((steps.real[:-1] * wide - 40.0).round(3), steps.imag[:-1], strict=True))
    at = 20.0 * (head // 20.0)
    whole = [bar[x] * chart.up() for x in np.arange(at - 80.0, at - 20.0, 20.0)]
    assert max(whole) < 1.15 * min(whole)
    assert bar[at] * chart.up() > 1.3 * max(whole)


@pytest.mark.parametrize("family", FAMILIES)
def test_chart_shows_stated_camber_and_less_in_play(family):
    p = stated(family)
    chart = Chart(drawn(p, "bow-chart-bend"), 0)
    (bent,), (played,) = chart.curves("SCRIBE"), chart.curves("HIDDEN")
    assert bent.imag.max() * chart.up() == pytest.approx(p.values["stick.camber_depth"], abs=0.02)
    u = (bent.real - bent.real[0]) / (bent.real[-1] - bent.real[0])
    assert bent.imag / bent.imag.max() == pytest.approx(4 * u * (1 - u), abs=0.01)
    left = float(p.derive(Tension).camber_in_play)
    assert played.imag.max() * chart.up() == pytest.approx(left, abs=0.02)
    assert played.imag.max() < bent.imag.max()


@pytest.mark.parametrize("family", FAMILIES)
def test_camber_decreases_with_tension_and_limits_are_drawn(family):
    p = stated(family)
    chart = Chart(drawn(p, "bow-chart-bend"), 1)
    (clear,), (left,) = chart.curves("SCRIBE"), chart.curves("HIDDEN")
    assert (np.diff(left.imag) <= 1e-9).all() and left.imag[0] > left.imag[-1]
    assert clear.imag[0] < clear.imag[len(clear) // 2]
    lines = chart.curves("CENTRE")
    levels = [ln.imag[0] * chart.up() for ln in lines if abs(ln[0].imag - ln[1].imag) < 1e-9]
    t = p.derive(Tension)
    assert sorted(levels) == pytest.approx(sorted([float(t.least_clear), 3.0]), abs=1e-3)
