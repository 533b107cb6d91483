"""Check how the head's face and the frog's bottom turn when the hair is tightened."""

import math

import numpy as np
import pytest
from outside.maker import stated

from templates_gen.bow.dims.tension import Tension
from templates_gen.shapes.graduation import GraduationKind

THICKNESSES = ("stick.across_flats_butt", "stick.across_flats_handle_end", "stick.diameter_head")


@pytest.mark.parametrize("pull", [0.0, 30.0, 60.0])
def test_face_turns_with_the_end_of_the_stick(pull):
    """A uniform stick, in closed form: y″ + k² y = 8 c / L², k² = T / EI (any handbook of
    mechanics); the face lies along the slack hair and turns as the stick's end does, the frog's
    bottom as the handle does."""
    thick = dict.fromkeys(THICKNESSES, 7.0) | {"stick.graduation": GraduationKind.LINEAR}
    t = stated("violin").with_many(thick).derive(Tension)
    stiff, long = 6.0e6, float(t.travel.stick.chord)
    t.__dict__["stiffness"] = np.full(t.places.shape, stiff)
    first, last = float(t.unstrung[0]), float(t.unstrung[-1])
    bend = 8 * float(t.travel.stick.params.camber_depth) / long**2
    chord = (last - first) / long
    slack = chord - bend * long / 2, chord + bend * long / 2
    drawn = slack
    if pull:
        k = math.sqrt(pull / stiff)
        a = first - bend / k**2
        b = (last - bend / k**2 - a * math.cos(k * long)) / math.sin(k * long)
        drawn = b * k, -a * k * math.sin(k * long) + b * k * math.cos(k * long)
    expected = math.degrees(math.atan(drawn[1]) - math.atan(slack[1]) - math.atan(drawn[0]))
    assert float(t.face_to_frog(pull)) == pytest.approx(expected, abs=0.02)
