"""A stick, a camber and a head as measured, carried to every family and back."""

from itertools import permutations

import numpy as np
import pytest
from bench.test_scale import pattern

import templates_gen
from templates_gen.bench.scale import file as scale_file
from templates_gen.errors import InputError
from templates_gen.geometry.flatten import flatten
from templates_gen.parameters.families import FAMILIES
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.outline import ridge
from templates_gen.parts.stick.dims import StickDims
from templates_gen.pipeline import rendering

TABLES = ("stick.stations", "stick.camber_points", "head.ridge_points")


def measured(tmp_path, family):
    """A starter's own stick, camber and ridge, read as with a calliper and a rule.

    The ridge is read to a hundredth: to a tenth, at points so close, its line waves with arcs under
    4 mm, and ``head.ridge_radii`` has the head's height changed.
    """
    p = pattern(tmp_path, family)
    d, h, known = p.derive(StickDims), p.derive(HeadDims), p.schema.parameters
    handle, face, chord = float(d.params.handle_length), float(d.face_rear), float(d.chord)
    places = [0.0, handle, *np.linspace(handle, face, 6).round()[1:-1], round(face) - 1.0]
    depths = [round(chord * share) for share in np.linspace(0.1, 0.9, 7)]
    x, z = np.array(flatten(ridge(p), 0.01)).T
    forward = np.linspace(float(h.crown[0]), float(p.values["head.face_length"]) - 1, 10).round(1)
    return p.with_many(
        {
            "stick.graduation": known["stick.graduation"].choices("stations"),
            "stick.stations": tuple((x, round(float(d.diameter(x)), 2)) for x in places),
            "stick.camber": known["stick.camber"].choices("stations"),
            "stick.camber_points": tuple((x, round(d.camber.at(x)[0], 2)) for x in depths),
            "head.ridge_points": tuple((u, round(float(np.interp(u, x, z)), 2)) for u in forward),
        }
    )


def fails(p):
    return {c.result.rule.id for c in rendering.check(p) if c.result.verdict == "fail"}


@pytest.mark.parametrize(("start", "to"), [*permutations(FAMILIES, 2)])
def test_from_any_family_to_any_other_and_back(tmp_path, start, to):
    p = measured(tmp_path, start)
    there = templates_gen.scale(p, to)
    assert {r.rule.id for r in there.after if r.verdict == "fail"} <= fails(p)
    now, d = there.pattern.values, there.pattern.derive(StickDims)
    assert now["stick.stations"][1][0] == pytest.approx(now["stick.handle_length"], abs=0.01)
    assert now["stick.stations"][-1][0] == pytest.approx(float(d.face_rear) - 1, abs=0.75)
    assert float(d.diameter(d.face_rear)) == pytest.approx(now["stick.diameter_head"], abs=0.03)
    deepest = max(y for _, y in now["stick.camber_points"])
    assert deepest == pytest.approx(now["stick.camber_depth"], abs=0.02)
    crown = there.pattern.derive(HeadDims).crown
    ends = (now["head.ridge_points"][0], now["head.ridge_points"][-1])
    # The stick rises toward the head as its camber has it, which the table does not state.
    assert ends[0] == pytest.approx((float(crown[0]), float(crown[1])), abs=0.6)
    assert now["head.nose_rise"] + now["head.nose_thickness"] < ends[1][1]
    back = templates_gen.scale(there.pattern, start).pattern
    # A head that was changed so that a check holds is not changed back, and its ridge follows it.
    changed = any("so that" in c.why for c in there.changes if c.key.startswith("head."))
    for key in TABLES:
        # A handle whose ends are alike tells nothing of the places between.
        loose = key == "stick.stations" or (key == "head.ridge_points" and changed)
        room = 0.051 if loose else 0.021
        for row, was in zip(back.values[key], p.values[key], strict=True):
            assert row == pytest.approx(was, abs=room), key


MEASURED = """\
units = "mm"
based_on = "violin"

[pattern]
name = "Ruff"

[stick]
graduation = "stations"
stations = [[0, 8.6], [110, 8.6], [300, 8.0], [500, 6.9], [704, 5.3]]  # five places
"""


@pytest.mark.parametrize("to", [f for f in FAMILIES if f != "violin"])
def test_a_measured_stick_is_written_and_holds(tmp_path, to):
    file = tmp_path / "ruff.toml"
    file.write_text(MEASURED, "utf-8")
    scale_file.write(templates_gen.scale(rendering.read(str(file)), to), str(tmp_path / "to.toml"))
    written = rendering.read(str(tmp_path / "to.toml"))
    assert fails(written) == set()
    assert "# five places" in (tmp_path / "to.toml").read_text("utf-8")


def test_a_set_length_takes_the_tables_along(tmp_path):
    p = measured(tmp_path, "bass-french")
    now = templates_gen.scale(p, settings={"stick.handle_length": 116.0}).pattern.values
    assert now["stick.stations"][1] == (116.0, p.values["stick.stations"][1][1])
    assert now["stick.stations"][-1] == pytest.approx(p.values["stick.stations"][-1], abs=0.02)
    assert now["stick.camber_points"] == p.values["stick.camber_points"]
    now = templates_gen.scale(p, settings={"head.height": 31.6}).pattern.values
    (_, was), (_, higher) = p.values["head.ridge_points"][0], now["head.ridge_points"][0]
    assert higher == pytest.approx(was * 31.6 / 31.0, abs=0.05)


def test_reports_a_table_that_cannot_be_scaled_with_its_file(tmp_path):
    """A stick cannot thicken toward the head; the numbers are of the scaled pattern."""
    file = tmp_path / "ruff.toml"
    file.write_text(MEASURED, "utf-8")
    with pytest.raises(InputError, match=r"ruff\.toml: stick\.stations: once scaled, the stick"):
        templates_gen.scale(rendering.read(str(file)), settings={"stick.diameter_head": 9.0})
