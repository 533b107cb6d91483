"""Test details of the bench commands: types in JSON, mistaken units, line numbers of faults."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from templates_gen.bench.calibrate.factors import factors, skew
from templates_gen.bench.fit import measured
from templates_gen.bench.weigh.table import reached_data
from templates_gen.drawing.text import capitalized
from templates_gen.errors import InputError
from templates_gen.parts.material.params import LappingKind


def test_a_reached_target_is_plain_data() -> None:
    """A choice is written as a word, a length as a number, whatever their type in the program."""
    then = SimpleNamespace(total=60.0, from_ferrule=190.0)
    changes = {"lapping.kind": LappingKind.SILVER, "lapping.length": np.float64(61.5)}
    found = SimpleNamespace(met=True, changes=changes, then=then, stuck=[], sound=True, worse=[])
    target = SimpleNamespace(mass=60.0, balance=None)
    data = reached_data(found, target)  # type: ignore[arg-type]
    assert data["set"] == {"lapping.kind": "silver wire", "lapping.length": 61.5}
    assert [type(v) for v in data["set"].values()] == [str, float]


def test_a_sentence_begins_with_a_capital() -> None:
    assert capitalized("bow wood") == "Bow wood"
    assert capitalized("") == ""


@pytest.mark.parametrize(
    ("x", "y", "description"),
    [
        (150 / 25.4, 200 / 25.4, "inches"),
        (15.0, 20.0, "centimetres"),
        (200.0, 150.0, "lengths are swapped"),
        (150 / 25.4 * 1.055, 200 / 25.4 * 1.055, "more than a printer's own error"),
        (150 / 10 * 1.055, 200 / 10 * 1.055, "more than a printer's own error"),
        (150 * 215.9 / 210, 200 * 215.9 / 210, "more than a printer's own error"),
        (150 * 210 / 215.9, 200 * 210 / 215.9, "letter page was fitted onto A4"),
        (150 * 279.4 / 297, 200 * 279.4 / 297, "A4 page was fitted onto letter"),
    ],
)
def test_a_likely_mistake_of_the_printers_page_is_named(
    x: float, y: float, description: str
) -> None:
    """Source: an inch is 25.4 mm; letter is 215.9 × 279.4, A4 210 × 297 (ISO 216)."""
    try:
        factors(x, y)
    except InputError as e:
        assert description in str(e) or (description.startswith("more") and "fill" in str(e))
    else:
        assert description.startswith("more")
        assert 0.97 < x / 150 < 1.03


def test_the_printers_factors_undo_its_error() -> None:
    assert factors(151.0, 199.0) == pytest.approx((150 / 151, 200 / 199))


def test_reports_a_skewed_page_from_its_diagonals() -> None:
    """Source: law of cosines; D1² − D2² = 4ab sin of the angle the paper ran askew."""
    angle = np.radians(0.2)
    a, b = 150.0, 200.0
    d1 = float(np.sqrt(a * a + b * b + 2 * a * b * np.sin(angle)))
    d2 = float(np.sqrt(a * a + b * b - 2 * a * b * np.sin(angle)))
    assert float(skew(d1, d2).degrees) == pytest.approx(0.2, abs=1e-6)


STICK = """units = "mm"

[stick]
length = 700
form = "octagon"
head = "no"
stations = [[10, 8.6], [300, 7.5], [{last}, 5.4]]
"""


@pytest.mark.parametrize(("last", "fails"), [(690, False), (710, True)])
def test_reports_a_station_beyond_the_stick_with_its_line(
    tmp_path: Path, last: int, fails: bool
) -> None:
    file = tmp_path / "measured.toml"
    file.write_text(STICK.format(last=last), "utf-8")
    try:
        measured.read(str(file))
    except InputError as e:
        told = [f for f in e.faults if f.key == "stick.stations" and "beyond" in f.problem]
        assert bool(told) == fails
        if fails:
            assert told[0].line == 7
