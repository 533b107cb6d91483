"""The rules measure the ridge as it is drawn, read back from the DXF file.

Geometry: a piece of chord c and bulge b has the radius c (1 + b²) / 4 |b| (any CAD handbook).
"""

import cmath
import math
from itertools import pairwise

import pytest
from outside.maker import drawn, on, stated

from templates_gen import registry
from templates_gen.errors import InputError
from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import judging

#: Twelve points measured on a ridge with an error of a tenth or two. Circles through three
#: neighbours are nowhere smaller than 4.28 mm; a smooth line through all of them is.
WAVERING = (
    (9.0, 22.9), (11.3, 22.5), (13.7, 21.1), (14.7, 18.9), (15.6, 18.1), (16.7, 15.1),
    (18.2, 12.8), (18.9, 11.3), (20.4, 8.8), (21.2, 7.3), (23.1, 5.1), (25.0, 3.2),
)  # fmt: skip
#: The same head, measured well.
FAIR = (
    (9.0, 22.9), (11.0, 22.7), (13.0, 21.6), (14.6, 19.6), (16.0, 17.0), (17.6, 13.6),
    (19.4, 10.2), (21.4, 7.2), (23.4, 4.8), (25.0, 3.2),
)  # fmt: skip


def pattern(table, **more):
    changes = {f"head.{key}": value for key, value in more.items()}
    return stated("violin", {"head.mortise_length": 7.0, **changes}).with_(
        "head.ridge_points", tuple(table)
    )


def pieces(p):
    """Return the drawn ridge as (start, end, bulge), nose to crown; convex arcs turn left."""
    (outline,) = on(drawn(p, "head-side"), "OUTLINE")
    corners = list(outline.corners)
    nose = complex(p.values["head.face_length"], p.values["head.nose_rise"])
    nose += 1j * p.values["head.nose_thickness"]
    first = next(i for i, (z, _) in enumerate(corners) if abs(z - nose) < 1e-5)
    ring = corners[first:] + corners[:first]
    found = []
    for (a, bulge), (b, _) in pairwise(ring):
        if not bulge:
            return found
        found.append((a, b, bulge))
    raise AssertionError("the ridge ends nowhere")


def radii(p, way):
    return [
        abs(b - a) * (1 + k * k) / (4 * abs(k))
        for a, b, k in pieces(p)
        if math.copysign(1, k) == way
    ]


def judged(p):
    return {c.result.rule.id: c.result for c in judging.check(p)}


def place(p, rule_id):
    (rule,) = [r for r in registry.rules() if r.id == rule_id]
    template, where = rule.place(p)
    assert template == "head-side"
    return complex(*where)


@pytest.mark.parametrize("table", [FAIR, WAVERING], ids=["fair", "wavering"])
def test_the_least_radius_is_that_of_the_tightest_arc_drawn(table):
    p = pattern(table)
    told = judged(p)["head.ridge_radii"]
    least = min(*radii(p, 1.0), *radii(p, -1.0))
    assert told.measured == pytest.approx(least, abs=1e-4)
    assert told.stops == (table is WAVERING)
    tight = min(pieces(p), key=lambda q: abs(q[1] - q[0]) * (1 + q[2] ** 2) / abs(q[2]))
    assert abs(place(p, "head.ridge_radii") - (tight[0] + tight[1]) / 2) < 0.6


def test_a_wavering_line_is_hollow_and_convex_below_the_limit():
    p = pattern(WAVERING)
    assert min(radii(p, 1.0)) < 4.0 and min(radii(p, -1.0)) < 4.0


def test_a_hollow_too_tight_is_refused_as_a_convex_turn_is():
    """One point 1.5 mm too low among good ones: the tightest arc there is hollow."""
    low = [(x, z - 1.5 if x == 19.4 else z) for x, z in FAIR]
    p = pattern(low)
    hollow, convex = min(radii(p, -1.0)), min(radii(p, 1.0))
    assert hollow < 4.0 < convex
    told = judged(p)["head.ridge_radii"]
    assert told.measured == pytest.approx(hollow, abs=1e-4) and told.stops
    assert abs(place(p, "head.ridge_radii").real - 19.4) < 1.0


def test_a_steep_last_step_that_overhangs_is_refused_by_name():
    """The last points stand high, then the line must fall to the nose within 0.3 mm of length."""
    steep = [*FAIR[:7], (21.4, 9.0), (23.4, 8.6), (24.7, 8.4)]
    p = pattern(steep)
    told = judged(p)["head.ridge_ends_at_nose"]
    directions = [math.degrees(cmath.phase(a - b)) for a, b, _ in pieces(p)]
    assert max(map(abs, directions)) > 90.0  # of chords, from the crown on
    assert told.stops and told.measured > max(map(abs, directions)) - 1e-6


def test_a_ridge_that_dips_to_the_face_is_refused_by_name():
    dip = [*FAIR[:6], (19.4, 3.0), (21.4, 1.8), (23.4, 2.4), (25.0, 3.2)]
    p = pattern(dip)
    told = judged(p)["head.ridge_above_nose"]
    lowest = min(min(a.imag, b.imag) for a, b, _ in pieces(p))
    assert told.stops
    assert told.measured == pytest.approx(lowest - p.values["head.nose_rise"], abs=0.06)


def test_points_beyond_the_nose_are_refused_when_read(tmp_path):
    rows = [list(q) for q in (*FAIR[:-1], (25.0, 3.2), (27.0, 3.0))]
    text = 'units = "mm"\nbased_on = "violin"\n[pattern]\nname = "Knot"\n[head]\n'
    file = tmp_path / "knot.toml"
    file.write_text(f"{text}ridge_points = {rows}\n", "utf-8")
    with pytest.raises(InputError) as refused:
        judging.read(str(file))
    (fault,) = refused.value.faults
    assert (fault.key, fault.line) == ("head.ridge_points", 6)
    assert "beyond the nose" in fault.problem and "face_length = 27" in fault.cure
    file.write_text(set_values(file.read_text("utf-8"), {"head.face_length": 27.0}), "utf-8")
    judging.read(str(file))


def test_of_two_arcs_the_steepest_place_is_looked_for_too():
    """A swept ridge is steepest between crown and nose, not where it comes down onto the nose."""
    p = stated("bass-french", {"head.crown_fraction": 0.26, "head.ridge_deg": 32.0})
    told = judged(p)["head.ridge_ends_at_nose"]
    directions = [math.degrees(cmath.phase(a - b)) for a, b, _ in pieces(p)]
    assert told.measured > max(map(abs, directions)) > 33.0
