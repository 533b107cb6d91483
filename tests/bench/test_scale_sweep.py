"""Every shipped pattern carried to every family: the checks hold, and it comes back."""

from pathlib import Path

import pytest

import templates_gen
from templates_gen.bench.scale import file
from templates_gen.parameters import Scale
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.pipeline import rendering

PARAMS = Path(__file__).parents[2] / "params"
SHIPPED = sorted(f.name for f in PARAMS.glob("*.toml") if f.name != "shop.toml")


@pytest.mark.parametrize("to", FAMILIES)
@pytest.mark.parametrize("name", SHIPPED)
def test_from_any_pattern_to_any_family_and_back(tmp_path, name, to):
    p = rendering.read(str(PARAMS / name))
    there = templates_gen.scale(p, to)
    assert there.failing == ()
    out = tmp_path / name
    file.write(there, str(out))
    written = rendering.read(str(out))
    assert written.values == there.pattern.values
    assert written.tolerances == p.tolerances
    assert written.family.name == to
    assert not rendering.stops(rendering.check(written))
    _stock_stepped(p, there)
    _comes_back(p, there, templates_gen.scale(written, p.family.name))


def _stock_stepped(p, there):
    made = there.pattern
    was, now = bands(p.family.name), bands(made.family.name)
    why = {c.key: c.why for c in there.changes}
    for key, q in p.schema.parameters.items():
        if q.scale is Scale.NEVER and q.numeric:
            if "passes" in why[key] or (q.after and "passes" in why[q.after]):
                sizes = made.values[key] / 0.05
                assert sizes == pytest.approx(round(sizes)), key
                continue
            step = float(now[key].usual) - float(was[key].usual)
            assert made.values[key] == pytest.approx(p.values[key] + step, abs=0.025 + 1e-9), key


def _comes_back(p, there, back):
    gave_way = {c.key for s in (there, back) for c in s.changes if "passes" in c.why}
    for key, q in p.schema.parameters.items():
        if q.choices is not None:
            assert back.pattern.values[key] == p.values[key]
        elif q.points is not None:
            rows = [pytest.approx(row, abs=0.02) for row in p.values[key]]
            assert list(back.pattern.values[key]) == rows, key
        elif key not in gave_way and q.scale not in (Scale.NEVER, Scale.CHARACTER):
            ratio = max(1.0, abs(p.values[key] / (there.pattern.values[key] or 1.0)))
            step = max(p.tolerance(key), 0.01, 1.0 if q.whole else 0.0)
            room = (ratio + 1) / 2 * step
            assert back.pattern.values[key] == pytest.approx(p.values[key], abs=room + 1e-9), key
